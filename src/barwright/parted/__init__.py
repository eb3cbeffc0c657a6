"""Long work in parts, each a file: a restart does only what is missing, on any machine."""
