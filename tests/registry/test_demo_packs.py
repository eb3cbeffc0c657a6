"""The demo packs beside the fells: a truck on key levers, and a trailer on fixed sockets.

That each keeps the contract of packs is tested with the contract itself; here, that each loads
from its folder alone, and that its vehicles are such as someone could have built.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import attrs
import pytest

import barwright as bw
from sample_packs import SPECIMENS, discovered_once

PLUGINS = Path(__file__).parents[2] / "plugins"
OVERLOADED = SPECIMENS / "jobs" / "overloaded-trailer.toml"
CORNERS = [
    ("hodmule", "short", "front left"),
    ("hodmule", "short", "front right"),
    ("hodmule", "long", "front left"),
    ("hodmule", "long", "front right"),
    ("trundlet", "open", "rear left"),
    ("trundlet", "open", "rear right"),
]
TRUCK = [corner for corner in CORNERS if corner[0] == "hodmule"]
TRAILER = [corner for corner in CORNERS if corner[0] == "trundlet"]
GRAVITY = 9.80665


def demo(pack: str) -> bw.Registry:
    """One demo pack, read from its folder and no other."""
    return bw.Registry.from_folders(
        PLUGINS / f"barwright-pack-{pack}/src/barwright_pack_{pack}", cache=False
    )


@pytest.fixture(scope="module")
def registries() -> dict[str, bw.Registry]:
    return {pack: demo(pack) for pack in ("hodmule", "trundlet")}


@pytest.fixture
def setup(registries: dict[str, bw.Registry], request: pytest.FixtureRequest) -> bw.Setup:
    pack, vehicle, corner = request.param
    return registries[pack].setup(f"{pack}:chassis/{vehicle}", corner=corner)


every_corner = pytest.mark.parametrize("setup", CORNERS, indirect=True, ids=" ".join)
every_truck_corner = pytest.mark.parametrize("setup", TRUCK, indirect=True, ids=" ".join)
every_trailer_corner = pytest.mark.parametrize("setup", TRAILER, indirect=True, ids=" ".join)


def figures_at_standard_height(setup: bw.Setup) -> bw.answers.RateFigures:
    answer = bw.rates(setup, wanted=bw.Wanted())
    assert answer.outcome.is_good
    assert answer.findings == ()
    assert answer.figures is not None
    return answer.figures


# -- What the packs hold --------------------------------------------------------------


@pytest.mark.parametrize(("pack", "vehicles"), [("hodmule", 2), ("trundlet", 1)])
def test_a_pack_loads_from_its_folder_and_says_that_it_is_invented(
    registries: dict[str, bw.Registry], pack: str, vehicles: int
) -> None:
    registry = registries[pack]
    header = next(info.header for info in registry.packs if info.id == pack)

    assert not registry.problems
    assert len(registry.vehicles()) == vehicles
    assert "invented" in header.title
    # Beside the invented figures, hand calculations that check them.
    kinds = [source.kind for source in header.source]
    assert kinds == [bw.parts.SourceKind.INVENTED, bw.parts.SourceKind.RECALLED]
    figures = [known for part in registry.parts() for known in part.about.values()]
    assert f"{pack}:by-hand" not in {known.source for known in figures}
    own = [*registry.vehicles(), *(p for p in registry.parts() if p.id.startswith(f"{pack}:"))]
    assert all(record.title.endswith(", invented") for record in own)


def test_every_corner_of_the_packs_is_looked_at(registries: dict[str, bw.Registry]) -> None:
    stated = {
        (chassis.id, axle.place.value)
        for registry in registries.values()
        for chassis in registry.vehicles()
        for axle in chassis.axles
    }

    assert stated == {(f"{pack}:chassis/{name}", at.split()[0]) for pack, name, at in CORNERS}
    assert len(CORNERS) == 2 * len(stated)


@pytest.mark.parametrize(
    ("pack", "words", "vehicle"),
    [
        ("hodmule", "gorsewain hodmule flatbed", "long"),
        ("hodmule", "hodmule 2004", "short"),
        ("hodmule", "QHM-43 export", "long"),
        ("trundlet", "pellimoor open 2001", "open"),
    ],
)
def test_people_find_a_vehicle_by_its_words(
    registries: dict[str, bw.Registry], pack: str, words: str, vehicle: str
) -> None:
    assert registries[pack].resolve(words).id == f"{pack}:chassis/{vehicle}"


def test_both_trucks_share_every_part_but_the_bar(registries: dict[str, bw.Registry]) -> None:
    short, long = (
        registries["hodmule"].chassis(f"hodmule:chassis/{name}") for name in ("short", "long")
    )
    one, other = (chassis.axles[0].left for chassis in (short, long))

    kinds = [field.name for field in attrs.fields(bw.parts.StandardParts)]
    shared = {kind for kind in kinds if getattr(one, kind) == getattr(other, kind)}
    assert shared == {"arm", "anchor", "adjuster", "damper"}
    assert long.wheelbase > short.wheelbase


@every_truck_corner
def test_the_truck_has_wishbones_and_a_bolt_that_pushes_a_key_lever(setup: bw.Setup) -> None:
    assert isinstance(setup.axle.suspension, bw.parts.DoubleWishboneMounting)
    assert isinstance(setup.anchor, bw.parts.KeyLever)
    assert setup.adjuster is not None
    assert isinstance(setup.adjuster.mounting, bw.parts.KeyBoltMounting)
    assert setup.axle.bar_axis == (1.0, 0.0, 0.0)
    assert setup.bar.arm_end == setup.bar.anchor_end


@every_trailer_corner
def test_the_trailer_has_trailing_arms_on_bars_that_lie_across(setup: bw.Setup) -> None:
    assert isinstance(setup.axle.suspension, bw.parts.SwingArmMounting)
    assert isinstance(setup.anchor, bw.parts.FixedSocket)
    assert setup.adjuster is None
    assert setup.axle.bar_axis == (0.0, 1.0, 0.0)
    assert setup.axle.arm_direction == (-1.0, 0.0, 0.0)
    assert (setup.bar.arm_end.teeth, setup.bar.anchor_end.teeth) == (45, 41)


# -- Whether they could be built ------------------------------------------------------


@every_corner
def test_the_standard_bar_fits_without_any_change(setup: bw.Setup) -> None:
    fit = bw.length_fit(setup)

    assert fit.verdict is bw.Verdict.FITS
    assert (fit.reasons, fit.changes) == ((), ())
    assert all(end.engagement > end.required for end in fit.ends)


@every_corner
def test_the_bar_carries_over_the_whole_travel_and_holds(setup: bw.Setup) -> None:
    figures = figures_at_standard_height(setup)

    assert 0.0 < figures.droop.torque.m_as("N*m") < figures.ride.torque.m_as("N*m")
    assert figures.ride.torque < figures.bump.torque
    assert 500.0 < figures.bump.shear_stress.m_as("MPa") < 900.0
    assert bw.strength(setup, wanted=bw.Wanted()).outcome.is_good


@every_corner
def test_the_corner_rides_like_a_road_vehicle(setup: bw.Setup) -> None:
    figures = figures_at_standard_height(setup)

    assert figures.ride_frequency is not None
    assert 1.0 < figures.ride_frequency.m_as("Hz") < 2.2
    assert figures.damping_ratio is not None
    assert 0.1 < figures.damping_ratio < 0.5
    for stroke in (figures.ride.stroke_to_closed, figures.ride.stroke_to_open):
        assert stroke.m_as("mm") > 30.0
    assert figures.bump.stroke_to_closed.m_as("mm") > 0.0


@every_corner
def test_on_its_keys_the_corner_stands_at_its_height(setup: bw.Setup) -> None:
    standing = bw.ride(setup).state

    assert standing is not None
    assert abs(standing.height - setup.axle.standard_height).m_as("mm") < 0.5


@every_corner
def test_the_first_plan_leaves_the_blanks_on_the_keys(setup: bw.Setup) -> None:
    answer = bw.reindex(setup)

    assert answer.outcome.is_good
    first = answer.plans[0]
    assert (first.arm_tooth, first.anchor_tooth, first.cuts) == (0, 0, 0)


@every_truck_corner
def test_the_bolt_stands_near_the_middle_of_its_thread(setup: bw.Setup) -> None:
    turns = bw.reindex(setup).plans[0].nut_turns

    assert turns is not None
    assert abs(turns.m_as("turn")) <= 1.0
    bolt = figures_at_standard_height(setup).bolt
    assert bolt is not None
    # It pushes, well below the proof strength of any common bolt.
    assert -400.0 < bolt.stress_at_bump.m_as("MPa") < 0.0


@every_trailer_corner
def test_the_keys_miss_the_height_by_less_than_half_a_step(setup: bw.Setup) -> None:
    needed = bw.reindex(setup).free_angle
    keyed = bw.ride(setup).free_angle

    assert needed is not None
    assert keyed is not None
    assert abs((needed - keyed).m_as("deg")) < 360.0 / math.lcm(45, 41) / 2.0


@every_trailer_corner
def test_the_trailer_agrees_with_a_sum_by_hand(setup: bw.Setup) -> None:
    figures = figures_at_standard_height(setup)
    # Mass on a level arm's horizontal reach, and a plain round bar a little over its body's length.
    torque = 232.0 * GRAVITY * 0.218 * math.cos(math.radians(-8.0))
    rate = 77.2e9 * math.pi * 0.0202**4 / 32.0 / 0.673

    assert figures.ride.torque.m_as("N*m") == pytest.approx(torque, rel=1e-9)
    assert figures.bar_rate.m_as("N*m/rad") == pytest.approx(rate, rel=1e-3)
    assert figures.ride.twist.m_as("rad") == pytest.approx(torque / rate, rel=1e-3)
    assert figures.bolt is None


EXAMPLES = sorted((PLUGINS.parent / "docs/examples").glob("*.toml"))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_plan_of_an_example_leaves_its_bar_below_limits_that_were_read(
    example: Path,
) -> None:
    for corner in bw.load_job(example, discovered_once()).corners:
        plans = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present).plans
        assert plans
        for plan in plans:
            answer = bw.strength(bw.carry_out(corner.setup, plan))
            assert answer.verdict is bw.Verdict.BELOW_YIELD
            assert answer.figures is not None
            limit = answer.figures.at_yield.limit
            assert limit is not None
            assert re.search(r"\((maker|published)\), by distortion energy$", limit.source)
            for state in (answer.figures.droop, answer.figures.ride, answer.figures.bump):
                assert 0.0 < state.stress.m_as("MPa") < 0.95 * limit.stress.m_as("MPa")


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_box_that_is_far_too_heavy_overstresses_the_trailer(side: str) -> None:
    job = bw.load_job(OVERLOADED, discovered_once())
    (corner,) = (one for one in job.corners if one.setup.corner == f"rear {side}")
    answer = bw.strength(corner.setup, wanted=corner.wanted)

    assert answer.verdict is bw.Verdict.OVERSTRESSED
    (passed,) = answer.findings
    assert passed.text.startswith("the bar's body yields at full bump")
    assert passed.figure == answer.figures.bump.stress  # type: ignore[union-attr]


# -- What else can be put in ----------------------------------------------------------


def with_bar(setup: bw.Setup, registries: dict[str, bw.Registry], name: str) -> bw.Setup:
    bar = registries[setup.bar.id.partition(":")[0]].part(name)
    assert isinstance(bar, bw.parts.Bar)
    return setup.with_parts(bar=bar)


@every_truck_corner
def test_a_firm_bar_of_the_truck_needs_the_bolt_alone(
    setup: bw.Setup, registries: dict[str, bw.Registry]
) -> None:
    plan = bw.reindex(with_bar(setup, registries, "bar/firm")).plans[0]

    assert plan.cuts == 0
    assert plan.nut_turns is not None
    # Less twist carries the same load: the bolt is backed off.
    assert plan.nut_turns.m_as("turn") < 0.0


@every_trailer_corner
@pytest.mark.parametrize(("name", "diameter"), [("bar/soft", 19.5), ("bar/firm", 21.4)])
def test_another_bar_of_the_trailer_needs_other_teeth(
    setup: bw.Setup, registries: dict[str, bw.Registry], name: str, diameter: float
) -> None:
    other = with_bar(setup, registries, name)
    answer = bw.reindex(other)
    twist = figures_at_standard_height(setup).ride.twist.m_as("deg")
    # One tooth on at both ends brings the free angle down by 360°/41 - 360°/45.
    more = twist * (20.2 / diameter) ** 4 - twist
    teeth = round(more / (360.0 / 41.0 - 360.0 / 45.0))

    assert answer.outcome.is_good
    plan = answer.plans[0]
    assert teeth != 0
    assert (plan.arm_tooth, plan.anchor_tooth) == (teeth, teeth)
    done = bw.ride(bw.carry_out(other, plan)).state
    assert done is not None
    assert abs(done.height - setup.axle.standard_height).m_as("mm") < 1.0
