"""Usual ranges of figures: the catalogue that ships with the library, and what takes from it."""
