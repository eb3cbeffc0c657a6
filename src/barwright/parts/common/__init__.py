"""What all records share: their fields, facts, sources and names, and how each is shown."""
