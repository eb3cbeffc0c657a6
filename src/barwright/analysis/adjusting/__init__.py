"""What each turn of the adjuster's nut gives: height, travel left and load."""
