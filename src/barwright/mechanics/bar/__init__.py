"""The bar in twist: rate, heads and transitions, fillets, pre-setting."""
