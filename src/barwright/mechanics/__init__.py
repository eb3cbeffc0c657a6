"""Mechanics of torsion-bar suspensions: SI floats or arrays only.

Nothing here knows of units, parts or files.  Angles are in radians and positive
in the bump sense, so that left and right share one arithmetic.
"""
