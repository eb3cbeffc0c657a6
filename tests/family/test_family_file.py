"""The matrix in a file holds the rows of the matrix in memory."""

from __future__ import annotations

import pickle
from pathlib import Path
from typing import Any

import attrs
import pytest
from pyarrow import parquet

import barwright as bw
from barwright.family import family
from barwright.family.family_file import FamilyWork
from barwright.family.row import FIGURES, row_of
from barwright.family.vehicle import family_question

DEMO = bw.Registry.demo()


def rows_in(path: Path) -> tuple[bw.answers.FamilyRow, ...]:
    return tuple(map(row_of, parquet.read_table(path).to_pylist()))


@pytest.mark.parametrize(
    "asked", [{}, {"vehicles": "fells short", "height": "390 mm", "pruned": True, "clocking": True}]
)
def test_the_file_holds_the_rows_and_the_answer_their_count(
    asked: dict[str, Any], tmp_path: Path
) -> None:
    path = tmp_path / "family.parquet"
    matrix = bw.family_matrix(DEMO, **asked)

    answer = bw.write_family_matrix(DEMO, path, processes=1, **asked)

    assert rows_in(path) == matrix.rows
    assert (answer.count, answer.verdict) == (matrix.count, matrix.verdict)
    assert (answer.file, answer.earlier) == (str(path), 0)
    assert answer.headline == matrix.headline


def test_units_stand_in_the_metadata_of_the_fields(tmp_path: Path) -> None:
    bw.write_family_matrix(DEMO, tmp_path / "f.parquet", bars="firm", processes=1)
    schema = parquet.read_schema(tmp_path / "f.parquet")
    units = {name: schema.field(name).metadata[b"unit"].decode() for name in FIGURES}
    assert units == {name: kind.units[0] for name, kind in FIGURES.items()}


def test_parts_hold_several_vehicles_where_there_are_many(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(family, "_LEAST", 3)
    answer = bw.write_family_matrix(DEMO, tmp_path / "f.parquet", bars="firm", processes=1)
    assert answer.pieces == 2
    assert rows_in(tmp_path / "f.parquet") == bw.family_matrix(DEMO, bars="firm").rows


def test_where_nothing_is_described_the_file_has_no_rows(tmp_path: Path) -> None:
    answer = bw.write_family_matrix(DEMO, tmp_path / "f.parquet", vehicles="zzz", processes=1)
    assert (answer.outcome, answer.pieces) == (bw.Outcome.NO, 1)
    assert rows_in(tmp_path / "f.parquet") == ()


def work(registry: bw.Registry = DEMO, **asked: Any) -> FamilyWork:
    words = {name: asked.pop(name, "") for name in ("bars", "vehicles")}
    usual: dict[str, Any] = {"height": None, "clocking": False, "pruned": False}
    return FamilyWork(registry, family_question(**(usual | asked)), **words)


def test_every_part_of_the_question_is_in_what_the_parts_are_of() -> None:
    others = [
        work(bars="firm"),
        work(vehicles="fells"),
        work(height="390 mm"),
        work(clocking=True),
        work(pruned=True),
        work(bw.Registry.from_folders(*[pack.folder for pack in DEMO.packs[:2]])),
    ]
    own = dict(work().question)
    differing = [
        [name for name, value in other.question.items() if value != own[name]] for other in others
    ]
    assert differing == [
        [name] for name in ("bars", "vehicles", "height", "clocking", "pruned", "registry")
    ]
    assert work(height="39 cm").question == work(height="390 mm").question


def test_work_that_is_sent_is_opened_again_there_from_its_packs() -> None:
    one = work(bars="firm")
    part = one.part(0)

    other = pickle.loads(pickle.dumps(one))  # noqa: S301 - its own

    assert "family" not in vars(other)
    assert other.question == one.question
    assert other.part(0).table.equals(part.table)
    assert attrs.evolve(other.part(0), table=None) == attrs.evolve(part, table=None)
