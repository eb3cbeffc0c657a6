"""Rules on records of any kind."""
