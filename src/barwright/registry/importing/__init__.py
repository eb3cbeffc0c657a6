"""A pack made from a table: what a map says of each row becomes records."""
