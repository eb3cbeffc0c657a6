"""For authors of packs: the JSON Schema, the template of a new pack."""
