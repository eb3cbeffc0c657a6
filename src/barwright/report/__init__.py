"""Write answers: as JSON for programs, as tables and bench sheets for people."""
