"""Tests of `Corner`: what is computed of a corner is computed once, and shared where it is same."""

from __future__ import annotations

import weakref
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.analysis.corner import geometry as building
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import RESTS_ON, of_either_side, whole
from barwright.analysis.fit import length_fit as fitting
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import (
    figure_places,
    toleranced_figures,
)
from barwright.analysis.tolerance.shifted_corners import tolerance_ends
from rare_cases import rarely_after
from sample_records import make_bar, make_setup

EXAMPLES = Path(__file__).parents[3] / "docs" / "examples"
JOBS = ["shorter-dampers", "firmer-bars", "loaded-trailer"]


class Calls:
    """Counts the calls of a function by the very records that it is called with."""

    def __init__(self, call: Callable[..., Any]) -> None:
        self._call = call
        self._seen: list[tuple[object, ...]] = []  # which also keeps them alive

    def __call__(self, *given: Any, **named: Any) -> Any:
        self._seen.append((*given, *named.values()))
        return self._call(*given, **named)

    def counted(self) -> Counter[tuple[int, ...]]:
        """Calls by the identities of what they were given."""
        return Counter(tuple(map(id, given)) for given in self._seen)


def watched(monkeypatch: pytest.MonkeyPatch, module: ModuleType, name: str) -> Calls:
    """Count the calls of a function of a module from now on."""
    calls = Calls(getattr(module, name))
    monkeypatch.setattr(module, name, calls)
    return calls


@pytest.fixture(scope="module")
def registry() -> bw.Registry:
    return bw.Registry.demo()


@pytest.mark.parametrize("name", JOBS)
def test_a_sheet_builds_each_of_its_corners_once(
    name: str, registry: bw.Registry, monkeypatch: pytest.MonkeyPatch
) -> None:
    watching = [(building, "plane_of"), (building, "linkage_of"), (fitting, "checks_of")]
    watchers = [watched(monkeypatch, module, function) for module, function in watching]
    job = bw.load_job(EXAMPLES / f"{name}.toml", registry)
    sheet = bw.bench_sheet(job)
    assert len(sheet.corners) == 2
    for calls in watchers:
        counted = calls.counted()
        assert counted
        assert set(counted.values()) == {1}


def test_old_and_new_corner_share_what_no_part_of_theirs_changes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    planes = watched(monkeypatch, building, "plane_of")
    linkages = watched(monkeypatch, building, "linkage_of")
    now = make_setup()
    arm = attrs.evolve(now.arm, id="t:arm/other", radius="345 mm")
    setup = now.with_parts(arm=arm, bar=make_bar(diameter="24 mm"))
    corner = bw.JobCorner(setup=setup, present=now, wanted=bw.Wanted(height="404 mm"))
    (sheet,) = bw.bench_sheet(bw.Job(title="Other arm", corners=(corner,))).corners
    assert sheet.plan is not None
    assert sorted(planes.counted().values()) == [1]
    # One with the arm that left the works, one with the other.
    assert sorted(linkages.counted().values()) == [1, 1]


# -- What is taken over ------------------------------------------------------------------


# Which motions are there is a matter of what was asked.
COMPARED = RESTS_ON.keys() - {"motions"}
OF_DAMPER = {"damper_span", "damper_fits", "travel"}


def all_computed(setup: bw.Setup) -> Corner:
    corner = Corner(setup)
    for name in RESTS_ON:
        getattr(corner, name)
    return corner


def shared(one: Corner, other: Corner) -> set[str]:
    """Parts that are there in both without being asked for."""
    return {name for name in RESTS_ON if name in vars(one) and name in vars(other)}


def test_a_corner_beside_another_takes_over_what_rests_on_the_same_records() -> None:
    corner = all_computed(make_setup())
    setup = corner.setup
    assert shared(corner, corner.beside(attrs.evolve(setup, arm_tooth=1))) == set(RESTS_ON)
    damper = attrs.evolve(setup.damper, open_length="650 mm")
    found = shared(corner, corner.beside(attrs.evolve(setup, damper=damper)))
    assert found == set(RESTS_ON) - OF_DAMPER
    heavier = setup.with_load(kind=bw.parts.LoadKind.SPRUNG, mass="330 kg")
    assert shared(corner, corner.beside(heavier)) == set(RESTS_ON) - {"sprung_mass", "load"}


def test_what_is_said_of_an_axle_changes_nothing_that_is_computed() -> None:
    corner = all_computed(make_setup())
    axle = corner.setup.axle
    reported = bw.parts.Figure(value=axle.hub_up, tolerance=bw.Quantity(1, "mm"))
    beside = corner.beside(attrs.evolve(corner.setup, axle=axle.described({"hub_up": reported})))
    assert shared(corner, beside) == set(RESTS_ON)


