"""Strength of a bar: limits of shear stress, fatigue, histories of stress."""
