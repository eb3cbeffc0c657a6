"""Types that a program sees: checked by mypy as it checks all of `tests`, and never run."""

from __future__ import annotations

from typing import assert_type

import numpy as np
from numpy.typing import NDArray
from pint.facets.plain import PlainQuantity

import barwright as bw


def records(registry: bw.Registry) -> None:
    """Each kind of part has a method that gives its own class."""
    assert_type(registry.part("p:bar/one"), bw.parts.Part)
    assert_type(bw.family_matrix(registry), bw.answers.FamilyMatrix)
    assert_type(bw.family_chart(registry), bw.answers.FamilyChart)
    assert_type(bw.write_batch(registry.setup("p", corner="c"), "a", "b"), bw.answers.BatchFile)
    assert_type(bw.write_family_matrix(registry, "f.parquet"), bw.answers.FamilyFile)
    assert_type(registry.arm("p:arm/one"), bw.parts.Arm)
    assert_type(registry.bar("p:bar/one"), bw.parts.Bar)
    assert_type(registry.tube("p:tube/one"), bw.parts.Tube)
    assert_type(registry.key_lever("p:key-lever/one"), bw.parts.KeyLever)
    assert_type(registry.fixed_socket("p:fixed-socket/one"), bw.parts.FixedSocket)
    assert_type(registry.adjuster("p:adjuster/one"), bw.parts.Adjuster)
    assert_type(registry.damper("p:damper/one"), bw.parts.Damper)
    assert_type(registry.material("p:material/one"), bw.parts.Material)
    assert_type(registry.chassis("p:chassis/one"), bw.parts.Chassis)
    assert_type(registry.setup("p:chassis/one", corner="front left"), bw.Setup)


def figures(bar: bw.parts.Bar) -> None:
    """A quantity is pint's own, of a float; its number is a float."""
    assert_type(bar.diameter, PlainQuantity[float])
    assert_type(bar.diameter.m_as("mm"), float)
    assert_type(bw.Quantity(25.0, "mm").m_as("in"), float)


def headlines(setup: bw.Setup) -> None:
    """The figure that a question is asked for is an attribute of its answer, and no Optional."""
    assert_type(bw.length_fit(setup), bw.answers.LengthFit)
    assert_type(bw.rates(setup), bw.answers.Rates)
    assert_type(bw.rates(setup).wheel_rate, bw.Quantity)
    assert_type(bw.rates(setup).ride_frequency, bw.Quantity)
    assert_type(bw.rates(setup).ride.height, bw.Quantity)
    assert_type(bw.rates(setup).curve.height, bw.QuantityArray)
    assert_type(bw.rates(setup).curve.height.m_as("mm"), NDArray[np.float64])
    assert_type(bw.ride(setup).height, bw.Quantity)
    assert_type(bw.nut_table(setup).set_row, bw.answers.NutRow)
    assert_type(bw.nut_table(setup).rows_near("2 turn", count=3), tuple[bw.answers.NutRow, ...])
    assert_type(bw.reindex(setup).preferred, bw.answers.Plan)
    assert_type(bw.reindex(setup).preferred.height, bw.Quantity)
    assert_type(bw.strength(setup).bump.stress, bw.Quantity)
    assert_type(bw.strength(setup).life, bw.answers.FatigueLife)
    assert_type(bw.strength(setup).swing, bw.answers.StressSwing)


def outcomes(setup: bw.Setup, one: bw.Setup) -> None:
    """Every answer comes to one of four outcomes."""
    assert_type(bw.compare(setup, one), bw.answers.Comparison)
    assert_type(bw.tolerance(bw.rates, setup), bw.answers.Tolerance)
    assert_type(bw.trail(setup), bw.answers.Trail)
    assert_type(bw.donors(setup, parts=()), bw.answers.Donors)
    assert_type(bw.rates(setup).outcome, bw.Outcome)
    assert_type(bw.rates(setup).verdict, bw.Verdict)
    assert_type(bw.rates(setup).headline, str)
