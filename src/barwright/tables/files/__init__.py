"""Files of tables, read and written in chunks, and how many of their rows were answered."""
