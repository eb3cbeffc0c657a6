"""What all kernels share: types, requirements, vectors, axes, the one iteration."""
