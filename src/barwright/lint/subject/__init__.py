"""A pack or an overlay as rules look at it: what it states and checks, and where."""
