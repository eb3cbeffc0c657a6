"""The ± of a bar's stresses, where there is one."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.strength import stress_uncertainty as module
from sample_records import make_setup


@pytest.mark.parametrize(
    "row", [{"uncertainty": None}, {"nominal": bw.Quantity(0.0, "MPa")}], ids=["none", "no stress"]
)
def test_what_cannot_be_told_widens_nothing(
    row: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    setup = make_setup()
    known = bw.tolerance(lambda _: bw.Quantity(5.0, "MPa"), setup)
    (stress,) = known.rows
    told = attrs.evolve(known, rows=(attrs.evolve(stress, **row),))
    monkeypatch.setattr(module, "tolerance", lambda *_: told)

    assert module.stress_uncertainty(setup, None) == 0.0
