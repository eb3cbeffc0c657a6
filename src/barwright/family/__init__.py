"""The family matrix: every bar with every vehicle of a registry."""
