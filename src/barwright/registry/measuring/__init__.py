"""How each figure of a corner is measured, and which questions need it."""
