"""Tests of `barwright.analysis.across.needs`: what to measure next."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.answer import Outcome
from barwright.answers import FigureState
from barwright.registry.measuring.catalogue import AskedFor, figures_of
from barwright.report.text.measurements.needs import needs_row
from barwright.units import unknown


@pytest.fixture(scope="module")
def truck() -> bw.Setup:
    return bw.Registry.demo().setup("hodmule:chassis/short", corner="front left")


def lacking(setup: bw.Setup) -> bw.Setup:
    """A truck of which some figures are not known."""
    socket = attrs.evolve(setup.anchor.socket, key_angle=unknown())
    axle = attrs.evolve(setup.axle, space_behind=unknown(), tyre_rate=unknown())
    return attrs.evolve(
        setup,
        axle=axle,
        arm=attrs.evolve(setup.arm, radius=unknown()),
        anchor=attrs.evolve(setup.anchor, socket=socket),
    )


def test_what_most_questions_wait_for_is_measured_first(truck: bw.Setup) -> None:
    answer = bw.needs(lacking(truck))
    assert answer.outcome is Outcome.NEEDS_FIGURES
    named = [(row.named, len(row.waiting)) for row in answer.missing]
    assert named == [("arm radius", 5), ("key lever socket key angle", 5), ("space behind", 1)]
    assert answer.headline == (
        "3 missing figures. Measure arm radius first: the rates, the height, the strength, "
        "a plan and the table of the nut need it."
    )
    # No answer waits for the tyre's rate, which is missing all the same.
    states = {row.figure: row.state for row in answer.rows}
    assert states["axle.tyre_rate"] is FigureState.MISSING
    assert [one.line for one in answer.findings] == [
        "the fit waits for space behind",
        (
            "the rates, the height, the strength, a plan and the table of the nut wait for arm "
            "radius, key lever socket key angle"
        ),
    ]


def test_figures_that_several_questions_wait_for_are_listed_once(truck: bw.Setup) -> None:
    known = lacking(truck)
    assert known.adjuster is not None
    adjuster = attrs.evolve(known.adjuster, thread_diameter=unknown())
    answer = bw.needs(attrs.evolve(known, adjuster=adjuster))
    assert [one.line for one in answer.findings][1:] == [
        ("the rates, the height and the strength wait for arm radius, key lever socket key angle"),
        (
            "a plan and the table of the nut wait for the same as the rates, the height and the "
            "strength, and for adjuster thread diameter"
        ),
    ]


def test_what_a_workshop_can_measure_comes_before_what_is_looked_up(truck: bw.Setup) -> None:
    known = lacking(truck)
    socket = attrs.evolve(known.arm.socket, required_engagement=unknown())
    answer = bw.needs(attrs.evolve(known, arm=attrs.evolve(known.arm, socket=socket)))
    assert answer.missing[-1].named == "arm socket required engagement"
    # More questions wait for it than for any other figure.
    assert len(answer.missing[-1].waiting) > len(answer.missing[0].waiting)
    assert answer.headline.startswith("4 missing figures. Measure arm radius first: ")
    assert answer.findings[-1].text == (
        'for arm socket required engagement a usual range may be enough: assume = "usual"'
    )


def test_where_all_is_known_the_largest_share_of_a_tolerance_comes_first(truck: bw.Setup) -> None:
    answer = bw.needs(truck)
    assert answer.outcome is Outcome.FINE
    assert (answer.missing, answer.findings) == ((), ())
    shares = [row.percent for row in answer.unsure]
    assert shares == sorted(shares, reverse=True)
    assert answer.unsure[0].figure == "bar.material.shear_modulus"
    assert answer.headline.startswith("No figure is missing. To narrow the ±, begin with bar mat")
    found = bw.tolerance(bw.rates, truck)
    row = next(row for row in found.rows if row.figure.endswith("ride.wheel_rate"))
    assert answer.unsure[0].percent == pytest.approx(row.shares[0].percent)


def test_without_any_figure_there_is_nothing_to_narrow(truck: bw.Setup) -> None:
    assert attrs.evolve(bw.needs(truck), rows=()).headline == "No figure is missing."


def test_one_figure_is_named_as_one_and_a_data_sheet_is_looked_up(truck: bw.Setup) -> None:
    steel = attrs.evolve(truck.bar.material, shear_modulus=unknown())
    answer = bw.needs(truck.with_parts(bar=attrs.evolve(truck.bar, material=steel)))
    assert answer.headline.startswith("1 missing figure. Look up bar material shear modulus first")


def test_an_assumed_figure_is_told_apart(truck: bw.Setup) -> None:
    states = {row.figure: row.state for row in bw.needs(bw.with_usual(lacking(truck))).rows}
    assert states["axle.tyre_rate"] is FigureState.ASSUMED
    assert states["arm.radius"] is FigureState.MISSING


def test_every_figure_of_the_catalogue_says_how_it_is_measured(truck: bw.Setup) -> None:
    for one in figures_of(truck):
        assert one.tool
        assert one.where[-1] in ".;"
        assert set(one.needed_for) <= set(AskedFor)


def test_a_nut_beyond_its_thread_tells_no_share(truck: bw.Setup) -> None:
    answer = bw.needs(attrs.evolve(truck, nut_turns="99 turn"))
    assert (answer.corner, answer.unsure) == ("front left", ())


def test_rows_tell_themselves_and_sum_up(truck: bw.Setup) -> None:
    answer = bw.needs(lacking(truck))
    assert repr(answer.missing[0]) == "<NeedsRow: arm radius, missing>"
    assert needs_row(answer) == {"missing": "3", "measure first": "arm radius", "with": "tape"}
    bare = needs_row(attrs.evolve(answer, rows=()))
    assert bare == {"missing": "0", "measure first": "nothing", "with": ""}


def test_it_survives_json(truck: bw.Setup) -> None:
    answer = bw.needs(lacking(truck))
    assert bw.from_json(bw.to_json(answer)) == answer
