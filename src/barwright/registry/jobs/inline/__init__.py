"""Parts that a job file describes itself, and a vehicle that no pack knows."""
