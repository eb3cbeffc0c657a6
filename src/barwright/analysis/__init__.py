"""The questions about a setup: one file, one question, one frozen answer."""
