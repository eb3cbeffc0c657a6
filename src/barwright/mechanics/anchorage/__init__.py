"""What holds the anchor end: levers, cams, the adjuster and its thread."""
