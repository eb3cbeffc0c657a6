"""The terminal's text of vehicles, parts and rows says what it must."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.report.text.across.lists import parts_text, rows_text, vehicles_text
from barwright.report.text.fit import fit_row
from barwright.report.text.rates import rates_row
from barwright.report.text.reindex import reindex_row
from sample_records import make_bar, make_setup
from sample_vehicles import make_chassis
from terminal_text import folded, printed

LOWER = bw.Wanted(height="349 mm")


@pytest.mark.parametrize("van", ["short", "middle", "long"])
def test_the_vehicles_are_listed_by_id(van: str) -> None:
    registry = bw.Registry.discover()
    assert f"fells:chassis/{van}" in printed(vehicles_text(registry.vehicles()))


def test_a_vehicle_is_shown_with_what_tells_it_from_others() -> None:
    one = make_chassis(codes=("YD-7", "YD-8"), first_built="2009-03", last_built="2014-05")
    shown = printed(vehicles_text([one, make_chassis("two")]))
    assert [line.split() for line in shown.splitlines()] == [
        ["2", "vehicles."],
        [],
        ["vehicle", "title", "built", "codes", "wheelbase", "axles"],
        [
            *("t:chassis/one", "Van", "2009-03", "to", "2014-05"),
            *("YD-7,", "YD-8", "2400", "mm", "front"),
        ],
        ["t:chassis/two", "Van", "2400", "mm", "front"],
    ]


def test_a_vehicle_whose_sides_differ_is_shown_with_both_wheelbases() -> None:
    one = make_chassis()
    both = attrs.evolve(one, right_side=attrs.evolve(one, wheelbase="2370 mm"))

    assert "  2400 mm / 2370 mm  " in printed(vehicles_text([both]))


def test_rows_sum_answers_up() -> None:
    good, bad = make_setup(), make_setup(bar=make_bar(length="1200 mm"))
    fits = [fit_row(bw.length_fit(setup)) for setup in (good, bad)]
    assert [row["verdict"] for row in fits] == ["fits", "does not fit"]
    rated = [rates_row(bw.rates(setup)) for setup in (good, bad)]
    assert [bool(row["at the wheel"]) for row in rated] == [True, False]
    plans = [reindex_row(bw.reindex(setup, wanted=LOWER)) for setup in (good, bad)]
    assert [row["teeth to remove"] for row in plans] == ["1", ""]
    outcomes = [bw.length_fit(setup).outcome for setup in (good, bad)]
    shown_rows = printed(rows_text(fits, outcomes))
    assert shown_rows.startswith("2 answers: 1 fine, 1 no.")
    assert "does not fit" in shown_rows


def test_parts_are_listed_with_their_telling_figures() -> None:
    registry = bw.Registry.discover()
    shown = folded(parts_text(registry.parts()))
    assert "diameter 23.1 mm, length 904.0 mm" in shown
    assert "0.909 in" in folded(parts_text([bw.in_units(p, "inch") for p in registry.parts()]))


def test_a_part_is_told_from_others_by_all_its_telling_figures() -> None:
    setup = make_setup(bar=make_bar(bore="14 mm"))
    shown = folded(parts_text([setup.bar, setup.damper, setup.anchor, setup.arm]))
    assert shown == (
        "4 parts. part title figures t:bar/one Bar diameter 23.3 mm, bore 14.0 mm, length 904.0 mm "
        "t:damper/one Damper open length 674.0 mm, closed length 486.0 mm "
        "t:tube/one Tube bore 80.0 mm, outside diameter 90.0 mm, socket position 772.0 mm "
        "t:arm/one Arm radius 338.0 mm"
    )


def claim(parts: tuple[str, ...], *, on: str, claimed: bw.parts.Claimed) -> bw.parts.Claim:
    return bw.parts.Claim(
        pack="t",
        parts=parts,
        on=(on,),
        axle=None,
        side=None,
        claimed=claimed,
        source="",
        at="",
        file="t.toml",
        key="fits",
    )


def test_parts_have_a_column_of_what_they_are_ordered_by_and_of_what_they_are_said_to_fit() -> None:
    bar = make_bar(paint="two rings")
    fits, changed = bw.parts.Claimed.FITS, bw.parts.Claimed.FITS_WITH_CHANGES
    claims = [
        claim((bar.id,), on="v:chassis/b", claimed=fits),
        claim(("t:bar/other", bar.id), on="v:chassis/a", claimed=changed),
        claim(("t:bar/other",), on="v:chassis/c", claimed=fits),
    ]
    shown = folded(parts_text([bar], claims))
    assert f"figures ordered by said to fit {bar.id}" in shown
    assert shown.endswith("v:chassis/a with changes, v:chassis/b")
    assert "said to fit" not in folded(parts_text([bar]))
