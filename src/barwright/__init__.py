"""Torsion-bar suspensions: what fits, what rate it gives, how to re-index the bar."""
