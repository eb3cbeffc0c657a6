"""The figures of the kernels, a file for each topic; ``kernel_figures.py`` draws them."""
