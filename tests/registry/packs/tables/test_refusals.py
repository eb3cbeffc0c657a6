"""Problems of records, out of what was raised."""

from __future__ import annotations

import pytest

from barwright.registry.files.user_cache import DamagedIndexError
from barwright.registry.packs.tables.refusals import problems_of


def test_a_damaged_index_is_no_problem_of_a_record() -> None:
    damaged = ExceptionGroup("a record", [DamagedIndexError("the index changed")])

    with pytest.raises(DamagedIndexError):
        problems_of(damaged)
