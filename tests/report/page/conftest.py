"""What the tests of printed pages share."""

from __future__ import annotations

import pytest

import barwright as bw
from sheet_corners import stuck_corner


@pytest.fixture
def refused() -> bw.answers.BenchSheet:
    """The sheet of a job for which no safe way is known."""
    return bw.bench_sheet(bw.Job(title="t", corners=(stuck_corner(),)))
