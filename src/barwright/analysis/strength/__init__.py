"""Whether a bar is strong enough, and how long it lasts."""
