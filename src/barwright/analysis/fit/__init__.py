"""Whether a bar fits between its sockets, and what its heads carry."""
