"""Tests of `barwright.analysis.trail`: every figure says where it comes from and what it moves."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.analysis.trail_lines import LEFT_OUT
from barwright.registry.overlays.preference import CALL, Preference
from flawed_packs import added
from measured_setups import INVENTION, estimates_of, with_estimated, with_invented
from rare_cases import rarely_after
from sample_packs import GOOD_PACK, discovered_once

REGISTRY = discovered_once()
SETUP = REGISTRY.setup("fells:chassis/short", corner="front left")


def lines(answer: bw.answers.Trail) -> dict[str, bw.answers.TrailLine]:
    return {line.figure: line for line in answer.lines}


# -- Where figures come from -------------------------------------------------------


def test_every_figure_of_the_setup_stands_there_once() -> None:
    answer = bw.trail(SETUP)

    found = lines(answer)
    assert len(found) == len(answer.lines)
    assert (answer.vehicle, answer.corner, answer.figure) == (SETUP.chassis.id, "front left", "")
    assert answer.value is None
    assert {"bar.diameter", "axle.droop_stop", "load.mass", "chassis.wheelbase"} <= set(found)
    assert not [name for name in found if name.startswith("chassis.axles.front.droop")]


def test_a_figure_says_source_place_file_and_key() -> None:
    line = lines(bw.trail(SETUP, source=REGISTRY.source))["bar.material.shear_modulus"]

    assert (line.source, line.source_kind) == (
        "standards:teaching-table",
        bw.parts.SourceKind.PUBLISHED,
    )
    assert (line.at, line.file, line.key) == (
        "4340, oil quenched, tempered at 230 °C",
        "materials.toml",
        "material/sae-4340: shear_modulus",
    )
    source = REGISTRY.source("standards:teaching-table")
    assert source is not None
    assert line.note == source.note
    assert str(line.value) == "80.0 gigapascal"
    assert str(line.tolerance) == "3.9 gigapascal"
    assert (line.step, line.effect, line.replaces, line.why) == (None, None, None, "")


def test_no_two_figures_of_a_file_have_one_key() -> None:
    """But for the load of standard trim, which is a figure of its axle."""
    found = [line for line in bw.trail(SETUP).lines if line.figure != "load.mass"]

    keys = [(line.file, line.key) for line in found if line.key]
    assert len(set(keys)) == len(keys) > 50
    assert ("parts.toml", "arm/standard: socket.length") in keys
    assert ("bars.toml", "bar/short-standard: arm_end.length") in keys


def test_the_load_of_standard_trim_stands_where_its_axle_says_it() -> None:
    (load,) = (line for line in bw.trail(SETUP).lines if line.figure == "load.mass")

    assert (load.file, load.key) == ("vans.toml", "chassis/short: axles.front.standard_mass")


def test_a_correction_stands_in_its_own_file() -> None:
    known = bw.parts.Figure(
        value=SETUP.bar.diameter,
        source="shop:gauge",
        file="ours.toml",
        key="correction[0].is",
        why="Measured.",
    )
    setup = SETUP.with_parts(bar=SETUP.bar.described({"diameter": known}))

    line = lines(bw.trail(setup))["bar.diameter"]
    assert (line.file, line.key) == ("ours.toml", "correction[0].is")


def test_only_the_preferences_of_its_packs_are_told() -> None:
    ours, other = (Preference(name, "somewhere", CALL) for name in ("fells", "hodmule"))

    assert bw.trail(SETUP, preferences=[ours, other]).preferences == (ours,)
    asked = bw.trail(SETUP, figure="bar_rate", preferences=iter([other, ours]))
    assert asked.preferences == (ours,)


def test_what_no_source_says_is_told_apart() -> None:
    setup = SETUP.with_parts(bar=attrs.evolve(SETUP.bar, diameter="24 mm"))

    found = lines(bw.trail(setup, source=REGISTRY.source))

    assert found["bar.diameter"].source == "caller"
    assert found["bar.blank_angle"].source == LEFT_OUT
    assert found["nut_turns"].source == LEFT_OUT
    assert {found[name].note for name in ("bar.diameter", "nut_turns")} == {""}
    turned = lines(bw.trail(attrs.evolve(setup, nut_turns="1 turn")))["nut_turns"]
    assert turned.source == "caller"


def test_a_figure_that_a_pack_gives_at_its_usual_value_has_the_pack_s_source() -> None:
    known = bw.parts.Figure(value=SETUP.bar.blank_angle, source="a:b", key="one.blank_angle")
    setup = SETUP.with_parts(bar=SETUP.bar.described({"blank_angle": known}))

    assert lines(bw.trail(setup))["bar.blank_angle"].source == "a:b"


def test_the_registry_knows_the_sources_of_its_packs_and_of_the_standards() -> None:
    registry = bw.Registry.from_folders(GOOD_PACK)
    source = registry.packs[0].header.source[0]

    assert registry.source(f"tiny:{source.id}") == source
    assert [registry.source(name) for name in ("tiny:none", "none:a", "caller", "")] == [None] * 4
    assert REGISTRY.source("standards:none") is None


# -- What they move ----------------------------------------------------------------


def test_those_that_move_a_figure_are_listed_by_their_effect() -> None:
    answer = bw.trail(SETUP, figure="bar_rate")

    sizes = [abs(line.effect.magnitude) for line in answer.lines if line.effect is not None]
    assert len(sizes) == len(answer.lines)
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[-1] > 1e-6 * float(answer.value.magnitude if answer.value is not None else 0)
    assert answer.lines[0].figure == "bar.diameter"
    assert not {"damper.open_length", "load.mass", "anchor.bore"} & set(lines(answer))


def test_an_effect_is_the_slope_times_the_step() -> None:
    """The rate is proportional to the modulus."""
    line = lines(bw.trail(SETUP, figure="bar_rate"))["bar.material.shear_modulus"]
    rate = bw.rates(SETUP).figures.bar_rate  # type: ignore[union-attr]

    assert line.step is not None
    assert line.step.m_as("GPa") == pytest.approx(0.8, rel=1e-12)
    assert line.effect is not None
    assert line.effect.m_as("N*m/deg") == pytest.approx(rate.m_as("N*m/deg") / 100, rel=1e-9)


@pytest.mark.parametrize(
    "figure", rarely_after(1, ["bar.arm_end.taper", "anchor.socket_position", "anchor.bore"])
)
def test_an_effect_agrees_with_asking_again(figure: str) -> None:
    part, _, field = figure.partition(".")
    line = lines(bw.trail(SETUP, figure="ride.wheel_rate"))[figure]
    assert line.step is not None
    assert line.effect is not None
    small = line.step / 100

    def at(value: bw.Quantity) -> float:
        record = getattr(SETUP, part)
        if "." in field:
            end, _, inner = field.partition(".")
            changed = attrs.evolve(
                record, **{end: attrs.evolve(getattr(record, end), **{inner: value})}
            )
        else:
            changed = attrs.evolve(record, **{field: value})
        figures = bw.rates(SETUP.with_parts(**{part: changed})).figures
        assert figures is not None
        return float(figures.ride.wheel_rate.m_as("N/mm"))

    slope = (at(line.value + small) - at(line.value - small)) / 2
    assert line.effect.m_as("N/mm") == pytest.approx(100 * slope, rel=1e-3)


def test_angles_rise_by_a_degree_and_zeros_by_a_tenth() -> None:
    found = lines(bw.trail(SETUP, figure="ride.arm_angle", question=bw.rates))

    assert str(found["arm.socket.key_angle"].step) == "1.0 degree"
    assert str(found["nut_turns"].step) == "0.1 turn"


def test_an_angle_in_radians_rises_by_a_degree_too() -> None:
    axle = attrs.evolve(SETUP.axle, reference_angle="-0.0873 rad")
    chassis = attrs.evolve(SETUP.chassis, axles=(axle,))
    setup = attrs.evolve(SETUP, chassis=chassis, axle=axle)

    line = lines(bw.trail(setup, figure="ride.wheel_rate"))["axle.reference_angle"]

    assert line.step is not None
    assert line.step.m_as("deg") == pytest.approx(1.0)


def test_any_question_can_be_asked() -> None:
    answer = bw.trail(SETUP, figure="active_length", question=bw.length_fit)

    assert "bar.length" in lines(answer)


def test_an_unknown_figure_names_the_nearest() -> None:
    with pytest.raises(bw.SchemaError, match=r"'ride\.wheel_rate'") as caught:
        bw.trail(SETUP, figure="ride.wheel_rat")

    assert (caught.value.code, caught.value.key) == ("S201", "figure")


def test_an_answer_that_is_no_says_why_it_lacks_the_figure() -> None:
    short = SETUP.with_parts(bar=attrs.evolve(SETUP.bar, length="700 mm"))

    answer = bw.trail(short, figure="bar_rate")

    assert (answer.value, answer.lines) == (None, ())
    assert answer.verdict is bw.Verdict.DOES_NOT_FIT
    assert answer.findings == bw.rates(short).findings != ()


def test_an_answer_that_is_no_may_have_the_figure_all_the_same() -> None:
    def far(setup: bw.Setup) -> bw.answers.Rates:
        return bw.rates(setup, wanted=bw.Wanted(height="600 mm"))

    answer = bw.trail(SETUP, figure="fit.active_length", question=far)

    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    assert answer.value is not None
    assert "bar.length" in lines(answer)
    assert answer.findings == ()


def test_a_figure_on_the_edge_of_what_can_be_is_moved_the_other_way() -> None:
    """A rise of it would leave no answer."""

    def asked(setup: bw.Setup) -> bw.Quantity:
        if setup.bar.diameter > SETUP.bar.diameter:
            raise bw.GeometryError("G103", value="x", expected="y", remedy="z")
        doubled: bw.Quantity = 2 * setup.bar.diameter
        return doubled

    (line,) = bw.trail(SETUP, figure="answer", question=asked).lines

    assert line.figure == "bar.diameter"
    assert line.effect is not None
    assert line.effect.m_as("mm") == pytest.approx(0.462)


def test_an_effect_that_cannot_be_told_comes_first() -> None:
    def asked(setup: bw.Setup) -> bw.Quantity:
        if setup.bar.diameter != SETUP.bar.diameter:
            raise bw.GeometryError("G103", value="x", expected="y", remedy="z")
        return setup.bar.length

    first, second = bw.trail(SETUP, figure="answer", question=asked).lines

    assert (first.figure, first.effect) == ("bar.diameter", None)
    assert second.figure == "bar.length"


def test_rounding_of_a_figure_that_is_next_to_nothing_is_no_effect() -> None:
    """The damper holds the arm: its stroke is used up, whatever moves."""
    job = bw.load_job("docs/examples/loaded-trailer.toml", REGISTRY)

    for corner in job.corners:
        answer = bw.trail(corner.setup, figure="droop.stroke_to_open")
        assert answer.value is not None
        assert abs(answer.value.m_as("mm")) < 1e-9
        assert answer.lines == ()


def test_a_trail_rests_on_the_sources_of_its_lines() -> None:
    """Not on those of figures that move another one."""
    setup = with_invented(SETUP, "damper.gas.force")
    invented = (bw.answers.UnmeasuredSource(kind="invented", source=INVENTION),)

    assert bw.trail(setup).rests_on == invented
    assert bw.trail(setup, figure="ride.torque").rests_on == invented
    assert bw.trail(setup, figure="bar_rate").rests_on == ()


def test_a_trail_tells_the_estimates_among_its_lines() -> None:
    ranges = {"damper.gas.force": "20 N", "bar.diameter": "0.5 mm"}
    setup = with_estimated(SETUP, ranges)
    told = bw.trail(setup, figure="bar_rate")

    assert estimates_of(told.rests_on) == ["bar.diameter"]
    assert set(estimates_of(bw.trail(setup).rests_on)) == set(ranges)
    assert bw.from_json(bw.to_json(told)) == told


def test_the_headline_says_what_moves_a_figure_most() -> None:
    answer = bw.trail(SETUP, figure="ride.wheel_rate")
    assert answer.value is not None
    rate = f"{answer.value.m_as('N/mm'):.1f} N/mm"
    # The fourth power of the diameter is in the rate of the bar.
    assert answer.headline == f"Ride wheel rate is {rate}; bar diameter affects it most."
    whole = bw.trail(SETUP)
    sources = len({line.source for line in whole.lines})
    counted = f"{len(whole.lines)} figures and {len(whole.facts)} facts"
    assert whole.headline == f"{counted} from {sources} sources."
    figures = attrs.evolve(whole, facts=())
    assert figures.headline == f"{len(whole.lines)} figures from {sources} sources."
    single = attrs.evolve(whole, lines=whole.lines[:1], facts=())
    assert single.headline == "1 figure from 1 source."


def test_a_figure_that_is_taken_of_another_record_says_which_two(tmp_path: Path) -> None:
    like = '[[bar]]\nid = "two"\ntitle = "B"\nsource = "bench"\nlike = "bar/one"\n'
    registry = bw.Registry.from_folders(added(tmp_path, like, 'diameter = "24 mm ± 0.1 mm"'))
    setup = registry.setup("tiny:chassis/one", corner="front left")

    found = lines(bw.trail(setup.with_parts(bar=registry.bar("bar/two"))))

    assert (found["bar.length"].key, found["bar.length"].taken_by) == ("bar/one: length", "bar/two")
    assert (found["bar.diameter"].key, found["bar.diameter"].taken_by) == ("bar/two: diameter", "")
    text = bw.text(bw.trail(setup.with_parts(bar=registry.bar("bar/two"))), width=200)
    assert "parts.toml: bar/one: length (bar/two is like it)" in text
