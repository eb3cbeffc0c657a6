"""What the figures leave open of the reserve of an unloaded bar."""

from __future__ import annotations

import math
from typing import Any, TypeVar

import attrs
import pytest

import barwright as bw
from barwright.parts.common.record import Record
from sample_records import make_bar, make_setup

RecordT = TypeVar("RecordT", bound=Record)
WANTED = bw.Wanted(height="349 mm")
BAR = make_bar(bore="12 mm")
SETUP = make_setup(bar=BAR)

# Two standard uncertainties of a figure that may lie anywhere within its tolerance.
EXPANDED = 2.0 / math.sqrt(3.0)


def with_tolerance(record: RecordT, field: str, tolerance: str) -> RecordT:
    figure = bw.parts.Figure(value=getattr(record, field), tolerance=bw.Quantity(tolerance))
    return attrs.evolve(record, about=bw.parts.About({field: figure}))


def with_part(kind: str, part: Any) -> bw.Setup:
    return SETUP.with_parts(**{kind: part})


def ways(setup: bw.Setup) -> list[bw.answers.Assembly]:
    return list(bw.reindex(setup, wanted=WANTED).removal)


def spare(low: bw.Setup, high: bw.Setup) -> list[float]:
    """Expanded uncertainty by what the reserves change from one setup to the other [rad]."""
    pairs = zip(ways(low), ways(high), strict=True)
    return [
        EXPANDED * abs(float((b.unloading_reserve - a.unloading_reserve).m_as("rad"))) / 2.0
        for a, b in pairs
    ]


def left_open(setup: bw.Setup) -> list[float]:
    return [float(way.unloading_reserve_uncertainty.m_as("rad")) for way in ways(setup)]


def test_exact_figures_leave_nothing_open_of_what_is_to_spare() -> None:
    assert left_open(SETUP) == [0.0, 0.0]
    # Neither a rate nor a load is asked for by a bar that carries no torque.
    assert left_open(with_part("bar", with_tolerance(BAR, "diameter", "0.05 mm"))) == [0.0, 0.0]


@pytest.mark.parametrize(
    ("field", "spread", "on_open", "off_open"),
    [
        ("open_length", "2 mm", True, False),
        ("droop_stop", "0.4 deg", False, True),
        ("key_angle", "0.3 deg", True, True),
        ("blank_angle", "0.2 deg", True, True),
    ],
)
def test_a_tolerance_opens_what_is_to_spare_as_far_as_moving_the_figure_does(
    field: str, spread: str, *, on_open: bool, off_open: bool
) -> None:
    def changed(by: float | None) -> bw.Setup:
        def change(record: RecordT) -> RecordT:
            if by is None:
                return with_tolerance(record, field, spread)
            moved_to = getattr(record, field) + by * bw.Quantity(spread)
            return attrs.evolve(record, **{field: moved_to})

        if field == "droop_stop":
            return attrs.evolve(SETUP, axle=change(SETUP.axle))
        if field == "key_angle":
            return with_part("arm", attrs.evolve(SETUP.arm, socket=change(SETUP.arm.socket)))
        kind = "damper" if field == "open_length" else "bar"
        return with_part(kind, change(SETUP.parts[kind]))

    found = left_open(changed(None))
    assert found == pytest.approx(spare(changed(-1.0), changed(1.0)), rel=1e-3, abs=1e-12)
    assert [value > 0.0 for value in found] == [on_open, off_open]


def test_a_damper_that_is_longer_than_the_travel_opens_nothing() -> None:
    loose = make_setup(bar=BAR, damper={"open_length": "760 mm"})
    assert [way.arm_angle.m_as("deg") for way in ways(loose)] == pytest.approx([-24.0, -24.0])
    known = loose.with_parts(damper=with_tolerance(loose.damper, "open_length", "2 mm"))
    assert left_open(known) == [0.0, 0.0]
