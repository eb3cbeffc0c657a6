"""A plan: one way to clock the bar, its work at each end, its figures, and whether it is safe."""
