"""A shop's own records, corrections and preferences, laid over packs."""
