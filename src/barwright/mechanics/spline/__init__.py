"""Splines: tooth forms, clocking, the way in and out, what a head carries."""
