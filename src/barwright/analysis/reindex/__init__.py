"""How to clock a bar so that the adjuster keeps its range, and whether the work is safe."""
