"""Rules on parts."""
