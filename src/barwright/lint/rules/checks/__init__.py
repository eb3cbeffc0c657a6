"""Rules on the checks that a pack carries."""
