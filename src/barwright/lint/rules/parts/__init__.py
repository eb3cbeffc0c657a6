"""Rules on parts: their splines, heads, threads and steel."""