def test_an_equal_record_is_not_the_same() -> None:
    corner = all_computed(make_setup())
    twin = attrs.evolve(corner.setup.damper)
    assert twin == corner.setup.damper
    found = shared(corner, corner.beside(attrs.evolve(corner.setup, damper=twin)))
    assert found == set(RESTS_ON) - OF_DAMPER


@pytest.mark.parametrize(
    "change",
    [
        {"arm": {"radius": "345 mm"}},
        {"bar": {"blank_angle": "2 deg", "length": "900 mm"}},
        {"anchor": {"lever_radius": "71 mm"}},
        {"adjuster": {"thread_pitch": "2 mm"}},
        {"damper": {"open_length": "600 mm"}},
        {"load": {"mass": "300 kg"}},
        {"axle": {"unsprung_mass": "30 kg"}},
        {"axle": {"hub_up": "12 mm"}},
    ],
    ids=", ".join,
)
def test_a_corner_beside_another_is_what_it_is_alone(change: dict[str, dict[str, Any]]) -> None:
    setup = make_setup()
    fields = {name: attrs.evolve(getattr(setup, name), **own) for name, own in change.items()}
    changed = attrs.evolve(setup, **fields)
    beside, alone = all_computed(setup).beside(changed), Corner(changed)
    for name in COMPARED:
        assert repr(getattr(beside, name)) == repr(getattr(alone, name)), name


@pytest.mark.parametrize(
    ("vehicle", "place"),
    [
        ("fells:chassis/short", "front left"),
        ("hodmule:chassis/long", "front right"),
        ("trundlet:chassis/open", "rear left"),
    ],
)
@pytest.mark.parametrize(
    "is_read", rarely_after(1, [False, True]), ids=["as figures say", "as read"]
)
def test_whichever_figure_lies_elsewhere_a_corner_beside_another_is_what_it_is_alone(
    vehicle: str, place: str, registry: bw.Registry, *, is_read: bool
) -> None:
    setup = registry.setup(vehicle, corner=place)
    if is_read:
        setup = setup.with_reading(height=bw.ride(setup).height, tolerance="2 mm")
    corner = all_computed(setup)
    assert fit_of(corner).verdict is bw.Verdict.FITS
    assert corner.torsional_rates is not None
    places = figure_places(setup)
    slightly = {one.path: 1e-3 * abs(one.value) for one in places if one.value.magnitude}
    shifter = FigureShifter(setup, places)
    for figure in toleranced_figures(setup, slightly):
        moved = shifter.moved({figure: 1.0})
        beside, alone = corner.beside(moved), Corner(moved)
        for name in COMPARED:
            assert repr(getattr(beside, name)) == repr(getattr(alone, name)), (figure, name)
        assert fit_of(beside) == fit_of(alone), figure
        assert beside.torsional_rates == alone.torsional_rates, figure


def test_a_corner_without_rubber_keeps_its_springs_wherever_the_arch_is() -> None:
    setup = make_setup()
    assert (setup.axle.bump_rubber, setup.axle.bushing) == (None, None)
    axle = attrs.evolve(setup.axle, measured_height="381 mm")
    assert "springs" in vars(all_computed(setup).beside(attrs.evolve(setup, axle=axle)))


def test_a_motion_is_computed_once_for_all_corners_with_one_linkage() -> None:
    corner = all_computed(make_setup())
    setup, angle = corner.setup, 0.1
    other_bar = corner.beside(attrs.evolve(setup, bar=attrs.evolve(setup.bar)))
    assert corner.motion(angle) is other_bar.motion(angle)
    longer = corner.beside(attrs.evolve(setup, arm=attrs.evolve(setup.arm, radius="345 mm")))
    assert longer.motion(angle).hub.height != corner.motion(angle).hub.height
    several = np.array([angle, 0.2])
    assert corner.motion(several) is not corner.motion(several)


def test_a_corner_is_freed_with_its_last_holder() -> None:
    corner = all_computed(make_setup())
    assert tolerance_ends(corner).there[-1].setup is corner.setup
    kept = weakref.ref(corner)
    del corner
    assert kept() is None


def test_the_other_side_is_another_corner() -> None:
    setup = make_setup()
    right = attrs.evolve(setup, side=bw.parts.Side.RIGHT)
    beside = all_computed(setup).beside(right)
    assert beside.sense == Corner(right).sense == -Corner(setup).sense


