"""Tables of rows, in memory and in files: read, answered in chunks, and written."""
