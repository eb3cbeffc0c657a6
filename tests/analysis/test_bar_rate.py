"""The rate of a bar by itself: figures by hand, their ±, and bars that do not go with a tube."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.bar_rate import bar_rests_on
from barwright.analysis.tolerance.answer_figures import answer_figures
from barwright.parts.common.fields import known_or_not
from barwright.parts.common.record import Record
from barwright.units import is_unknown
from each_case import each_case
from gaps import without
from sample_packs import SPECIMENS, discovered_once
from sample_records import known, make_bar, make_end, make_setup, tube_of

TUBE = tube_of(make_setup())
RACK = bw.Registry.from_folders(SPECIMENS / "rack", cache=False)


def steel(
    modulus: str = "77 GPa", *, half_width: float = 0.0, name: str = "steel", **more: Any
) -> bw.parts.Material:
    """A steel whose shear modulus has a tolerance, or none."""
    made = bw.parts.Material(id=f"t:material/{name}", title="S", shear_modulus=modulus, **more)
    if not half_width:
        return made
    width = bw.Quantity(half_width, "GPa")
    figure = attrs.evolve(made.about["shear_modulus"], tolerance=width)
    return made.described({"shear_modulus": figure})


def plain_bar(**change: Any) -> bw.parts.Bar:
    """A bar without tapers, so that its body alone twists: 830 mm."""
    ends = {"arm_end": make_end(39, taper="0 mm"), "anchor_end": make_end(42, taper="0 mm")}
    return make_bar(**(ends | change))


def per_radian(value: bw.Quantity | None) -> float:
    return float(known(value).m_as("newton * meter / radian"))


def test_a_bar_and_a_tube_by_hand() -> None:
    answer = bw.bar_rate(plain_bar(), tube=TUBE, torque="500 N*m")

    bar = 77e9 * math.pi / 32 * 0.0233**4 / 0.830
    tube = 77e9 * math.pi / 32 * (0.090**4 - 0.080**4) / 0.741
    system = 1 / (1 / bar + 1 / tube)
    assert per_radian(answer.bar_rate) == pytest.approx(bar, rel=1e-12)
    assert per_radian(answer.tube_rate) == pytest.approx(tube, rel=1e-12)
    assert per_radian(answer.system_rate) == pytest.approx(system, rel=1e-12)
    assert answer.active_length.m_as("mm") == pytest.approx(830.0)
    assert answer.torque.m_as("N*m") == 500.0
    assert answer.twist.m_as("radian") == pytest.approx(500 / system, rel=1e-12)
    stress = 16 * 500 / (math.pi * 0.0233**3)
    assert answer.shear_stress.m_as("Pa") == pytest.approx(stress, rel=1e-12)
    # 39 and 42 teeth have 546 places together.
    assert answer.clocking_step.m_as("degree") == pytest.approx(360 / 546, rel=1e-12)
    assert (answer.bar_id, answer.tube_id) == ("t:bar/one", "t:tube/one")


def test_without_a_tube_the_system_is_the_bar() -> None:
    answer = bw.bar_rate(plain_bar())

    assert answer.verdict is bw.Verdict.RATED
    assert answer.system_rate == answer.bar_rate
    assert (answer.tube_rate, answer.tube_id) == (None, None)
    assert answer.torque.m_as("N*m") == 1000.0


def test_a_steel_that_permits_a_stress_gives_the_torque_at_it() -> None:
    answer = bw.bar_rate(plain_bar(material=steel(permissible_shear="700 MPa")))

    assert known(answer.permissible_shear).source == "caller"
    torque = 700e6 * math.pi * 0.0233**3 / 16
    assert known(answer.permissible_torque).m_as("N*m") == pytest.approx(torque, rel=1e-12)
    none = bw.bar_rate(plain_bar())
    assert (none.permissible_shear, none.permissible_torque) == (None, None)


def test_a_pre_set_bar_has_the_stress_of_a_pre_set_bar() -> None:
    material = steel(permissible_shear="700 MPa", preset_permissible_shear="1000 MPa")
    bar = plain_bar(material=material, preset=True, made_for=bw.parts.Side.LEFT)

    assert known(bw.bar_rate(bar).permissible_shear).stress.m_as("MPa") == 1000.0


# -- Figures that nobody knows -----------------------------------------------------------

NEED = "needed for the "
_LENGTH = {"diameter", "bore", "length"} | {
    f"{end}.{name}"
    for end in ("arm_end", "anchor_end")
    for name in ("length", "taper", "root_diameter")
}
NEEDED = {
    **dict.fromkeys(
        (
            f"bar.{name}"
            for name in (
                *_LENGTH,
                "arm_end.fillet_radius",
                "material.shear_modulus",
                "measured_rate",
            )
        ),
        "rate of the bar",
    ),
    **dict.fromkeys(
        (f"bar.{end}.teeth" for end in ("arm_end", "anchor_end")), "smallest clocking step"
    ),
    **dict.fromkeys(
        (
            f"tube.{name}"
            for name in (
                *("outside_diameter", "bore", "lever_position", "socket_position"),
                "material.shear_modulus",
            )
        ),
        "rate of bar and tube",
    ),
}


# What cannot stand in that bar, known or not.
_NOT_THERE = ("bar.preset_twist", "bar.anchor_end.fillet_radius")


def figures(record: Any, path: str) -> list[str]:
    """Fields that lead to the figures and tooth counts of a record, left out or not."""
    found = [f"{path}.{name}" for name in known_or_not(type(record))]
    for field in attrs.fields(type(record)):
        inner = getattr(record, field.name)
        if isinstance(inner, Record):
            found += figures(inner, f"{path}.{field.name}")
    return found


BAR = make_bar(
    arm_end=make_end(39, taper="0 mm", fillet_radius="20 mm", nose="3 mm"),
    anchor_end=make_end(42, nose="3 mm"),
    bore="6 mm",
)
ALL = sorted({*figures(BAR, "bar"), *figures(TUBE, "tube")} - {*_NOT_THERE})


def asked_without(*paths: str) -> bw.answers.BarRate:
    parts: dict[str, Any] = {"bar": BAR, "tube": TUBE}
    for path in paths:
        name, _, rest = path.partition(".")
        parts[name] = without(parts[name], rest)
    return bw.bar_rate(parts["bar"], tube=parts["tube"])


def numbers(answer: bw.answers.BarRate) -> set[str]:
    """Figures of an answer that are known."""
    return {name for name, _ in answer_figures(answer, "")}


@each_case("path", ALL)
def test_without_any_one_figure_it_gives_what_it_can_and_names_what_it_needs(path: str) -> None:
    whole, answer = asked_without(), asked_without(path)
    needed = [one for one in answer.findings if one.topic is bw.answers.Topic.NEEDED]

    if path not in NEEDED:
        assert needed == []
        assert numbers(answer) == numbers(whole)
        assert (answer.verdict, answer.headline) == (whole.verdict, whole.headline)
        return
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    words = path.replace(".", " ").replace("_", " ")
    hint = '; its usual range may be enough: assume = "usual"'
    usual = hint if path.endswith("shear_modulus") else ""
    assert [one.line for one in needed] == [f"{NEED}{NEEDED[path]}: {words}{usual}"]
    assert needed[0].line[1:] in answer.headline
    assert numbers(answer) < numbers(whole)


def test_the_list_of_what_is_needed_holds_nothing_else() -> None:
    assert NEEDED.keys() <= {*ALL}


def test_what_does_not_rest_on_the_gap_stays() -> None:
    no_bore = asked_without("tube.bore")
    assert no_bore.bar_rate == asked_without().bar_rate
    assert no_bore.headline.startswith("The bar alone gives ")
    assert no_bore.headline.endswith(" Needed for the rate of bar and tube: tube bore.")
    assert all(map(is_unknown, (no_bore.tube_rate, no_bore.system_rate, no_bore.twist)))
    no_steel = asked_without("bar.material.shear_modulus")
    assert no_steel.active_length == asked_without().active_length
    assert no_steel.shear_stress == asked_without().shear_stress
    assert is_unknown(no_steel.shear_modulus)
    assert no_steel.shear_modulus_tolerance is None


def test_all_gaps_are_named_at_once() -> None:
    answer = asked_without("bar.diameter", "bar.length", "tube.bore", "bar.arm_end.teeth")

    assert [one.line for one in answer.findings if one.topic is bw.answers.Topic.NEEDED] == [
        f"{NEED}rate of the bar: bar diameter, bar length",
        f"{NEED}rate of bar and tube: tube bore",
        f"{NEED}smallest clocking step: bar arm end teeth",
    ]
    assert answer.headline == "Needed for the rate of the bar: bar diameter, bar length."
    assert bw.from_json(bw.to_json(answer)) == answer
    assert "bar alone                 unknown\n" in bw.text(answer)


def test_a_bar_that_does_not_go_into_the_tube_is_a_no_even_with_gaps() -> None:
    answer = bw.bar_rate(make_bar(39, 41, diameter="unknown"), tube=TUBE)

    assert answer.verdict is bw.Verdict.DOES_NOT_FIT
    assert {one.topic for one in answer.findings} >= {
        bw.answers.Topic.TOOTH_COUNT,
        bw.answers.Topic.NEEDED,
    }


def test_a_permissible_stress_that_is_unknown_is_none() -> None:
    bar = plain_bar(material=steel(permissible_shear="unknown"))
    assert bw.bar_rate(bar).permissible_torque is None
    thick = plain_bar(material=steel(permissible_shear="700 MPa"), diameter="unknown")
    assert is_unknown(bw.bar_rate(thick).permissible_torque)


# -- How sure it is ----------------------------------------------------------------------


@given(
    modulus=st.floats(70.0, 90.0),
    half_width=st.floats(0.1, 8.0),
    diameter=st.floats(15.0, 28.0),
    with_tube=st.booleans(),
)
def test_the_modulus_of_one_steel_gives_all_rates_the_same_share(
    *, modulus: float, half_width: float, diameter: float, with_tube: bool
) -> None:
    material = steel(f"{modulus!r} GPa", half_width=half_width)
    tube = attrs.evolve(TUBE, material=material) if with_tube else None
    answer = bw.bar_rate(plain_bar(material=material, diameter=f"{diameter!r} mm"), tube=tube)

    share = 2 / math.sqrt(3) * half_width / modulus
    for rate, uncertainty in (
        (answer.bar_rate, answer.bar_rate_uncertainty),
        (answer.system_rate, answer.system_rate_uncertainty),
    ):
        assert (known(uncertainty) / rate).m_as("") == pytest.approx(share, rel=1e-9)
    twist = known(answer.twist_uncertainty) / answer.twist
    assert twist.m_as("") == pytest.approx(share, rel=0.02)
    assert known(answer.shear_modulus_tolerance).m_as("GPa") == pytest.approx(half_width)
    assert answer.findings == ()


def test_steels_of_two_makings_vary_apart() -> None:
    one, other = (steel(half_width=4.0, name=name) for name in ("one", "other"))
    tube = attrs.evolve(TUBE, material=other)
    answer = bw.bar_rate(plain_bar(material=one), tube=tube)

    bar, of_tube, system = map(per_radian, (answer.bar_rate, answer.tube_rate, answer.system_rate))
    share = 2 / math.sqrt(3) * 4 / 77
    expected = share * math.hypot(system**2 / bar, system**2 / of_tube)
    found = per_radian(answer.system_rate_uncertainty)
    # To first order; the engine takes the ends of the interval.
    assert found == pytest.approx(expected, rel=3e-3)
    assert found < share * system


def test_without_a_tolerance_no_uncertainty_is_claimed_and_the_modulus_is_named() -> None:
    answer = bw.bar_rate(plain_bar(), tube=TUBE)

    assert answer.bar_rate_uncertainty is None
    assert answer.system_rate_uncertainty is None
    assert answer.twist_uncertainty is None
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.UNCERTAINTY
    assert "t:material/steel" in finding.text
    assert "±" not in answer.headline


def test_each_steel_without_a_tolerance_is_named_once() -> None:
    tube = attrs.evolve(TUBE, material=steel(name="other"))

    named = [finding.text for finding in bw.bar_rate(plain_bar(), tube=tube).findings]
    assert [text.rpartition(" give ")[2] for text in named] == [
        "t:material/steel one",
        "t:material/other one",
    ]


@pytest.mark.parametrize(
    ("bar", "tube", "topic"),
    [
        (make_bar(39, 41), TUBE, bw.answers.Topic.TOOTH_COUNT),
        (make_bar(), attrs.evolve(TUBE, bore="23.3 mm"), bw.answers.Topic.WAY_IN),
    ],
    ids=["teeth", "bore"],
)
def test_a_bar_that_does_not_go_into_the_tube_is_a_no_with_figures(
    bar: bw.parts.Bar, tube: bw.parts.Tube, topic: bw.answers.Topic
) -> None:
    answer = bw.bar_rate(bar, tube=tube)

    assert answer.verdict is bw.Verdict.DOES_NOT_FIT
    assert answer.outcome is bw.Outcome.NO
    assert answer.findings[0].topic is topic
    assert answer.headline.startswith("Does not fit: ")
    assert answer.bar_rate == bw.bar_rate(bar).bar_rate


def test_a_body_just_under_the_bore_passes() -> None:
    thin = attrs.evolve(TUBE, bore="23.4 mm")
    assert bw.bar_rate(make_bar(), tube=thin).verdict is bw.Verdict.RATED


def test_a_fillet_that_no_model_covers_is_told() -> None:
    end = make_end(39, taper="0 mm", fillet_radius="60 mm")
    findings = bw.bar_rate(make_bar(arm_end=end)).findings

    assert any("fillet" in finding.text for finding in findings)


@pytest.mark.parametrize(
    ("torque", "code"), [("0 N*m", "Q302"), ("-5 N*m", "Q302"), ("5 N", "Q202"), ("5", "Q105")]
)
def test_a_torque_that_is_none_is_refused(torque: str, code: str) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.bar_rate(plain_bar(), torque=torque)
    assert (caught.value.code, caught.value.key) == (code, "torque")


def test_the_rate_is_that_of_the_vehicle_but_for_its_sockets() -> None:
    van = discovered_once().setup("fells:chassis/short", corner="front left")

    alone = bw.bar_rate(van.bar, tube=tube_of(van))
    there = bw.rates(van)
    # One millimetre of the anchor's head is bare on the van.
    assert per_radian(alone.bar_rate) == pytest.approx(per_radian(there.bar_rate), rel=1e-3)
    assert per_radian(alone.bar_rate) > per_radian(there.bar_rate)


def test_a_pack_of_bars_and_tubes_alone_gives_rates() -> None:
    assert not RACK.problems
    assert RACK.vehicles() == ()

    answer = bw.bar_rate(RACK.bar("bar/thin"), tube=RACK.tube("rack:tube/plain"))
    assert answer.verdict is bw.Verdict.RATED
    assert answer.findings == ()


def test_it_rests_on_invented_figures_only_if_they_move_it() -> None:
    found = discovered_once()
    (rested,) = bar_rests_on(RACK.bar("bar/thin"))
    assert (rested.kind, rested.source) == ("invented", "rack:desk")
    assert {one.source for one in bar_rests_on(found.bar("fells:bar/short-firm"))} == {
        "fells:drawing-board"
    }
    assert bar_rests_on(make_bar())[0].kind == "unsourced"
