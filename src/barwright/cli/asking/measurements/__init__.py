"""Commands that ask what measurements say, and which are missing."""
