"""The questions that a setup can be put to: one file, one question, one frozen answer."""
