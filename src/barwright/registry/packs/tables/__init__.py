"""How a table of a pack becomes a record, and all that is wrong with it."""
