"""What stands on a bench sheet: the answer, cautions, tables and steps, of all corners at once."""
