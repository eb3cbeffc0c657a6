"""A tolerance opens the free angle as far as moving the figure itself does."""

from __future__ import annotations

import math
from typing import Any, TypeVar

import attrs
import pytest

import barwright as bw
from barwright.parts.source import Record
from making import fixed_line, make_bar, make_setup, swivelling, tube_of

RecordT = TypeVar("RecordT", bound=Record)
WANTED = bw.Wanted(height="349 mm")
OTHER_STEEL = bw.Material(id="t:material/other", title="Other steel", shear_modulus="77 GPa")


def with_tolerance(record: RecordT, field: str, tolerance: str) -> RecordT:
    figure = bw.Figure(value=getattr(record, field), tolerance=bw.Quantity(tolerance))
    return attrs.evolve(record, about=bw.About({field: figure}))


def opened(setup: bw.Setup) -> float:
    """Tolerance of the free angle [rad]."""
    found = bw.reindex(setup, wanted=WANTED).free_angle_tolerance
    assert found is not None
    return float(found.m_as("rad"))


def moved(low: bw.Setup, high: bw.Setup) -> float:
    """Half of what the free angle changes from one setup to the other [rad]."""
    ends = [bw.reindex(setup, wanted=WANTED).free_angle for setup in (low, high)]
    assert ends[0] is not None
    assert ends[1] is not None
    return abs(float(ends[1].m_as("rad")) - float(ends[0].m_as("rad"))) / 2.0


def with_part(kind: str, part: Any) -> bw.Setup:
    return SETUP.with_parts(**{kind: part})


BAR = make_bar(bore="12 mm")
SETUP = make_setup(bar=BAR)


@pytest.mark.parametrize(
    ("part", "field"),
    [
        ("bar", "diameter"),
        ("bar", "bore"),
        ("tube", "outside_diameter"),
        ("tube", "bore"),
    ],
)
def test_a_diameter_opens_the_free_angle_as_far_as_moving_it_does(part: str, field: str) -> None:
    spread = bw.Quantity("0.05 mm")
    record = SETUP.parts[part]
    middle = getattr(record, field)
    known = with_part(part, with_tolerance(record, field, "0.05 mm"))
    low, high = (
        with_part(part, attrs.evolve(record, **{field: middle + by})) for by in (-spread, spread)
    )

    # The rounds at the bar's heads, which yield less, are taken to scale with its body.
    assert opened(known) == pytest.approx(moved(low, high), rel=0.02)
    assert opened(known) > 0.0


def test_bar_and_tube_of_one_steel_err_together() -> None:
    steel = with_tolerance(BAR.material, "shear_modulus", "1 GPa")
    tube = tube_of(SETUP)

    def of(bar: bw.Material, other: bw.Material) -> bw.Setup:
        return SETUP.with_parts(
            bar=attrs.evolve(BAR, material=bar), tube=attrs.evolve(tube, material=other)
        )

    low, high = (
        of(stiff, stiff)
        for stiff in (attrs.evolve(BAR.material, shear_modulus=g) for g in ("76 GPa", "78 GPa"))
    )
    together = opened(of(steel, steel))
    assert together == pytest.approx(moved(low, high), rel=2e-3)
    # The same tolerance on two steels is two coincidences, which seldom meet.
    other = with_tolerance(OTHER_STEEL, "shear_modulus", "1 GPa")
    alone = opened(of(steel, OTHER_STEEL)), opened(of(BAR.material, other))
    assert together == pytest.approx(sum(alone), rel=1e-6)
    assert opened(of(steel, other)) == pytest.approx(math.hypot(*alone), rel=1e-6)


@pytest.mark.parametrize(
    ("mounting", "field"), [(swivelling(), "pivot_angle"), (fixed_line(), "foot_angle")]
)
def test_the_angle_of_the_bolt_turns_the_lever_with_it(
    mounting: bw.SwivellingMounting | bw.FixedLineMounting, field: str
) -> None:
    known = with_tolerance(mounting, field, "0.5 deg")
    assert opened(make_setup(adjuster={"mounting": known})) == pytest.approx(math.radians(0.5))


# -- What a bar without torque has to spare ---------------------------------------------------


def ways(setup: bw.Setup) -> list[bw.Assembly]:
    return list(bw.reindex(setup, wanted=WANTED).removal)


def spare(low: bw.Setup, high: bw.Setup) -> list[float]:
    """Half of what the reserves change from one setup to the other [rad]."""
    pairs = zip(ways(low), ways(high), strict=True)
    return [abs(float((b.reserve - a.reserve).m_as("rad"))) / 2.0 for a, b in pairs]


def left_open(setup: bw.Setup) -> list[float]:
    return [float(way.tolerance.m_as("rad")) for way in ways(setup)]


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
