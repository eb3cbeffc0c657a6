"""The cache of records: rebuilt after a change, searched without loading."""
