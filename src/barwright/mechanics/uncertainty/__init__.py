"""Uncertainty of figures: propagation, sampling, coverage, calibration."""
