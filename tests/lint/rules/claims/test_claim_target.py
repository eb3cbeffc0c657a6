"""Rule `claim-target`: the vehicles that parts are said to fit exist."""

from __future__ import annotations

from pathlib import Path

import pytest

from aftermarket_packs import FITS, aftermarket_pack, linted


@pytest.mark.parametrize(
    ("old", "new", "message", "remedy"),
    [
        (
            "tiny:chassis/one",
            "tiny:chassis/oen",
            "there is no 'tiny:chassis/oen'",
            "did you mean 'tiny:chassis/one'?",
        ),
        (
            '"front"',
            '"rear"',
            "'tiny:chassis/one' has no torsion bars at the rear",
            "correct the id or the axle; barwright vehicles lists both",
        ),
    ],
)
def test_a_vehicle_or_an_axle_that_is_not_there_is_an_error(
    tmp_path: Path, old: str, new: str, message: str, remedy: str
) -> None:
    (finding,) = linted(aftermarket_pack(tmp_path, FITS.replace(old, new)))
    assert (finding.rule, finding.is_flaw) == ("claim-target", True)
    assert (finding.message, finding.remedy) == (message, remedy)
