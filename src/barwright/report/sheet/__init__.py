"""The bench sheet: its steps and their words, figures to set and to measure."""
