"""Where a corner stands, and what rate its bar gives at the wheel."""
