"""What measurements say, and which are missing: of a spring, a fault, a loose bar, a vehicle."""