@pytest.mark.parametrize(
    "axle", ["fells:chassis/short", "hodmule:chassis/long", "trundlet:chassis/open"]
)
def test_a_corner_beside_the_other_side_is_what_it_is_alone(
    axle: str, registry: bw.Registry
) -> None:
    place = "rear" if axle.startswith("trundlet") else "front"
    left, right = (registry.setup(axle, corner=f"{place} {side}") for side in ("left", "right"))
    beside, alone = all_computed(left).beside(right), Corner(right)
    taken = shared(beside, all_computed(right))
    assert {"standard_linkage", "arch_height", "torsional_rates", "load"} <= taken
    assert not {"plane", "sense"} & taken
    for name in COMPARED:
        assert repr(getattr(beside, name)) == repr(getattr(alone, name)), name


def figures_at_ends(corner: Corner) -> list[tuple[object, ...] | None]:
    names = ("keyed_angle", "load", "arch_height", "travel", "lever_span", "torsional_rates")
    return [
        None if end is None else tuple(getattr(end, name) for name in names)
        for end in tolerance_ends(corner).corners
    ]


@pytest.mark.parametrize(
    ("blank_angle", "known_to", "is_shared"),
    [("0 deg", None, True), ("2 deg", None, False), ("0 deg", "1 deg", False)],
    ids=["blanks in line", "blanks apart", "blanks that may be apart"],
)
def test_both_sides_share_the_ends_of_their_tolerances_unless_the_blanks_tell_them_apart(
    blank_angle: str, known_to: str | None, *, is_shared: bool
) -> None:
    tolerances = {"length": "1 mm"} | ({"blank_angle": known_to} if known_to else {})
    own = attrs.evolve(make_setup().bar, blank_angle=blank_angle)
    known = {
        name: bw.parts.Figure(value=getattr(own, name), tolerance=bw.Quantity(half_width))
        for name, half_width in tolerances.items()
    }
    left = attrs.evolve(make_setup(), bar=own.described(known))
    right = attrs.evolve(left, side=bw.parts.Side.RIGHT)
    corner = all_computed(left)
    ends = tolerance_ends(corner)
    beside = corner.beside(right)
    assert (tolerance_ends(beside) is ends) is is_shared
    assert figures_at_ends(beside) == figures_at_ends(Corner(right))


def test_a_question_about_a_corner_takes_over_from_the_two_before() -> None:
    setup = make_setup()
    shorter = setup.with_parts(damper=attrs.evolve(setup.damper, open_length="600 mm"))
    now, planned = all_computed(setup), corner_of(shorter)
    vars(corner_of(setup)).update(vars(now))
    assert corner_of(shorter) is planned
    other = corner_of(attrs.evolve(setup, arm_tooth=1))
    assert shared(other, now) == set(RESTS_ON)
    assert corner_of(shorter) is not planned


def test_an_answer_of_a_higher_room_is_kept_with_the_corner() -> None:
    asked: list[Corner] = []

    @once_a_corner(RESTS_ON["seat"])
    def answer(corner: Corner) -> int:
        asked.append(corner)
        return len(asked)

    corner = Corner(make_setup())
    assert [answer(corner), answer(corner)] == [1, 1]
    turned = attrs.evolve(corner.setup, arm_tooth=1)
    assert answer(corner.beside(turned)) == 1
    assert answer(corner.beside(corner.setup.with_parts(bar=make_bar(length="900 mm")))) == 2
    assert answer(Corner(corner.setup)) == 3


def test_answers_are_told_apart_by_what_they_were_asked_with() -> None:
    asked: list[tuple[int, int]] = []

    @once_a_corner(of_either_side)
    def answer(_: Corner, one: int, *, other: int) -> int:
        asked.append((one, other))
        return one * other

    corner = Corner(make_setup())
    right = attrs.evolve(corner.setup, side=bw.parts.Side.RIGHT)
    assert [answer(corner, 2, other=3), answer(corner, 2, other=3)] == [6, 6]
    assert [answer(corner, 3, other=2), answer(corner.beside(right), 3, other=2)] == [6, 6]
    assert asked == [(2, 3), (3, 2)]


def test_what_rests_on_the_whole_setup_is_taken_over_by_no_other() -> None:
    setup = make_setup()
    assert whole(setup) == (setup,)
    once = once_a_corner(whole)(lambda corner: corner.setup.arm_tooth)
    corner = Corner(setup)
    assert once(corner) == 0
    assert once(corner.beside(attrs.evolve(setup, arm_tooth=1))) == 1
