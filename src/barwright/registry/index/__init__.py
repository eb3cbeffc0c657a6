"""The cache of records: built anew where anything changed, searched without loading."""
