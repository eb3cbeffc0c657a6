"""How a bar is clocked so that the adjuster keeps its range, and whether the work is safe."""
