"""Commands that ask of many things together: jobs, rows of a table, vehicles, bars."""
