"""Find the vehicle that a person means."""
