"""What each turn of the adjuster's nut changes: height, travel left and load."""
