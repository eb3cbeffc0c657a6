"""A corner in SI: from the records of a setup to the floats that kernels take."""
