"""Commands that check many files."""
