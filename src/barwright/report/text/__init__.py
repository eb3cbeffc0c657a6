"""Answers for a person at a terminal."""
