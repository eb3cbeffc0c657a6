"""The steps of the calculation by subject: of the bar, the linkage, the springs, the nut."""
