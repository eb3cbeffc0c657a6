"""Job files: from keys to the setups of their corners, variants, histories of travel."""
