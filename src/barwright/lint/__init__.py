"""Is this pack good? One rule a file; a pack's own checks are recomputed by analysis."""
