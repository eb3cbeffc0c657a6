"""Tests of `out_of_range`: what is far off, and what may have been meant."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from sample_packs import discovered_once
from sample_records import make_setup

SPRUNG, READING = bw.parts.LoadKind.SPRUNG, bw.parts.LoadKind.SCALE_READING
OWN = 291.0
UNSPRUNG = 34.5


def loaded(mass: str, kind: bw.parts.LoadKind = SPRUNG) -> bw.Setup:
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    return van.with_load(kind=kind, mass=mass)


def of_load(answer: bw.answers.Reindex | bw.answers.Rates | bw.answers.Ride) -> list[str]:
    return [finding.line for finding in answer.findings if "standard trim" in finding.text]


# -- Load ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mass", "kind", "meant"),
    [
        (
            "641 kg",
            SPRUNG,
            ["pounds written as kilograms (641 lb)", "load of the axle given for one"],
        ),
        (
            "651 kg",
            READING,
            ["pounds written as kilograms (651 lb)", "load of the axle given for one"],
        ),
        ("291 lb", SPRUNG, ["kilograms written as pounds (291 kg)"]),
        ("325 lb", READING, ["kilograms written as pounds (325 kg)"]),
        ("170 kg", READING, ["the sprung mass given as a scale's reading"]),
        ("550 kg", SPRUNG, ["a scale's reading given as the sprung mass"]),
        ("100 kg", SPRUNG, []),
    ],
)
def test_a_load_far_from_standard_trim_is_told_with_what_it_may_be(
    mass: str, kind: bw.parts.LoadKind, meant: list[str]
) -> None:
    setup = loaded(mass, kind)

    for answer in (bw.reindex(setup), bw.rates(setup), bw.ride(setup)):
        [line] = of_load(answer)
        assert line.startswith("the sprung mass is far from that of standard trim")
        assert "limit 145.5 kg to 523.8 kg" in line
        assert ("it may be" in line) == bool(meant)
        for slip in meant:
            assert slip in line


@pytest.mark.parametrize("mass", ["146 kg", "291 kg", "523 kg", "641 lb"])
def test_a_load_that_vehicles_carry_is_nothing_to_tell(mass: str) -> None:
    assert of_load(bw.reindex(loaded(mass))) == of_load(bw.rates(loaded(mass))) == []


@pytest.mark.parametrize("mass", ["1200 kg", "90000 kg"])
def test_a_load_that_no_bar_bears_is_refused_where_the_bar_would_be_set_for_it(mass: str) -> None:
    setup = loaded(mass)
    wish = bw.Wanted(height="380 mm")

    for ask in (bw.reindex, lambda setup: bw.rates(setup, wanted=wish)):
        with pytest.raises(bw.QuantityError) as caught:
            ask(setup)
        assert (caught.value.code, caught.value.key) == ("Q302", "load.mass")
        assert caught.value.value == mass
    # As it is set, the corner lies on its bump stop, and that is an answer.
    assert of_load(bw.rates(setup))


def test_the_refusal_says_what_the_load_may_be() -> None:
    thin = loaded("641 kg").bar
    setup = loaded("641 kg").with_parts(bar=attrs.evolve(thin, diameter="18 mm"))

    with pytest.raises(bw.QuantityError, match="641 lb"):
        bw.reindex(setup)


def test_a_stress_that_steels_bear_is_not_refused() -> None:
    stress = bw.rates(loaded("1000 kg"), wanted=bw.Wanted(height="404 mm")).figures

    assert stress is not None
    assert 1200.0 < stress.ride.shear_stress.m_as("MPa") < 1500.0


def test_a_load_is_no_matter_before_the_bar_fits() -> None:
    short = loaded("641 kg").with_parts(
        bar=attrs.evolve(loaded("641 kg").bar, length="700 mm", id="t:bar/short")
    )
    answer = bw.reindex(short)

    assert answer.verdict is bw.Verdict.DOES_NOT_FIT
    assert of_load(answer) == []


# -- Height ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("height", "meant"),
    [
        ("15 mm", "15 in with the wrong unit"),
        ("380 cm", "380 mm with the wrong unit"),
        ("38 mm", "38 cm with the wrong unit"),
        ("660 mm", "measured from the ground instead of from the hub"),
    ],
)
def test_a_height_out_of_travel_says_what_it_may_be(height: str, meant: str) -> None:
    for answer in (
        bw.reindex(make_setup(), wanted=bw.Wanted(height=height)),
        bw.rates(make_setup(), wanted=bw.Wanted(height=height)),
    ):
        assert answer.findings[0].text.endswith(f"; it may be {meant}")


@pytest.mark.parametrize("wanted", [bw.Wanted(height="900 mm"), bw.Wanted(arm_angle="80 deg")])
def test_what_may_be_anything_is_not_guessed(wanted: bw.Wanted) -> None:
    [finding] = bw.reindex(make_setup(), wanted=wanted).findings

    assert finding.text.endswith("hub to arch")
