"""The terminal's text of a length fit and its donors says what it must."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.report.text.fit import donors_row, donors_text, fit_row, fit_text
from sample_records import make_bar, make_end, make_setup
from terminal_text import folded


def test_a_fit_shows_both_ends_and_its_verdict() -> None:
    shown = folded(fit_text(bw.length_fit(make_setup())))
    assert shown.startswith("The bar fits")
    assert "engagement 37.0 mm 36.0 mm" in shown


def test_reasons_show_figure_and_limit() -> None:
    shown = folded(fit_text(bw.length_fit(make_setup(bar=make_bar(length="1200 mm")))))
    assert "does not fit" in shown.lower()
    assert "found 1200.0 mm, limit 980.0 mm" in shown
    assert "active length none" in shown


def test_where_a_bar_lies_is_said_not_to_be_known_without_its_figures() -> None:
    shown = folded(fit_text(bw.length_fit(make_setup(axle={"tube_position": "unknown"}))))
    assert "position of the bar not known between the engaged edges not known active" in shown


def test_donors_are_shown_where_a_bar_does_not_fit() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/long", corner="front left")
    bar = registry.part("fells:bar/short-standard")
    assert isinstance(bar, bw.parts.Bar)
    answer = bw.donors(van.with_parts(bar=bar), parts=registry.parts())
    shown = folded(donors_text(answer))
    assert "Donors, best first" in shown
    assert "-171.0 mm 0.0 mm" in shown
    assert "new cap holes" in shown
    none = folded(donors_text(bw.donors(van.with_parts(bar=bar), parts=[])))
    assert "No arm and anchor of the installed packs makes it fit." in none
    fits = folded(donors_text(bw.donors(van, parts=[])))
    assert fits.startswith("The bar fits")


def test_what_donors_are_ordered_by_is_listed() -> None:
    setup = make_setup()
    own = setup.anchor
    numbers = (bw.parts.PartNumber("works", "9-1"), bw.parts.PartNumber("counter", "7"))
    other = attrs.evolve(own, id="t:tube/other", socket_position="868 mm", numbers=numbers)
    bar = make_bar(length="1000 mm")
    answer = bw.donors(setup.with_parts(bar=bar), parts=[other])
    assert [donor.anchor_numbers for donor in answer.combinations] == [numbers]
    shown = folded(donors_text(answer))
    assert "Part numbers t:tube/other: works 9-1, counter 7" in shown


def test_the_best_donors_stand_in_a_row() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/long", corner="front left")
    bar = registry.part("fells:bar/short-standard")
    assert isinstance(bar, bw.parts.Bar)
    setup = van.with_parts(bar=bar)
    best = [
        donors_row(bw.donors(corner, parts=parts))["best donors"]
        for corner, parts in ((van, ()), (setup, ()), (setup, registry.parts()))
    ]
    assert best == ["", "none", "fells:arm/standard and fells:tube/short"]


def test_a_fit_shows_where_the_bar_lies_and_what_passes() -> None:
    bar = make_bar(arm_end=make_end(39, nose="3 mm"), length="932 mm")
    shown = folded(fit_text(bw.length_fit(make_setup(bar=bar))))
    # Outer faces 906 mm apart, splines of 37 mm, sockets of 38 mm: 13 mm stick out at either
    # end, the arm's nose besides, and 14 mm of each head's 24 mm inside are engaged.
    assert (
        "arm end anchor end engagement 24.0 mm 24.0 mm required 24.0 mm 24.0 mm "
        "sticks out 16.0 mm 13.0 mm bare head inside 0.0 mm 0.0 mm Along the bar "
        "position of the bar -13.0 mm (free from -13.0 mm to -13.0 mm) "
        "between the engaged edges 858.0 mm active length" in shown
    )
    assert shown.endswith(
        "lever from its bolt 0.0 mm cap from its holes 0.0 mm largest body that passes 30.8 mm"
    )


def test_a_fit_stands_in_a_row() -> None:
    columns = ["verdict", "arm end", "anchor end", "active length", "because of"]
    fits = fit_row(bw.length_fit(make_setup()))
    assert list(fits) == columns
    assert [fits["arm end"], fits["anchor end"], fits["because of"]] == ["37.0 mm", "36.0 mm", ""]
    off = make_setup(anchor={"lever_position": "44 mm", "cap_position": "700 mm"})
    assert fit_row(bw.length_fit(off))["because of"] == "lever off its bolt, new cap holes"
