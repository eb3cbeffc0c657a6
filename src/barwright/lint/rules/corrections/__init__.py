"""Rules on what an overlay corrects and prefers."""
