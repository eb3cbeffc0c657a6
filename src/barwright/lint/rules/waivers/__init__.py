"""Rules on what a pack waives of these rules."""
