"""Equations written down: in a line of text, as MathML, and for the typesetter."""
