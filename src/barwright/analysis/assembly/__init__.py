"""How the bar comes out of its sockets and goes in again, and whether safely."""
