"""Which vehicle is meant by what a person says of it."""
