"""The grip of the nut on the adjuster's bolt: stresses of both threads, and the nut's height."""

from __future__ import annotations

import math
from typing import Any

import pytest

import barwright as bw
from barwright.analysis.strength.thread_grip import thread_grip
from barwright.parts import PropertyClass
from sample_records import make_setup

CLASS_8_8 = PropertyClass.CLASS_8_8


def figures_of(setup: bw.Setup) -> bw.answers.StrengthFigures:
    figures = bw.strength(setup).figures
    assert figures is not None
    return figures


def grip_of(**adjuster: Any) -> bw.answers.ThreadGrip:
    """Grip of a nut on an M12 bolt of the usual corner."""
    grip = figures_of(make_setup(adjuster=adjuster)).grip
    assert grip is not None
    return grip


def test_the_load_is_that_of_the_rates() -> None:
    setup = make_setup(adjuster={"property_class": CLASS_8_8})
    rated = bw.rates(setup).figures
    assert rated is not None
    assert figures_of(setup).bolt == rated.bolt


def test_a_thread_by_hand() -> None:
    """M12 coarse: minor diameter 10.106, pitch diameter 10.863 mm (ISO 724)."""
    setup = make_setup(adjuster={"property_class": CLASS_8_8})
    figures = figures_of(setup)
    grip, bolt = figures.grip, figures.bolt
    assert grip is not None
    assert bolt is not None
    force, height = abs(bolt.at_bump.m_as("N")), grip.nut_height.m_as("mm")
    turns = height / 1.75
    of_bolt = math.pi * 10.106 * turns * (0.875 + (10.863 - 10.106) / math.sqrt(3.0))
    of_nut = math.pi * 12.0 * turns * (0.875 + (12.0 - 10.863) / math.sqrt(3.0))
    assert grip.bolt_thread_shear.m_as("MPa") == pytest.approx(force / of_bolt, rel=1e-3)
    assert grip.nut_thread_shear.m_as("MPa") == pytest.approx(force / of_nut, rel=1e-3)
    yields = of_bolt * 580.0 / math.sqrt(3.0)
    assert grip.thread_share == pytest.approx(force / yields, rel=1e-3)
    assert grip.needed_height is not None
    assert bolt.proof_load is not None
    needed = height * float(bolt.proof_load.m_as("N")) / yields
    assert grip.needed_height.m_as("mm") == pytest.approx(needed, rel=1e-3)


def test_a_nut_of_the_needed_height_yields_with_its_bolt() -> None:
    needed = grip_of(property_class=CLASS_8_8).needed_height
    assert needed is not None
    figures = figures_of(make_setup(adjuster={"property_class": CLASS_8_8, "nut_height": needed}))
    assert figures.grip is not None
    assert figures.bolt is not None
    assert figures.grip.thread_share == pytest.approx(figures.bolt.proof_share, rel=1e-9)


@pytest.mark.parametrize(("height", "told"), [("5 mm", True), ("12 mm", False)])
def test_a_nut_that_is_too_low_is_told_and_changes_no_verdict(
    height: str,
    told: bool,  # noqa: FBT001 - a parameter of the test
) -> None:
    adjuster = {"property_class": CLASS_8_8, "nut_height": height}
    answer = bw.strength(make_setup(adjuster=adjuster))
    texts = [f.text for f in answer.findings if f.topic is bw.answers.Topic.THREAD]
    assert [text.startswith("the nut is too low") for text in texts] == [True] * told
    assert answer.verdict is bw.strength(make_setup()).verdict


def test_without_a_class_the_threads_have_stresses_alone() -> None:
    grip = grip_of()
    assert (grip.needed_height, grip.thread_share) == (None, None)
    assert grip.bolt_thread_shear > grip.nut_thread_shear


def test_a_nut_of_unknown_height_has_no_grip() -> None:
    bolt = figures_of(make_setup()).bolt
    setup = make_setup(adjuster={"nut_height": "unknown"})
    assert thread_grip(setup.adjuster, bolt) is None
    assert thread_grip(make_setup().adjuster, bolt) is not None


def test_a_key_levers_bolt_and_a_fixed_socket_have_no_nut() -> None:
    registry = bw.Registry.discover()
    trailer = registry.setup("trundlet:chassis/open", corner="rear left")
    figures = figures_of(trailer)
    assert (figures.bolt, figures.grip) == (None, None)
    assert thread_grip(None, None) is None
    truck = figures_of(registry.setup("hodmule:chassis/short", corner="front left"))
    assert truck.bolt is not None
    assert truck.grip is None
