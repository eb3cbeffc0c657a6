"""Answers for a person: at a terminal, in HTML and in Markdown."""
