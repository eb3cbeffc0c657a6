"""Where data comes from: packs found by entry point, read as text, never imported."""
