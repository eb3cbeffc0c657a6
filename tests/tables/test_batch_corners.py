"""Corners of jobs and vehicles answered as rows: each as it is answered alone."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.analysis.across.job_files import job_files
from barwright.columns.asked.catalogue import QUESTIONS
from barwright.errors import BarwrightError
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.corners import answered_corners as answering
from barwright.tables.corners import corner_reader
from barwright.tables.corners.alike import taken_apart
from barwright.tables.corners.corners import (
    JOB_LABELS,
    VEHICLE_LABELS,
    TableCorner,
    vehicle_corners,
)
from barwright.units import is_quantity
from rare_cases import rarely_after
from sample_packs import SPECIMENS, discovered_once

REGISTRY = discovered_once()
JOBS = job_files([SPECIMENS / "twenty", SPECIMENS / "jobs"])


def figures_of(rows: Any, row: int) -> dict[str, Any]:
    """Figures of a row, in the units of their columns, without those that it does not have."""
    names = rows.column_names[rows.column_names.index("error") + 1 :]
    figures = {name: rows[name][row].as_py() for name in names}
    return {name: figure for name, figure in figures.items() if figure is not None}


def expected(asked: str, answer: object, rows: Any) -> dict[str, Any]:
    """The same figures of the answer for one corner."""
    found = {}
    for name, figure in QUESTIONS[asked].figures(answer).items():
        if figure is not None:
            unit = (rows.schema.field(name).metadata or {}).get(b"unit", b"").decode()
            found[name] = figure.m_as(unit) if is_quantity(figure) else figure
    return found


@pytest.mark.parametrize("asked", rarely_after(4, sorted(QUESTIONS)))
def test_corners_of_vehicles_are_answered_as_each_alone(asked: Any) -> None:
    rows = bw.batch_vehicles(REGISTRY, asked=asked).read_all()

    assert rows.column_names[:3] == list(VEHICLE_LABELS)
    assert rows.num_rows == sum(2 * len(van.axles) for van in REGISTRY.vehicles())
    for row in range(rows.num_rows):
        setup = REGISTRY.setup(rows["vehicle"][row].as_py(), corner=rows["corner"][row].as_py())
        answer = QUESTIONS[asked].of_row(setup, None)
        assert rows["verdict"][row].as_py() == answer.verdict.value
        alone = expected(asked, answer, rows)
        assert figures_of(rows, row).keys() == alone.keys()
        for name, figure in figures_of(rows, row).items():
            assert figure == pytest.approx(alone[name], rel=1e-9, abs=1e-12), name


@pytest.mark.rare
def test_corners_of_jobs_are_rated_at_the_height_that_the_job_wants() -> None:
    rows = bw.batch_jobs(JOBS, REGISTRY).read_all()

    assert rows.column_names[:4] == list(JOB_LABELS)
    answered = 0
    for row, (file, corner) in enumerate(corners_of(JOBS)):
        assert rows["file"][row].as_py() == str(file)
        code = rows["error_code"][row].as_py()
        if isinstance(corner, BarwrightError):
            assert code is not None
            assert rows["vehicle"][row].as_py() == ""
        elif code is None:
            answer = bw.rates(corner.setup, wanted=corner.wanted)
            assert rows["verdict"][row].as_py() == answer.verdict.value
            alone = expected("rates", answer, rows)
            assert figures_of(rows, row) == pytest.approx(alone, rel=1e-9, abs=1e-9)
            answered += 1
        else:
            assert code == "N301"
    assert row + 1 == rows.num_rows
    assert answered > 30


def test_jobs_are_planned_as_a_whole() -> None:
    files = [SPECIMENS.parents[1] / "docs" / "examples" / "shorter-dampers.toml", *JOBS[:4]]

    rows = bw.batch_jobs(files, REGISTRY, asked="reindex").read_all()

    jobs = [job for file in files for job in bw.load_jobs(file, REGISTRY)]
    plans = [plan for job in jobs for plan in bw.reindex_job(job)]
    assert rows["verdict"].to_pylist() == [plan.verdict.value for plan in plans]
    for row, plan in enumerate(plans):
        alone = expected("reindex", plan, rows)
        assert figures_of(rows, row) == pytest.approx(alone, rel=1e-9, abs=1e-9)


def corners_of(files: Sequence[Path]) -> Iterator[tuple[Path, bw.JobCorner | BarwrightError]]:
    """Corners of jobs, or why a file has none."""
    for file in files:
        try:
            jobs = bw.load_jobs(file, REGISTRY)
        except BarwrightError as error:
            yield file, error
        else:
            yield from ((file, corner) for job in jobs for corner in job.corners)


def test_a_bad_job_is_a_row_with_its_first_problem_and_tells_all(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    files = [SPECIMENS / "twenty" / "17-bad-names.toml", *job_files([tmp_path / "empty"])]

    rows = bw.batch_jobs(files, REGISTRY, asked="fit").read_all()

    assert rows["error_code"].to_pylist() == ["L101", "F105"]
    assert "; L102: " in rows["error"][0].as_py()
    assert rows["verdict"].to_pylist() == [None, None]


def test_a_name_of_bytes_that_are_no_text_is_told() -> None:
    path = os.fsdecode(b"\xff.toml")

    rows = bw.batch_jobs([path], REGISTRY, asked="fit").read_all()

    assert rows["file"].to_pylist() == ["\ufffd.toml"]
    assert rows["error_code"].to_pylist() == ["F101"]


def test_a_present_height_is_none_where_the_parts_do_not_go_together(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(
        'vehicle = "fells:chassis/long"\ncorners = ["front left"]\n'
        '[parts]\nbar = "fells:bar/short-standard"\n'
        '[present]\nbar = "fells:bar/short-standard"\n[wanted]\nsame_height = true\n',
        encoding="utf-8",
    )

    rows = bw.batch_jobs([path], REGISTRY).read_all()

    assert rows["error"].to_pylist() == [None]
    assert rows["verdict"].to_pylist() == ["does not fit"]


def test_what_is_wrong_is_told_of_the_corner_itself() -> None:
    van = REGISTRY.setup("fells:chassis/short", corner="front left")
    heavy = attrs.evolve(van, load=attrs.evolve(van.load, mass="20000 kg"))
    height = bw.Wanted(height="400 mm").height
    corners = [TableCorner((str(n),), one, height) for n, one in enumerate([van, heavy, van])]

    rows = answering.answered_corners(corners, AskedOfRows("rates"), labels=["number"])

    with pytest.raises(BarwrightError) as caught:
        bw.rates(heavy, wanted=bw.Wanted(height="400 mm"))
    assert rows["error"].to_pylist() == [None, str(caught.value), None]
    assert rows["number"].to_pylist() == ["0", "1", "2"]


def test_corners_whose_figures_only_go_together_as_a_whole_are_answered() -> None:
    van = REGISTRY.setup("fells:chassis/short", corner="front left")
    corners = [
        TableCorner(
            (diameter,), attrs.evolve(van, bar=attrs.evolve(van.bar, diameter=diameter, bore=bore))
        )
        for diameter, bore in (("24 mm", "20 mm"), ("18 mm", "8 mm"))
    ]

    rows = answering.answered_corners(corners, AskedOfRows("fit"), labels=["diameter"])

    assert rows["verdict"].to_pylist() == ["fits", "fits"]
    assert rows["error_code"].to_pylist() == [None, None]
    assert rows["error"].to_pylist() == [None, None]


def test_progress_is_told_and_rows_come_as_they_are_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(corner_reader, "_AT_A_TIME", 4)
    seen: list[tuple[int, int]] = []

    reader = bw.batch_vehicles(
        REGISTRY, "fells", asked="fit", progress=lambda *counts: seen.append(counts)
    )

    assert not seen
    assert reader.read_next_batch().num_rows == 4
    assert seen == [(1, 3)]
    assert reader.read_all().num_rows == 2
    assert seen[-1] == (3, 3)


def test_words_that_describe_no_vehicle_are_refused() -> None:
    with pytest.raises(bw.UnknownNameError, match="L101"):
        bw.batch_vehicles(REGISTRY, "no such words")


VAN = REGISTRY.setup("fells:chassis/short", corner="front left")


@pytest.mark.parametrize(
    "change",
    [
        lambda: REGISTRY.setup("fells:chassis/short", corner="front right"),
        lambda: REGISTRY.setup("trundlet:chassis/open", corner="rear left"),
        lambda: attrs.evolve(VAN, bar=attrs.evolve(VAN.bar, made_for=bw.parts.Side.LEFT)),
        lambda: attrs.evolve(VAN, bar=attrs.evolve(VAN.bar, length="35.6 in")),
        lambda: attrs.evolve(VAN, arm_tooth=1),
    ],
)
def test_corners_that_differ_in_more_than_numbers_are_not_alike(
    change: Callable[[], bw.Setup],
) -> None:
    one, other = taken_apart(VAN), taken_apart(change())

    assert one is not None
    assert other is not None
    assert one.frame != other.frame


def test_corners_that_differ_in_names_and_numbers_are_alike() -> None:
    bar = attrs.evolve(VAN.bar, id="other", title="Other", length="905 mm")
    one, other = taken_apart(VAN), taken_apart(attrs.evolve(VAN, bar=bar))

    assert one is not None
    assert other is not None
    assert one.frame == other.frame
    differing = {path for path in one.figures if one.figures[path] != other.figures[path]}
    assert differing == {"bar.length"}


def test_a_corner_with_readings_or_gaps_is_asked_about_alone() -> None:
    assert taken_apart(VAN.with_reading(height="385 mm", tolerance="2 mm")) is None
    job = bw.load_job(SPECIMENS / "jobs" / "measured-alone.toml", REGISTRY)
    assert taken_apart(job.corners[0].setup) is None


def test_an_order_that_mixes_vehicles_is_kept() -> None:
    vehicles = list(vehicle_corners(REGISTRY.vehicles()))
    order = np.random.default_rng(1).permutation(len(vehicles))
    mixed = [vehicles[place] for place in order]

    rows = answering.answered_corners(mixed, AskedOfRows("fit"), labels=VEHICLE_LABELS)

    whole = answering.answered_corners(vehicles, AskedOfRows("fit"), labels=VEHICLE_LABELS)
    for name in VEHICLE_LABELS:
        assert rows[name].to_pylist() == [whole[name][place].as_py() for place in order]
    lengths = [whole["active_length"][place].as_py() for place in order]
    assert rows["active_length"].to_pylist() == pytest.approx(lengths, rel=1e-12)
