"""Which bar is this: from what was measured of a loose one to the bars that it may be."""
