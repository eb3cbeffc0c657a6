"""The drawings of the measuring sheet: where each figure is taken, not to scale."""
