"""How sure is an answer? The one engine of every ±."""
