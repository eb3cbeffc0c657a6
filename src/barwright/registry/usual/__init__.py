"""Usual ranges of figures: the catalogue in the library, and its use."""
