"""Whether a bar holds, and for how long."""
