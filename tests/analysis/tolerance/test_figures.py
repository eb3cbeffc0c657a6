"""Every figure with a tolerance is found once, and moved wherever it stands."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import (
    TolerancedFigure,
    figure_places,
    held_figures,
    toleranced_figures,
)
from sample_packs import discovered_once
from sample_records import make_bar, make_parts, make_setup

SETUP = make_setup()
KNOWN = {"bar.diameter": "0.05 mm", "axle.measured_angle": "0.3 deg", "nut_turns": "0.25 turn"}


def demo() -> bw.Setup:
    """A corner of the demo pack, whose figures have tolerances."""
    return discovered_once().setup("fells:chassis/short", corner="front left")


def tube_of(setup: bw.Setup) -> bw.parts.Tube:
    assert isinstance(setup.anchor, bw.parts.Tube)
    return setup.anchor


def by_name(setup: bw.Setup, **half_widths: str) -> dict[str, TolerancedFigure]:
    return {way.figure: way for way in toleranced_figures(setup, half_widths)}


def moved(setup: bw.Setup, shares: dict[TolerancedFigure, float]) -> bw.Setup:
    return FigureShifter(setup, figure_places(setup)).moved(shares)


def with_tolerance(record: Any, field: str, tolerance: bw.Quantity) -> Any:
    figure = bw.parts.Figure(value=getattr(record, field), tolerance=tolerance)
    return attrs.evolve(record, about=bw.parts.About({field: figure}))


def test_the_figures_of_all_records_are_found() -> None:
    ways = by_name(demo())

    assert set(ways) == {
        *("arm.radius", "arm.socket.key_angle", "bar.diameter", "bar.length"),
        *("bar.material.shear_modulus", "anchor.material.shear_modulus", "anchor.outside_diameter"),
        *("anchor.lever_radius", "anchor.socket.key_angle", "adjuster.mounting.pivot_distance"),
        *("axle.measured_height", "axle.measured_angle"),
    }
    assert str(ways["bar.diameter"].value) == "23.1 millimeter"
    assert str(ways["bar.diameter"].half_width) == "0.05 millimeter"


def test_without_tolerances_there_is_none() -> None:
    assert toleranced_figures(SETUP, {}) == ()


def test_the_load_of_a_job_has_the_tolerance_that_the_job_says() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())

    assert str(by_name(job.corners[0].setup)["load.mass"].half_width) == "1.0 kilogram"


def test_half_widths_come_on_top_and_replace() -> None:
    setup = demo()
    ways = {
        way.figure: str(way.half_width)
        for way in toleranced_figures(setup, {"bar.diameter": "0.02 mm", "nut_turns": "0.25 turn"})
    }

    assert ways["bar.diameter"] == "0.02 millimeter"
    assert ways["nut_turns"] == "0.25 turn"
    assert ways["bar.length"] == "0.4 millimeter"


def test_with_a_half_width_of_zero_a_figure_is_exact() -> None:
    assert "bar.diameter" not in {
        way.figure for way in toleranced_figures(demo(), {"bar.diameter": "0 mm"})
    }


def test_a_half_width_is_brought_into_the_unit_of_its_figure() -> None:
    setup = SETUP.with_parts(bar=with_tolerance(SETUP.bar, "diameter", bw.Quantity(0.002, "inch")))
    (way,) = toleranced_figures(setup, {})
    (other,) = toleranced_figures(SETUP, {"bar.diameter": bw.Quantity(0.002, "inch")})

    assert way.half_width.m_as("mm") == other.half_width.m_as("mm") == pytest.approx(0.0508)
    assert str(way.half_width.units) == str(other.half_width.units) == "millimeter"
    assert str(way.at(-0.5)) == "23.2746 millimeter"


def test_a_figure_lies_at_a_share_of_its_half_width() -> None:
    (way,) = toleranced_figures(SETUP, {"bar.diameter": "0.1 mm"})

    assert [way.at(share).m_as("mm") for share in (-1.0, 0.0, 0.5)] == [23.2, 23.3, 23.35]


# -- Records that stand in several places --------------------------------------


def test_one_steel_in_bar_and_tube_is_one_figure() -> None:
    for name in ("bar.material.shear_modulus", "anchor.material.shear_modulus"):
        (way,) = toleranced_figures(SETUP, {name: "3 GPa"})
        setup = moved(SETUP, {way: 1.0})
        parts = (setup.bar, tube_of(setup))
        moduli = [part.material.shear_modulus.m_as("GPa") for part in parts]
        assert moduli == [80.0, 80.0]
        assert setup.axle.left.bar.material.shear_modulus.m_as("GPa") == 80.0


def test_a_tolerance_that_only_one_copy_of_a_record_has_is_that_of_both() -> None:
    steel = with_tolerance(SETUP.bar.material, "shear_modulus", bw.Quantity(1.0, "GPa"))
    setup = SETUP.with_parts(anchor=attrs.evolve(SETUP.anchor, material=steel))
    (way,) = toleranced_figures(setup, {})

    assert way.figure == "anchor.material.shear_modulus"
    assert moved(setup, {way: 1.0}).bar.material.shear_modulus.m_as("GPa") == 78.0


def test_two_steels_are_two_figures() -> None:
    other = bw.parts.Material(id="t:material/other", title="Other", shear_modulus="77 GPa")
    setup = SETUP.with_parts(
        anchor=attrs.evolve(
            SETUP.anchor, material=with_tolerance(other, "shear_modulus", bw.Quantity(3.0, "GPa"))
        )
    )
    (way,) = toleranced_figures(setup, {})
    far = moved(setup, {way: -1.0})

    assert way.figure == "anchor.material.shear_modulus"
    assert tube_of(far).material.shear_modulus.m_as("GPa") == 74.0
    assert far.bar.material.shear_modulus.m_as("GPa") == 77.0


def test_a_part_that_was_changed_is_another_one() -> None:
    turned = SETUP.with_parts(bar=make_bar(diameter="23.0 mm"))
    ways = toleranced_figures(
        turned, {"bar.diameter": "0.1 mm", "axle.left.bar.diameter": "0.2 mm"}
    )
    far = moved(turned, dict.fromkeys(ways, 1.0))

    assert far.bar.diameter.m_as("mm") == pytest.approx(23.1)
    assert far.axle.left.bar.diameter.m_as("mm") == 23.5


def test_equal_sockets_of_two_parts_are_two_things() -> None:
    bar = make_bar(40, 40)
    setup = make_setup(bar=bar, arm_key="0 deg", anchor_key="0 deg")
    assert setup.arm.socket == setup.anchor.socket
    (way,) = toleranced_figures(setup, {"arm.socket.key_angle": "1 deg"})
    far = moved(setup, {way: 1.0})

    assert far.arm.socket.key_angle.m_as("deg") == 1.0
    assert far.anchor.socket.key_angle.m_as("deg") == 0.0


def test_the_axle_is_that_of_the_chassis() -> None:
    setup = demo()
    far = moved(setup, {by_name(setup)["axle.measured_height"]: 1.0})

    assert far.axle.measured_height.m_as("mm") == 407.0
    assert far.chassis.axles == (far.axle,)


def test_two_axles_keep_apart() -> None:
    front = SETUP.axle
    rear = attrs.evolve(front, place=bw.parts.AxlePlace.REAR)
    chassis = attrs.evolve(SETUP.chassis, axles=(front, rear))
    setup = attrs.evolve(SETUP, chassis=chassis)
    ways = toleranced_figures(
        setup, {"axle.tyre_radius": "2 mm", "chassis.axles.rear.tyre_radius": "5 mm"}
    )
    far = moved(setup, dict.fromkeys(ways, 1.0))

    assert far.axle.tyre_radius.m_as("mm") == 285.0
    assert [axle.tyre_radius.m_as("mm") for axle in far.chassis.axles] == [285.0, 288.0]


def test_standard_parts_of_the_other_side_may_lie_elsewhere_too() -> None:
    right = make_parts(make_bar(id="t:bar/right"))
    setup = make_setup(axle={"right": right})
    (way,) = toleranced_figures(setup, {"axle.right.bar.diameter": "0.1 mm"})
    far = moved(setup, {way: 1.0})

    assert far.axle.right is not None
    assert far.axle.right.bar.diameter.m_as("mm") == pytest.approx(23.4)
    assert far.bar.diameter.m_as("mm") == 23.3


# -- Moving ----------------------------------------------------------------------


def test_all_figures_are_moved_at_once() -> None:
    ways = toleranced_figures(SETUP, KNOWN)
    far = moved(SETUP, dict(zip(ways, (1.0, -0.5, 0.25), strict=True)))
    found = {way.figure: share for way, share in zip(ways, (1.0, -0.5, 0.25), strict=True)}

    assert set(found) == set(KNOWN)
    assert far.bar.diameter == {w.figure: w for w in ways}["bar.diameter"].at(found["bar.diameter"])
    assert far.axle.measured_angle.m_as("deg") == pytest.approx(
        -5.0 + 0.3 * found["axle.measured_angle"]
    )
    assert far.nut_turns.m_as("turn") == pytest.approx(0.25 * found["nut_turns"])


def test_what_is_not_moved_is_the_same_record() -> None:
    (way,) = toleranced_figures(SETUP, {"bar.diameter": "0.1 mm"})
    far = moved(SETUP, {way: 1.0})

    assert far.anchor is SETUP.anchor
    assert far.bar.material is SETUP.bar.material
    assert moved(SETUP, {}) is SETUP


def test_a_moved_figure_keeps_what_is_known_of_it() -> None:
    setup = demo()
    far = moved(setup, {by_name(setup)["bar.material.shear_modulus"]: 1.0})
    known = far.bar.material.about["shear_modulus"]
    before = setup.bar.material.about["shear_modulus"]

    assert known == attrs.evolve(before, value=far.bar.material.shear_modulus)
    assert known.tolerance == before.tolerance == bw.Quantity(3.9, "GPa")
    assert far.bar.material.about.keys() == setup.bar.material.about.keys()
    assert far.bar.about["diameter"] == setup.bar.about["diameter"]


def test_a_setup_that_cannot_be_is_refused() -> None:
    (way,) = toleranced_figures(SETUP, {"anchor.bore": "12 mm"})

    assert tube_of(moved(SETUP, {way: -1.0})).bore.m_as("mm") == 68.0
    with pytest.raises(bw.GeometryError, match="G104"):
        moved(SETUP, {way: 1.0})


# -- Half widths -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "remedy"),
    [
        ("bar.girth", "one of: arm.radius, "),
        ("diameter", "one of: bar.diameter, axle.left.bar.diameter, "),
        ("bar", "one of: arm.radius, "),
        ("bar.about", "one of: arm.radius, "),
    ],
)
def test_a_half_width_of_nothing_is_refused(name: str, remedy: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        toleranced_figures(SETUP, {"bar.diameter": "0.1 mm", name: "0.1 mm"})

    assert str(caught.value).startswith(
        f"S201: half_widths: got '{name}', expected a figure of the setup; {remedy}"
    )
    assert caught.value.remedy.count(",") <= 7


@pytest.mark.parametrize(
    ("given", "code"),
    [("-0.1 mm", "Q302"), ("0.1 deg", "Q202"), ("0.1", "Q105"), (bw.Quantity(1.0, "kg"), "Q202")],
)
def test_a_half_width_that_is_none_of_its_figure_is_refused(
    given: bw.Quantity | str, code: str
) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        toleranced_figures(SETUP, {"bar.diameter": given})

    assert (caught.value.code, caught.value.key) == (code, "half_widths.bar.diameter")


def test_where_nothing_adjusts_there_is_no_nut_to_turn() -> None:
    assert "nut_turns" in {held.path for held in held_figures(SETUP)}
    assert "nut_turns" not in {held.path for held in held_figures(on_fixed())}


def test_a_figure_of_several_readings_is_named_by_the_corner_itself() -> None:
    setup = make_setup()
    readings = [bw.parts.measured(setup, height=f"{height} mm ± 2 mm") for height in (391, 380)]
    found = [way.figure for way in toleranced_figures(setup.with_readings(readings), {})]
    assert found == ["reading.height", "further_readings.0.height"]
    places = {place.path for place in held_figures(setup.with_readings(readings))}
    assert "axle.measured_height" in places
    assert not any(".setup." in path for path in places)


def test_what_is_not_to_be_looked_at_holds_no_figure() -> None:
    everywhere = {place.path for place in figure_places(make_setup())}
    below = {place.path for place in figure_places(make_setup(), where=_is_no_end_of_the_bar)}

    assert below == {path for path in everywhere if _is_no_end_of_the_bar(path)}
    assert len(below) < len(everywhere)


def _is_no_end_of_the_bar(path: str) -> bool:
    return "_end" not in path
