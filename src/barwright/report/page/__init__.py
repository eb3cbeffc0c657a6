"""The bench sheet as a page to print: HTML, PDF and Markdown."""
