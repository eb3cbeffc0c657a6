"""The steps of a bench sheet, in the order in which a mechanic takes them, and their words."""
