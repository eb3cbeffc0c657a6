"""Several things together: setups side by side, lists of parts, packs, every bar and vehicle."""
