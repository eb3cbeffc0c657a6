"""How the corners of a pack stand with its parts, and which slip would explain it."""
