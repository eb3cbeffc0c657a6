"""Commands that show or write data: vehicles, parts, packs, pages."""
