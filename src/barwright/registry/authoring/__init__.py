"""For who writes packs: the JSON Schema, the template of a new pack."""
