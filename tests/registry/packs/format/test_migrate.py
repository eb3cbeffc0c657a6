"""Tests of `migrate`: older packs answer as they did, newer ones are refused."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.registry.packs.format import migrate
from barwright.registry.packs.format.migrate import MIGRATIONS, Migration, migrated, version_of
from barwright.registry.packs.format.pack import SCHEMA
from barwright.registry.packs.load import load_pack
from sample_packs import GOOD_PACK, SPECIMENS

OLD_PACK = SPECIMENS / "old-packs" / "version-1"


def answers(pack: Path) -> list[str]:
    registry = bw.Registry.from_folders(pack, cache=False)
    assert registry.problems == ()
    setup = registry.setup("tiny:chassis/one", corner="front left")
    wanted = bw.Wanted(height="390 mm")
    found = (
        bw.length_fit(setup),
        bw.rates(setup, wanted=wanted),
        bw.reindex(setup, wanted=wanted, present=setup),
    )
    return [bw.to_json(answer) for answer in found]


def test_a_pack_of_version_1_answers_like_its_form_of_today() -> None:
    assert "schema = 1\n" in (OLD_PACK / "pack.toml").read_text(encoding="utf-8")
    assert answers(OLD_PACK) == answers(GOOD_PACK)
    assert load_pack(OLD_PACK, origin="").header.schema == SCHEMA


def test_a_pack_of_version_1_is_linted_as_one_of_today() -> None:
    old, now = bw.lint_pack(OLD_PACK), bw.lint_pack(GOOD_PACK)

    assert (old.findings, old.exit_code) == (now.findings, now.exit_code)


def test_there_is_a_step_from_every_version_to_the_next() -> None:
    assert sorted(MIGRATIONS) == list(range(1, SCHEMA))


def test_what_is_of_today_is_left_alone() -> None:
    header = {"schema": SCHEMA, "id": "x"}

    assert migrated("pack.toml", header, version=SCHEMA) == header
    assert migrated("bars.toml", {"bar": []}, version=SCHEMA) == {"bar": []}


@pytest.mark.parametrize("schema", ["1", 1.0, True, None, [1]])
def test_a_version_that_is_no_number_is_told_elsewhere(schema: Any) -> None:
    assert version_of({"schema": schema}) == SCHEMA


def test_a_pack_without_a_version_is_told_elsewhere() -> None:
    assert version_of({}) == SCHEMA


@pytest.mark.parametrize("schema", [SCHEMA + 1, 99, 0, -1])
def test_a_version_that_is_not_known_is_refused(schema: int) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        version_of({"schema": schema})

    error = caught.value
    assert (error.code, error.key, error.file) == ("P401", "schema", "pack.toml")
    assert error.expected == f"schema = 1 to {SCHEMA}"
    newer = schema > SCHEMA
    assert error.remedy == ("install a newer barwright" if newer else f"write schema = {SCHEMA}")


# -- A version before the first, made up to see the steps at work ----------------------


def licence_with_s(table: Any) -> Any:
    """Version 0 of the tests called the licence something else."""
    return {("licence" if key == "license" else key): value for key, value in table.items()}


def rods_were_bars(table: Any) -> Any:
    return {("bar" if key == "rod" else key): value for key, value in table.items()}


@pytest.fixture
def with_version_0(monkeypatch: pytest.MonkeyPatch) -> None:
    zero = Migration(header=licence_with_s, records=rods_were_bars)
    monkeypatch.setattr(migrate, "MIGRATIONS", {0: zero, **MIGRATIONS})


@pytest.mark.usefixtures("with_version_0")
def test_steps_follow_each_other_up_to_today(tmp_path: Path) -> None:
    pack = tmp_path / "pack"
    shutil.copytree(OLD_PACK, pack)
    for file, old, new in (
        ("pack.toml", "schema = 1", "schema = 0"),
        ("pack.toml", "licence =", "license ="),
        ("parts.toml", "[[bar]]", "[[rod]]"),
    ):
        text = (pack / file).read_text(encoding="utf-8")
        assert old in text
        (pack / file).write_text(text.replace(old, new), encoding="utf-8")
    before = {path.name: path.read_bytes() for path in pack.iterdir()}

    assert answers(pack) == answers(GOOD_PACK)
    # In memory only.
    assert {path.name: path.read_bytes() for path in pack.iterdir()} == before


@pytest.mark.usefixtures("with_version_0")
def test_a_step_changes_nothing_in_place() -> None:
    header = {"schema": 0, "license": "CC0-1.0"}
    records = {"rod": [{"id": "x"}]}

    assert migrated("pack.toml", header, version=0) == {"schema": SCHEMA, "licence": "CC0-1.0"}
    assert migrated("more/bars.toml", records, version=0) == {"bar": [{"id": "x"}]}
    assert header == {"schema": 0, "license": "CC0-1.0"}
    assert records == {"rod": [{"id": "x"}]}
