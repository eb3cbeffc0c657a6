"""What all kernels share: types, requirements, vectors, axes, root finding."""
