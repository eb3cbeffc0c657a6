"""The drawings of the bench sheet and the marking template, as SVG in millimetres."""
