"""Rules on waivers."""
