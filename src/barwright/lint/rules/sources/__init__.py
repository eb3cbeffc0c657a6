"""Rules on where figures come from."""
