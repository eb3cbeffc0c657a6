"""Whether a bar fits between its sockets, and the load of its heads."""
