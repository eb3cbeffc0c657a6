"""The calculation behind an answer, step by step, as an engineer writes it by hand."""
