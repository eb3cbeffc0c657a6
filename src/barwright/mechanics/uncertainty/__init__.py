"""How sure a figure is: propagation, sampling, coverage, calibration."""
