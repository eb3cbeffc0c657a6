"""Corners of jobs and vehicles as the rows of a table, answered together where they are alike."""
