"""Rules on vehicles as they left the works."""
