"""The family chart made readable: its words, its picture, its cells for a spreadsheet."""
