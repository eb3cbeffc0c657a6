"""How any text is laid out: lines, tables and pages, at a terminal, in HTML and in Markdown."""
