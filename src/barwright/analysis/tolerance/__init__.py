"""Uncertainty of answers: the one engine of every ±."""
