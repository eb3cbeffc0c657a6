"""Questions over several setups: compare them, check their files, find donor parts."""
