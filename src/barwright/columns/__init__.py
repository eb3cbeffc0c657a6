"""The same questions over columns of figures: many corners that differ in some of them."""
