"""Tests of `work_rests_on`: what forbids the work is what moves it, and all say so."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.analysis.across import job_files
from barwright.analysis.reindex.work_rests_on import work_rests_on
from barwright.registry.jobs.job import Job, JobCorner
from measured_setups import (
    ESTIMATE,
    INVENTION,
    estimates_of,
    with_estimated,
    with_invented,
)
from sample_packs import discovered_once
from sample_records import make_setup, tube_of

REGISTRY = discovered_once()
JOB = bw.load_job("docs/examples/shorter-dampers.toml", REGISTRY)
CORNER = attrs.evolve(
    JOB.corners[0],
    # A cap that lies beside its holes, and a damper of which all is known.
    setup=JOB.corners[0].setup.with_parts(
        anchor=attrs.evolve(tube_of(JOB.corners[0].setup), cap_position="787 mm"),
        damper=attrs.evolve(JOB.corners[0].setup.damper, damping_rate="1.5 N*s/mm"),
    ),
)
OLD = attrs.evolve(
    CORNER,
    present=REGISTRY.setup("fells:chassis/short", corner=CORNER.setup.corner).with_parts(
        damper=bw.parts.Damper(
            id="t:damper/old",
            title="Old",
            open_length="674 mm",
            closed_length="486 mm",
            damping_rate="1.2 N*s/mm",
        )
    ),
)
INVENTED = (bw.answers.UnmeasuredSource(kind="invented", source=INVENTION),)


def invented(corner: JobCorner, *paths: str, present: str = "") -> JobCorner:
    """The corner of a job with invented figures, new or on the car now."""
    return attrs.evolve(
        corner,
        setup=with_invented(corner.setup, *paths),
        present=with_invented(corner.present, *(paths if not present else (present,))),
    )


def strong(limit: str) -> JobCorner:
    """The same, with a bar whose steel bears a stress, and has all else that steels have."""
    steel = attrs.evolve(
        CORNER.setup.bar.material,
        permissible_shear=limit,
        youngs_modulus="206 GPa",
        density="7850 kg/m**3",
    )
    bar = attrs.evolve(CORNER.setup.bar, material=steel)
    return attrs.evolve(CORNER, setup=CORNER.setup.with_parts(bar=bar))


@pytest.mark.parametrize(
    "path",
    [
        "axle.tyre_rate",
        "axle.standard_mass",
        "adjuster.thread_diameter",
        "damper.damping_rate",
        "bar.material.youngs_modulus",
        "bar.material.density",
    ],
)
def test_what_moves_nothing_of_the_work_forbids_nothing(path: str) -> None:
    corner = strong("900 MPa") if "material" in path else CORNER
    assert bw.rests_on(invented(corner, path).setup) == INVENTED
    assert work_rests_on(invented(corner, path)) == ()


@pytest.mark.parametrize(
    "path",
    [
        # What the free angle comes from.
        "bar.diameter",
        "arm.radius",
        "axle.reference_angle",
        "axle.suspension.offset",
        # What decides on the teeth and the nut alone.
        "anchor.socket.key_angle",
        "adjuster.thread_end",
        "adjuster.spacer",
        # What decides whether the bar fits and can be put in.
        "axle.cap_allowance",
        "arm.socket.minor_diameter",
        # The stop that holds the arm with the damper off, and those that bound the travel.
        "axle.droop_stop",
        "axle.bump_stop",
        "damper.closed_length",
    ],
)
def test_what_moves_the_work_forbids_it(path: str) -> None:
    assert work_rests_on(invented(CORNER, path)) == INVENTED


@pytest.mark.parametrize("limit", ["650 MPa", "900 MPa", "9000 MPa"])
def test_an_invented_limit_of_strength_forbids_however_far_off_it_is(limit: str) -> None:
    assert work_rests_on(invented(strong(limit), "bar.material.permissible_shear")) == INVENTED


def test_what_is_on_the_car_now_counts() -> None:
    """The old damper holds the arm while the old bar comes out."""
    assert OLD.present.damper != OLD.setup.damper
    assert work_rests_on(invented(OLD, present="damper.open_length")) == INVENTED
    assert work_rests_on(invented(OLD, present="damper.damping_rate")) == ()


@pytest.mark.parametrize("height", ["600 mm", "100 mm"])
def test_a_wish_out_of_reach_rests_on_what_says_so(height: str) -> None:
    far = attrs.evolve(CORNER, wanted=bw.Wanted(height=height))
    assert work_rests_on(invented(far, "axle.hub_outboard")) == INVENTED
    assert work_rests_on(invented(far, "axle.tyre_rate")) == ()


def test_a_bar_that_does_not_fit_rests_on_what_says_so() -> None:
    short = attrs.evolve(CORNER.setup.bar, length="700 mm")
    corner = attrs.evolve(CORNER, setup=CORNER.setup.with_parts(bar=short))
    assert work_rests_on(invented(corner, "bar.length")) == INVENTED
    assert work_rests_on(invented(corner, "damper.gas.force")) == ()


@pytest.mark.parametrize(
    ("path", "is_said"), [("axle.tyre_rate", False), ("axle.droop_stop", True)]
)
def test_the_sheet_and_the_check_say_the_same(
    path: str, *, is_said: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    corners = tuple(invented(corner, path) for corner in JOB.corners)
    job = attrs.evolve(JOB, corners=corners)

    def jobs(*_: object) -> tuple[Job, ...]:
        return (job,)

    monkeypatch.setattr(job_files, "load_jobs", jobs)
    checked = bw.check_job(Path("job.toml"), REGISTRY)
    assert checked.exit_code == 0
    assert checked.rests_on == (INVENTED if is_said else ())

    sheet = bw.bench_sheet(job)
    forbidden = [text for text in sheet.cautions if "for no vehicle" in text]
    assert bool(forbidden) is is_said
    assert all(f"({INVENTION})" in text for text in forbidden)
    # Where its figures come from is said all the same.
    assert f"{INVENTION} (invented)" in sheet.sources


def test_a_sheet_names_the_sources_of_old_parts_too() -> None:
    corner = invented(OLD, present="damper.open_length")
    sheet = bw.bench_sheet(attrs.evolve(JOB, corners=(corner,)))
    assert f"{INVENTION} (invented)" in sheet.sources


# -- Estimates -----------------------------------------------------------------------

MOVING = {
    "axle.droop_stop": "1 deg",
    "damper.open_length": "3 mm",
    "anchor.socket.key_angle": "2 deg",
    "bar.material.shear_modulus": "3 GPa",
}


def estimated(corner: JobCorner, ranges: Mapping[str, str]) -> JobCorner:
    """The corner of a job with estimated figures, the same on the car now and later."""
    return attrs.evolve(
        corner,
        setup=with_estimated(corner.setup, ranges),
        present=with_estimated(corner.present, ranges),
    )


@pytest.mark.parametrize("path", MOVING)
def test_an_estimate_that_moves_the_work_is_named(path: str) -> None:
    still = {path: MOVING[path], "axle.tyre_rate": "60 N/mm"}

    assert estimates_of(work_rests_on(estimated(CORNER, still))) == [path]


@pytest.mark.parametrize(
    ("path", "half_width", "is_said"),
    [
        ("axle.tyre_rate", "60 N/mm", False),
        # The chassis' own stop lies before this one, until the damper is as long as that.
        ("damper.closed_length", "6 mm", False),
        ("damper.closed_length", "60 mm", True),
    ],
)
def test_an_estimate_is_named_if_its_range_can_move_the_work(
    path: str, half_width: str, *, is_said: bool
) -> None:
    found = work_rests_on(estimated(CORNER, {path: half_width}))
    assert estimates_of(found) == [path] * is_said


def test_an_estimate_forbids_no_work() -> None:
    corners = tuple(estimated(corner, MOVING) for corner in JOB.corners)
    sheet = bw.bench_sheet(attrs.evolve(JOB, corners=corners))

    assert not [text for text in sheet.cautions if "for no vehicle" in text]
    assert f"{ESTIMATE} (estimated)" in sheet.sources
    (note,) = [note for note in sheet.notes if note.startswith("Estimated")]
    assert note.count("damper open length 616 mm ± 3 mm") == 1
    assert note.endswith(f"({ESTIMATE})")


def test_a_sheet_in_inches_gives_ranges_in_inches() -> None:
    corner = estimated(CORNER, {"damper.open_length": "3 mm"})
    sheet = bw.bench_sheet(attrs.evolve(JOB, corners=(corner,)), system="inch")

    assert [note for note in sheet.notes if "damper open length 24.252 in ± 0.11811 in" in note]


def test_the_uncertainty_of_a_plan_carries_an_estimate() -> None:
    known, guessed = (
        bw.reindex(one.setup, wanted=one.wanted, present=one.present).preferred
        for one in (CORNER, estimated(CORNER, {"axle.measured_height": "9 mm"}))
    )
    assert known.height_left_open < guessed.height_left_open


# -- Clockings, where a plan needs more figures ----------------------------------------------


def unknown_stop() -> JobCorner:
    """A corner whose nut is near its end, and whose droop stop nobody knows."""
    now = make_setup(nut_turns="-8 turn", axle={"droop_stop": "unknown"})
    return JobCorner(setup=now, present=now, wanted=bw.Wanted(same_height=True))


@pytest.mark.parametrize(
    ("path", "counts"),
    [
        ("anchor.lever_radius", True),
        ("adjuster.thread_end", True),
        ("adjuster.mounting.pivot_distance", True),
        ("bar.material.shear_modulus", False),
        ("arm.socket.key_angle", False),
        ("axle.hub_up", False),
        ("load.mass", False),
    ],
)
def test_clockings_rest_on_lever_and_thread_alone(path: str, counts: bool) -> None:  # noqa: FBT001
    found = work_rests_on(invented(unknown_stop(), path))

    assert bool(found) == counts
