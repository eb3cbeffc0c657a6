"""The bar of a corner: where it lies, its fillets, the length that twists, its mass, its rates."""
