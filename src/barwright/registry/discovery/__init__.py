"""Installed packs, found by the metadata of their distributions and never imported."""
