"""Lets NumPy solve equations in one thread, once it is imported: before NumPy is.

Those of the tests are small, and threads that wait for more keep a core from the tests beside.
"""

from __future__ import annotations

import os

__all__: list[str] = []

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
