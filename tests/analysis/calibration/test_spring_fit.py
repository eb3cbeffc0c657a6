"""Tests of `spring_fit` and of what the figures leave open: one meaning of every ±."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.analysis.calibration.figure_uncertainty import figure_uncertainty
from barwright.analysis.calibration.spring_fit import (
    ReadCorner,
    SpringFit,
    free_angle_fit,
    spring_fit,
)
from barwright.analysis.corner.corner import Corner
from barwright.units import ANGLE, TORSIONAL_RATE, quantity
from read_corners import read, true_corner
from sample_records import make_setup

FIGURES = make_setup()
TRUE = true_corner()


def read_corner(setup: bw.Setup) -> ReadCorner:
    return ReadCorner.of(Corner(setup))


def test_the_errors_are_those_of_the_one_engine() -> None:
    """The standard errors of the line are what moving every reading within its ± gives."""
    pins = ("160 mm", "157 mm", "162 mm", "159 mm")
    setup = FIGURES.with_readings(read(FIGURES, TRUE, pins=pins))
    found = spring_fit(read_corner(setup))

    def rate(moved: bw.Setup) -> bw.Quantity:
        return quantity(spring_fit(read_corner(moved)).rate, TORSIONAL_RATE)

    def clocked(moved: bw.Setup) -> bw.Quantity:
        return quantity(spring_fit(read_corner(moved)).clocked_angle, ANGLE)

    for question, error, kind in (
        (rate, found.rate_error, TORSIONAL_RATE),
        (clocked, found.clocked_error, ANGLE),
    ):
        (row,) = bw.tolerance(question, setup).rows
        assert error is not None
        assert row.uncertainty is not None
        expected = quantity(2.0 * error, kind)
        assert float(row.uncertainty.m_as(expected.units)) == pytest.approx(
            float(expected.magnitude), rel=0.05
        )


def test_a_setup_with_readings_stands_where_the_line_says() -> None:
    """At the rate that was found, the free angle of the setup is that of the line."""
    readings = read(FIGURES, TRUE, off=(1.0, -2.0, 0.5, 1.5))
    answer = bw.calibrate(FIGURES, readings)
    bar = FIGURES.bar
    assert answer.bar_rate is not None
    assert answer.free_angle is not None
    found = attrs.evolve(bar, measured_rate=answer.bar_rate)
    measured = FIGURES.with_parts(bar=found).with_readings(
        [attrs.evolve(one, setup=one.setup.with_parts(bar=found)) for one in readings]
    )
    assert Corner(measured).free_angle == pytest.approx(
        float(answer.free_angle.m_as("rad")), abs=2e-5
    )


def test_the_free_angle_alone_is_a_weighted_mean() -> None:
    setup = FIGURES.with_readings(read(FIGURES, FIGURES, off=(2.0, 0.0, -1.0, 0.0)))
    corner = read_corner(setup)
    found = free_angle_fit(corner)
    errors = corner.errors(corner.expected_rate)
    each = corner.twist - corner.torque / corner.expected_rate
    assert found.clocked_angle == pytest.approx(np.average(each, weights=errors**-2.0))
    assert found.clocked_error == pytest.approx(np.sum(errors**-2.0) ** -0.5)
    bare = FIGURES.with_readings(read(FIGURES, FIGURES, off=(2.0, 0.0, -1.0, 0.0), height=""))
    scattered = free_angle_fit(read_corner(bare))
    assert scattered.clocked_error == pytest.approx(np.std(each, ddof=1) / 2.0, rel=1e-3)


def known_to(record: Any, field: str, half: str) -> Any:
    """The record with a ± of one of its figures."""
    figure = bw.parts.Figure(value=getattr(record, field), tolerance=bw.Quantity(half))
    return record.described({field: figure})


def test_an_end_of_a_tolerance_without_a_spring_is_left_out() -> None:
    setup = FIGURES.with_parts(
        arm=known_to(FIGURES.arm, "radius", "10 mm"),
        anchor=known_to(FIGURES.anchor, "bore", "20 mm"),
    )
    corner = Corner(setup.with_readings(read(setup, FIGURES)))
    asked: list[ReadCorner] = []

    def only_as_it_is(read: ReadCorner) -> SpringFit:
        asked.append(read)
        if read.corner.setup.arm.radius != setup.arm.radius:
            raise bw.QuantityError("Q302", value="none", expected="", remedy="", key="")
        return spring_fit(read)

    assert figure_uncertainty(corner, only_as_it_is) == (0.0, 0.0)
    # Both ends of the radius, one end of the bore, and the corner as it is.
    assert len(asked) == 4
    assert figure_uncertainty(corner, spring_fit)[0] > 0.0
