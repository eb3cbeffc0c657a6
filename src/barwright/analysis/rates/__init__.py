"""Height of a corner, and the rate of its bar at the wheel."""
