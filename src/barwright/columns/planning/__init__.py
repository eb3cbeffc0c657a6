"""Plans of a column of corners: candidates, what forbids them, and the one that is preferred."""
