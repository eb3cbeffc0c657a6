"""Commands that ask about a job."""
