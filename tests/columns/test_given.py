"""`given`: columns as callers give them."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from barwright.columns.given import in_one_piece


@given(st.sets(st.integers(0, 9), min_size=1))
def test_rows_in_one_piece_are_the_same_rows(rows: set[int]) -> None:
    chosen, figures = np.array(sorted(rows)), np.arange(10.0)
    piece = in_one_piece(chosen)

    assert figures[piece].tolist() == figures[chosen].tolist()
    assert isinstance(piece, slice) == (len(rows) == max(rows) - min(rows) + 1)
