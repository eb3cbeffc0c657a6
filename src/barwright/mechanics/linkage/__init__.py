"""Suspension linkages in the plane square to the bar axis, and wheel alignment."""
