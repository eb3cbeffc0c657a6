"""Which bar for a goal: a search over bars and the parts beside them, and the best of it."""
