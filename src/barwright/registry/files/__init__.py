"""Files of unknown origin, read safely: limits, lines, safe opening, the cache folder."""
