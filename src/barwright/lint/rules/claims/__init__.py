"""Rules for what a pack says its parts fit."""
