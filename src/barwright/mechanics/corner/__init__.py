"""One corner of a vehicle: at rest on its springs, and damped."""
