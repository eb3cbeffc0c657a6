"""Mechanics of torsion-bar suspensions in SI units: floats or arrays, nothing else.

Nothing here knows of units, parts or files.  Angles are in radians and positive
in the bump sense, so that left and right share one arithmetic.
"""
