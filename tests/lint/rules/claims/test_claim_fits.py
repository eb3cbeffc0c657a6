"""Rule `claim-fits`: parts fit what they are said to fit."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from aftermarket_packs import BAR, BOTH, FITS, aftermarket_pack, linted, said, with_bar
from sample_packs import GOOD_PACK

BARE = ('major_diameter = "30 mm"', 'blanks = []\nmajor_diameter = "30 mm"')


def test_parts_that_fit_as_it_is_said_are_good(tmp_path: Path) -> None:
    assert said(with_bar(tmp_path)) == []


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (("teeth = 39", "teeth = 38"), f"{BOTH}: does not fit: the tooth counts differ"),
        (('"904 mm"', '"700 mm"'), f"{BOTH}: does not fit: the bar is too short"),
        (BARE, f"{BOTH}: fits only with changes: no blank for the socket's key"),
    ],
)
def test_parts_that_do_not_fit_are_told_with_the_reason(
    tmp_path: Path, change: tuple[str, str], message: str
) -> None:
    findings = linted(with_bar(tmp_path, change))
    assert findings[0].rule == "claim-fits"
    assert findings[0].message.startswith(message)
    assert (findings[0].of, findings[0].file) == ("bar/two", "bars.toml")
    assert findings[0].line > 0


def test_changes_may_be_said(tmp_path: Path) -> None:
    with_changes = FITS.replace('as = "fits"', 'as = "fits with changes"')
    # What it stands at cannot be planned: nothing shows the count of that end.
    assert said(with_bar(tmp_path, BARE, fits=with_changes)) == []


def test_a_side_that_parts_are_not_made_for_is_told(tmp_path: Path) -> None:
    """A pre-set bar fits one side; the claim leaves the side out."""
    preset = ('title = "Other bar"', 'title = "Other bar"\nmade_for = "left"\npreset = true')
    (finding,) = said(with_bar(tmp_path, preset))
    assert finding[0] == "claim-fits"
    assert finding[1].startswith("on tiny:chassis/one, front right: does not fit: the pre-setting")
    left = FITS.replace("axle =", 'side = "left"\naxle =')
    shutil.rmtree(tmp_path / "extra")
    assert said(with_bar(tmp_path, preset, fits=left)) == []


def test_of_parts_of_several_kinds_one_of_each_goes_on(tmp_path: Path) -> None:
    damper = """
[[damper]]
id = "short"
title = "Short damper"
source = "list"
open_length = "150 mm"
closed_length = "100 mm"
"""
    other = BAR.replace('"two"', '"three"').replace("Other bar", "Third bar")
    other = other.replace('"904 mm"', '"700 mm"')
    fits = FITS.replace('"bar/two"', '"bar/two", "bar/three", "damper/short"')
    messages = [text for _, text in said(aftermarket_pack(tmp_path, other, damper, fits))]
    assert any(text.startswith("bar/two, damper/short on") for text in messages)
    assert any(text.startswith("bar/three, damper/short on") for text in messages)
    assert not any("bar/two, bar/three" in text for text in messages)


def test_parts_that_do_not_go_together_are_told(tmp_path: Path) -> None:
    socket = """
[[fixed-socket]]
id = "fixed"
title = "Fixed socket"
source = "list"
anchor_angle = "10 deg"
socket_position = "800 mm"
[fixed-socket.socket]
teeth = 42
form = "involute"
length = "38 mm"
minor_diameter = "31.1 mm"
required_engagement = "24 mm"
key_angle = "-181 deg"
[[adjuster]]
id = "own"
title = "Adjuster"
source = "list"
mounting = { kind = "swivelling", pivot_distance = "142 mm", pivot_angle = "97 deg" }
lever_lies = "bumpward"
thread_diameter = "12 mm"
thread_pitch = "1.75 mm"
thread_start = "150 mm"
thread_end = "191.5 mm"
nut_height = "10.5 mm"
"""
    fits = FITS.replace('"bar/two"', '"bar/two", "fixed-socket/fixed", "adjuster/own"')
    (finding, *_) = said(aftermarket_pack(tmp_path, socket, fits))
    assert finding[0] == "claim-fits"
    assert "cannot be put on: got" in finding[1]


def test_what_the_other_pack_says_now_counts(tmp_path: Path) -> None:
    """No index keeps what was found of another pack."""
    other = tmp_path / "other"
    shutil.copytree(GOOD_PACK, other)
    pack = with_bar(tmp_path)
    assert said(pack, other) == []
    parts = (other / "parts.toml").read_text(encoding="utf-8")
    (other / "parts.toml").write_text(parts.replace("teeth = 39", "teeth = 37"), encoding="utf-8")
    assert "the tooth counts differ" in said(pack, other)[0][1]
