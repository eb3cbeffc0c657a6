"""Data only: this module is found by its import spec and never imported."""
