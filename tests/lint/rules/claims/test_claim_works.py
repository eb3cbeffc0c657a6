"""Rule `claim-works`: parts that fit also carry the vehicle at its standard height."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import NoReturn

import pytest

import barwright as bw
from aftermarket_packs import BOTH, FITS, aftermarket_pack, linted, said, with_bar
from barwright.lint.rules.claims import claim_works
from sample_packs import GOOD_PACK


def test_changes_that_are_not_needed_are_told(tmp_path: Path) -> None:
    with_changes = FITS.replace('as = "fits"', 'as = "fits with changes"')
    assert said(with_bar(tmp_path, fits=with_changes)) == [
        ("claim-works", f"{BOTH}: fits without any change")
    ]


@pytest.mark.parametrize(
    ("change", "message"),
    [
        # A soft bar is wound further for the same load; one of mild steel is not up to it.
        (('"23.6 mm ± 0.05 mm"', '"16 mm"'), "at the standard height: "),
        # Blanks set apart send the standard height off the adjuster's thread.
        (("length =", 'blank_angle = "20 deg"\nlength ='), "to stand at the standard height: "),
    ],
)
def test_parts_that_fit_must_also_carry_the_vehicle(
    tmp_path: Path, change: tuple[str, str], message: str
) -> None:
    old, new = change
    pack = aftermarket_pack(tmp_path, FITS)
    text = (pack / "bars.toml").read_text(encoding="utf-8")
    assert old in text
    (pack / "bars.toml").write_text(text.replace(old, new, 1), encoding="utf-8")
    found = linted(pack, rule="claim-works")
    assert found
    assert message in found[0].message


def test_what_the_standard_parts_cannot_do_is_no_fault_of_others(tmp_path: Path) -> None:
    weak = tmp_path / "weak"
    shutil.copytree(GOOD_PACK, weak)
    vehicles = (weak / "vehicles.toml").read_text(encoding="utf-8")
    lifted = re.sub(r'standard_height = "\d+ mm"', 'standard_height = "520 mm"', vehicles)
    assert lifted != vehicles
    (weak / "vehicles.toml").write_text(lifted, encoding="utf-8")
    assert said(with_bar(tmp_path), weak) == []


def test_what_cannot_be_planned_is_told_elsewhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> NoReturn:
        raise bw.GeometryError("G101", value="", expected="", remedy="")

    monkeypatch.setattr(claim_works, "reindex", refuse)

    assert linted(aftermarket_pack(tmp_path, FITS), rule="claim-works") == []
