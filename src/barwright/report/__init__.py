"""Answers made readable: as JSON for programs, as tables and bench sheets for people."""
