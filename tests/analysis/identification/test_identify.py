"""Which listed bar a loose one is, and what to measure next."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

import barwright as bw
from aftermarket_packs import BAR, FITS, aftermarket_pack
from barwright.parts import MeasuredBar, MeasuredEnd
from loose_bars import calibration, trials
from sample_packs import GOOD_PACK, discovered_once

FIRM = "fells:bar/short-firm"
PRESET = ("fells:bar/short-preset-left", "fells:bar/short-preset-right")


def asked(**figures: Any) -> bw.answers.Identification:
    return bw.identify(MeasuredBar(**figures), registry=discovered_once())


def both_ends(arm: int = 39, anchor: int = 42) -> list[MeasuredEnd]:
    return [MeasuredEnd(teeth=anchor), MeasuredEnd(teeth=arm)]


def test_a_bar_is_known_by_what_a_calliper_and_a_tape_say() -> None:
    answer = asked(diameter="25.0 mm", length="904 mm", ends=both_ends())

    assert answer.verdict is bw.Verdict.IDENTIFIED
    assert answer.outcome is bw.Outcome.FINE
    assert answer.possible_bars[0].bar_ids == (FIRM,)
    assert answer.possible_bars[0].arm_end == 2
    assert answer.headline == f"Firm bar, short van ({FIRM}): over 99 %."
    assert answer.next_readings == ()


def test_one_wrong_figure_of_five_hides_no_bar_and_is_named() -> None:
    ends = [MeasuredEnd(teeth=39, length="37 mm"), MeasuredEnd(teeth=42)]

    answer = asked(diameter="25.0 mm", length="874 mm", ends=ends)

    assert answer.verdict is bw.Verdict.IDENTIFIED
    assert answer.outcome is bw.Outcome.FINE_WITH_CHANGES
    assert answer.possible_bars[0].bar_ids == (FIRM,)
    (odd,) = answer.disagreeing
    assert odd.named == "length over both splines"
    assert isinstance(odd.listed, bw.Quantity)
    assert odd.listed.m_as("mm") == pytest.approx(904.0)
    assert "The length over both splines is not as listed: check it." in answer.headline
    assert answer.findings[0].line.endswith("is not as listed; measured: 874.0 mm")


def test_a_miscounted_tooth_is_told_as_one() -> None:
    answer = asked(diameter="25.0 mm", length="904 mm", ends=both_ends(anchor=41))

    assert answer.possible_bars[0].bar_ids == (FIRM,)
    (odd,) = answer.disagreeing
    assert (odd.named, odd.observed, odd.listed) == ("tooth count of the end with 41 teeth", 41, 42)


def test_bars_that_differ_in_nothing_listed_are_named_together() -> None:
    answer = asked(diameter="24.2 mm", length="904 mm")

    assert answer.verdict is bw.Verdict.IDENTIFIED
    assert answer.possible_bars[0].bar_ids == PRESET
    assert "which no figure tells apart" in answer.headline


def test_what_would_decide_is_asked_for_next() -> None:
    answer = asked(diameter="23.1 mm", ends=both_ends())

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    first = answer.next_readings[0]
    assert first.asked == "measure the angle between the blanks of both ends"
    assert first.tool == "protractor"
    assert first.certainty > 0.95
    # And it does decide.
    told = asked(diameter="23.1 mm", ends=both_ends(), blank_angle="-4.3 deg")
    assert told.possible_bars[0].bar_ids == ("fells:bar/short-angled-right",)
    assert told.verdict is bw.Verdict.IDENTIFIED


def test_a_whole_turn_of_the_blank_angle_does_not_count() -> None:
    around = asked(diameter="23.1 mm", ends=both_ends(), blank_angle="355.7 deg")

    assert around.possible_bars[0].bar_ids == ("fells:bar/short-angled-right",)


def test_a_doubtful_reading_is_asked_for_again() -> None:
    answer = asked(diameter="25.0 mm", length="874 mm", ends=both_ends())

    again = [one for one in answer.next_readings if one.is_repeated]
    assert [one.asked for one in again] == ["measure the length over both splines again"]


def test_the_second_end_is_asked_for_by_its_place() -> None:
    answer = asked(length="990 mm", ends=[MeasuredEnd(teeth=36)])

    counts = {one.asked for one in answer.next_readings if one.tool == "count"}
    assert counts == {
        "count the teeth of the end with 36 teeth again",
        "count the teeth of the other end",
    }


def test_a_bar_of_which_no_end_was_looked_at_has_one_end_first() -> None:
    answer = asked(length="2000 mm")

    assert any(one.asked.endswith(" of one end") for one in answer.next_readings)


def test_ends_with_one_tooth_count_are_told_by_their_order() -> None:
    ends = [MeasuredEnd(teeth=39, nose="9 mm"), MeasuredEnd(teeth=39)]

    answer = asked(diameter="25.0 mm", length="904 mm", ends=ends)

    names = [one.named for one in answer.disagreeing]
    assert "length of the nose of the first end" in names


def test_a_bar_that_no_pack_lists_is_told_with_the_nearest() -> None:
    answer = asked(diameter="31 mm", length="700 mm", ends=both_ends(22, 29))

    assert answer.verdict is bw.Verdict.NOT_LISTED
    assert answer.outcome is bw.Outcome.NO
    assert answer.unlisted > 0.99
    assert len(answer.possible_bars) == 1
    assert answer.headline.startswith("No listed bar has these figures (over 99 %). The nearest is")
    assert len(answer.disagreeing) == 4


def test_a_single_odd_figure_leaves_it_open_whether_the_bar_is_listed() -> None:
    answer = asked(length="1500 mm")

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert answer.headline.startswith("It is probably a bar that no pack lists (")
    assert answer.disagreeing == ()


def test_a_registry_without_bars_lists_none() -> None:
    registry = bw.Registry.from_folders(cache=False)

    answer = bw.identify(MeasuredBar(diameter="25 mm"), registry=registry)

    assert (answer.verdict, answer.possible_bars, answer.unlisted) == (
        bw.Verdict.NOT_LISTED,
        (),
        1.0,
    )
    assert answer.headline == "No listed bar has these figures (over 99 %)."
    assert answer.next_readings == ()


def test_a_stated_error_counts_and_the_usual_one_is_told() -> None:
    wide = asked(diameter="24.6 mm ± 0.6 mm", length="904 mm ± 1 mm", ends=both_ends())

    assert wide.assumed == ()
    assert wide.verdict is bw.Verdict.NEEDS_FIGURES
    assert wide.next_readings[0].asked == "measure the diameter of the body again"
    told = asked(diameter="24.6 mm", length="904 mm", ends=both_ends())
    assert [(one.tool, one.named_figures) for one in told.assumed] == [
        ("calliper", ("diameter of the body",)),
        ("tape", ("length over both splines",)),
    ]


def test_two_bars_that_no_tool_tells_apart_are_both_named(tmp_path: Path) -> None:
    near = BAR.replace('"two"', '"three"').replace("23.6 mm", "23.63 mm")
    registry = bw.Registry.from_folders(aftermarket_pack(tmp_path, near), cache=False)
    measured = MeasuredBar(diameter="23.61 mm", length="904 mm", ends=both_ends())

    answer = bw.identify(measured, registry=registry)

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert answer.next_readings == ()
    assert answer.headline.endswith("No further figure tells them apart.")
    assert "another bar" not in answer.headline


def test_vehicles_that_left_the_works_with_a_bar_are_named() -> None:
    answer = asked(diameter="24.4 mm", length="1075 mm", ends=both_ends())

    assert answer.possible_bars[0].standard_on == ("fells:chassis/long front",)


def test_vehicles_that_a_pack_claims_are_named(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, FITS)
    registry = bw.Registry.from_folders(GOOD_PACK, pack, cache=False)

    answer = bw.identify(MeasuredBar(diameter="23.6 mm"), registry=registry)

    (own,) = (bar for bar in answer.possible_bars if bar.bar_ids == ("extra:bar/two",))
    assert own.claimed_for == ("tiny:chassis/one",)


def test_nothing_measured_is_no_question() -> None:
    for nothing in (MeasuredBar(), MeasuredBar(ends=[MeasuredEnd(), MeasuredEnd()])):
        with pytest.raises(bw.SchemaError, match="nothing was measured"):
            bw.identify(nothing, registry=discovered_once())


def test_gaps_alone_are_something_seen() -> None:
    answer = asked(ends=[MeasuredEnd(blanks=(0,))])

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert answer.headline.startswith("It may be ")
    assert "or another bar" in answer.headline


def test_a_figure_that_is_not_listed_neither_helps_nor_hurts(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path)
    bars = pack / "bars.toml"
    text = bars.read_text(encoding="utf-8")
    known = bw.Registry.from_folders(pack, cache=False)
    bars.write_text(text.replace('diameter = "23.6 mm ± 0.05 mm"\n', ""), encoding="utf-8")
    blank = bw.Registry.from_folders(pack, cache=False)
    measured = MeasuredBar(diameter="23.6 mm", length="904 mm", bore="0 mm")

    with_it, without = (bw.identify(measured, registry=one) for one in (known, blank))

    assert with_it.possible_bars[0].probability > without.possible_bars[0].probability > 0.9
    assert without.disagreeing == ()
    assert not any("diameter of the body" in one.asked for one in without.next_readings)


def test_an_end_whose_count_is_not_listed_may_have_any_gaps(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path)
    bars = pack / "bars.toml"
    text = bars.read_text(encoding="utf-8")
    bars.write_text(text.replace("teeth = 39\n", ""), encoding="utf-8")
    registry = bw.Registry.from_folders(pack, cache=False)

    one, three = (
        bw.identify(MeasuredBar(ends=[MeasuredEnd(blanks=blanks)]), registry=registry)
        for blanks in ((0,), (0, 4, 9))
    )

    assert one.possible_bars[0].probability > three.possible_bars[0].probability


@pytest.mark.rare
def test_stated_probabilities_hold() -> None:
    done = [*trials(500, seed=3, least=2, most=6), *trials(300, seed=4, least=16, most=16)]

    many = [row for row in calibration(done) if row[2] >= 100]
    assert many
    for stated, share, number in many:
        assert abs(stated - share) < 0.02 + 3.0 * np.sqrt(stated * (1.0 - stated) / number)


def test_with_all_figures_the_likeliest_is_the_right_one() -> None:
    done = list(trials(300, seed=6, least=16, most=16))

    assert np.mean([one.is_right for one in done]) > 0.95
