"""Tests of `scaffold`: a new pack works as it stands, or is not there."""

from __future__ import annotations

import datetime as dt
import errno
import importlib.util
import itertools
import json
import re
import shutil
import tempfile
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.answer import Outcome
from barwright.parts.common.source import Source, SourceKind
from barwright.registry.authoring.scaffold import (
    ANCHORAGES,
    LICENCES,
    OVERLAY_SCAFFOLD,
    SCAFFOLD,
    SUSPENSIONS,
    new_corrections,
    new_overlay,
    new_pack,
)
from barwright.registry.authoring.schema import schema_text
from barwright.registry.discovery.entry_points import GROUP
from barwright.registry.overlays.correction import Correction
from barwright.registry.packs.format.keys import KIND_WORDS
from barwright.registry.packs.format.pack import KINDS, SCHEMA
from barwright.testing import CONTRACT, complaints
from each_case import each_case
from rare_cases import rarely_after

ROOT = Path(__file__).parents[3]


def pack_of(folder: Path) -> Path:
    (header,) = folder.rglob("pack.toml")
    return header.parent


def test_it_lints_clean_and_its_job_is_answered(tmp_path: Path) -> None:
    folder = tmp_path / "moor"
    new_pack(folder, "moor")

    assert bw.lint_pack(pack_of(folder)) == bw.answers.PackLint(
        folder=str(pack_of(folder)), pack="moor", exit_code=0
    )
    registry = bw.Registry.from_folders(pack_of(folder), cache=False)
    job = bw.load_job(folder / "jobs" / "lower.toml", registry)
    assert [corner.setup.corner for corner in job.corners] == ["front left", "front right"]
    for corner in job.corners:
        answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)
        assert answer.outcome.is_good
        assert answer.plans[0].cuts == 0


def test_its_standard_parts_stand_in_the_middle_of_the_thread(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")
    registry = bw.Registry.from_folders(pack_of(tmp_path / "moor"), cache=False)

    state = bw.ride(registry.setup("moor:chassis/one", corner="front left")).state

    assert state is not None
    assert state.height.m_as("mm") == pytest.approx(404, abs=0.5)


def test_it_lists_what_it_wrote_and_leaves_nothing_else(tmp_path: Path) -> None:
    written = new_pack(tmp_path / "moor", "moor")

    assert set(written) == {path for path in tmp_path.rglob("*") if path.is_file()}
    assert list(written) == sorted(written)
    assert [path.name for path in tmp_path.iterdir()] == ["moor"]
    left = [p.read_text("utf-8").replace(r"\.toml$", "") for p in written if p.suffix != ".json"]
    assert not any("$" in text for text in left)


@pytest.mark.parametrize(
    ("pack_id", "distribution", "package"),
    [
        ("moor", "barwright-pack-moor", "barwright_pack_moor"),
        ("a.b-c9", "barwright-pack-a-b-c9", "barwright_pack_a_b_c9"),
        ("9", "barwright-pack-9", "barwright_pack_9"),
        ("a" * 64, f"barwright-pack-{'a' * 64}", f"barwright_pack_{'a' * 64}"),
    ],
)
def test_the_names_follow_from_the_id(
    tmp_path: Path, pack_id: str, distribution: str, package: str
) -> None:
    new_pack(tmp_path / "pack", pack_id)

    project = tomllib.loads((tmp_path / "pack" / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["name"] == distribution
    assert re.fullmatch(r"[a-z0-9]([a-z0-9._-]*[a-z0-9])?", distribution)
    assert project["project"]["entry-points"][GROUP] == {pack_id: package}
    assert project["tool"]["hatch"]["build"]["targets"]["wheel"]["packages"] == [f"src/{package}"]
    assert package.isidentifier()
    pack = pack_of(tmp_path / "pack")
    assert pack.name == package
    assert bw.lint_pack(pack).exit_code == 0
    header = tomllib.loads((pack / "pack.toml").read_text(encoding="utf-8"))
    assert (header["id"], header["schema"]) == (pack_id, SCHEMA)


@pytest.mark.parametrize(
    "title", ["Moor hauler", 'The "Moor"', r"C:\moor $id", "Torfmoor – schwer", "[[bar]] # = '"]
)
def test_a_title_goes_in_as_it_is(tmp_path: Path, title: str) -> None:
    new_pack(tmp_path / "moor", "moor", title=title)

    pack = bw.Registry.from_folders(pack_of(tmp_path / "moor"), cache=False).packs[0]
    assert pack.header.title == title
    project = tomllib.loads((tmp_path / "moor" / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["description"] == title
    assert title in (tmp_path / "moor" / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("pack_id", ["", "Moor", "mo or", "../moor", "a/b", "-a", "a-", "a.", "ä"])
def test_an_id_that_is_none_is_refused(tmp_path: Path, pack_id: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        new_pack(tmp_path / "moor", pack_id)

    assert (caught.value.code, caught.value.key) == ("S205", "id")
    assert list(tmp_path.iterdir()) == []


def test_the_id_of_the_standards_is_refused(tmp_path: Path) -> None:
    for made in (new_pack, new_overlay):
        with pytest.raises(bw.SchemaError) as caught:
            made(tmp_path / "moor", "standards")
        assert (caught.value.code, caught.value.key) == ("P301", "id")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("title", [" ", "two\nlines", "tab\t", "\x1b[31m", "\u202e", "\x7f"])
def test_a_title_that_is_no_line_of_text_is_refused(tmp_path: Path, title: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        new_pack(tmp_path / "moor", "moor", title=title)

    assert (caught.value.code, caught.value.key) == ("S203", "title")
    assert list(tmp_path.iterdir()) == []


def in_the_way(folder: Path) -> dict[str, Any]:
    """Everything below a folder, and what it holds."""
    return {str(p): p.read_bytes() if p.is_file() else None for p in folder.rglob("*")}


def test_a_pack_without_a_title_says_that_it_is_invented(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")

    pack = bw.Registry.from_folders(pack_of(tmp_path / "moor"), cache=False).packs[0]
    assert pack.header.title == "Pack moor, invented"


def test_a_killed_run_leaves_what_the_page_of_promises_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Killed before it is complete, nothing of it stands in the folder's place."""
    monkeypatch.setattr(Path, "rename", killed)
    monkeypatch.setattr(shutil, "rmtree", lambda _: None)

    with pytest.raises(KeyboardInterrupt):
        new_pack(tmp_path / "moor", "moor")

    (left,) = tmp_path.iterdir()
    page = (ROOT / "docs" / "promises.md").read_text(encoding="utf-8")
    assert f"`{re.sub('[0-9a-f]{16}', '…', left.name)}`" in page


def killed(path: Path, target: Path) -> Path:
    """Stand for a process that ends before a folder has its name."""
    raise KeyboardInterrupt(path, target)


@pytest.mark.parametrize("kind", ["file", "folder", "full folder", "link to nothing"])
def test_nothing_is_written_over(tmp_path: Path, kind: str) -> None:
    folder = tmp_path / "moor"
    if kind == "file":
        folder.write_text("mine", encoding="utf-8")
    elif kind == "link to nothing":
        folder.symlink_to(tmp_path / "nothing")
    else:
        folder.mkdir()
    if kind == "full folder":
        (folder / "README.md").write_text("mine", encoding="utf-8")
    before = in_the_way(tmp_path)

    with pytest.raises(bw.FileError) as caught:
        new_pack(folder, "moor")

    assert (caught.value.code, caught.value.value) == ("F201", "it already exists")
    assert caught.value.expected == "a place for a new folder"
    assert in_the_way(tmp_path) == before


def test_a_folder_around_it_must_be_there(tmp_path: Path) -> None:
    with pytest.raises(bw.FileError, match="No such file"):
        new_pack(tmp_path / "none" / "moor", "moor")

    assert list(tmp_path.iterdir()) == []


@each_case("number", range(14))
def test_where_a_file_cannot_be_written_nothing_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    really_write = Path.write_text
    left = iter(range(number))

    def failing(path: Path, *arguments: Any, **options: Any) -> int:
        if next(left, None) is None:
            raise OSError(errno.ENOSPC, "No space left on device")
        return really_write(path, *arguments, **options)

    monkeypatch.setattr(Path, "write_text", failing)
    with pytest.raises(bw.FileError) as caught:
        new_pack(tmp_path / "moor", "moor")

    assert (caught.value.code, caught.value.value) == ("F201", "No space left on device")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_appears_meanwhile_stays_as_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "moor"
    really_rename = Path.rename

    def late(path: Path, target: Path) -> Path:
        folder.mkdir()
        (folder / "README.md").write_text("mine", encoding="utf-8")
        return really_rename(path, target)

    monkeypatch.setattr(Path, "rename", late)
    with pytest.raises(bw.FileError):
        new_pack(folder, "moor")

    assert in_the_way(tmp_path) == {str(folder): None, str(folder / "README.md"): b"mine"}


def test_every_template_is_package_data() -> None:
    assert all(path.suffix == ".txt" for path in SCAFFOLD.rglob("*") if path.is_file())
    assert len(list(SCAFFOLD.rglob("*.txt"))) == 12
    assert all(path.suffix == ".txt" for path in OVERLAY_SCAFFOLD.rglob("*") if path.is_file())
    assert len(list(OVERLAY_SCAFFOLD.rglob("*.txt"))) == 4


# -- Choices ---------------------------------------------------------------------------


CHOICES = list(itertools.product(SUSPENSIONS, ANCHORAGES))
# Each suspension and each anchorage once; all pairs where there is time.
FEW = list(zip(itertools.cycle(SUSPENSIONS), ANCHORAGES, strict=False))
EACH_CHOICE = pytest.mark.parametrize(
    ("suspension", "anchorage"),
    [
        pytest.param(*choice, marks=[] if choice in FEW else [pytest.mark.slow])
        for choice in CHOICES
    ],
)


def corners_of(folder: Path) -> Iterator[Any]:
    registry = bw.Registry.from_folders(pack_of(folder), cache=False)
    yield from bw.load_job(folder / "jobs" / "lower.toml", registry).corners


@EACH_CHOICE
def test_each_choice_lints_clean_passes_its_tests_and_has_a_plan(
    tmp_path: Path, suspension: str, anchorage: str
) -> None:
    folder = tmp_path / "moor"
    new_pack(folder, "moor", suspension=suspension, anchorage=anchorage)

    assert bw.lint_pack(pack_of(folder)).findings == ()
    assert [complaints(pack_of(folder), test) for test in CONTRACT] == [[]] * len(CONTRACT)
    for corner in corners_of(folder):
        answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)
        assert answer.outcome.is_good, answer.headline
        assert KIND_WORDS[type(corner.setup.axle.suspension)] == suspension
        assert KINDS[anchorage] is type(corner.setup.anchor)


@EACH_CHOICE
def test_a_pack_without_any_figure_lints_with_notes_only_and_says_what_to_measure(
    tmp_path: Path, suspension: str, anchorage: str
) -> None:
    folder = tmp_path / "moor"
    new_pack(folder, "moor", suspension=suspension, anchorage=anchorage, unknown=True)

    linted = bw.lint_pack(pack_of(folder))
    assert linted.exit_code == 0
    assert {finding.rule for finding in linted.findings} == {"unknown-figures"}
    assert [complaints(pack_of(folder), test) for test in CONTRACT] == [[]] * len(CONTRACT)
    for corner in corners_of(folder):
        answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)
        assert answer.outcome is Outcome.NEEDS_FIGURES
    written = "".join(file.read_text("utf-8") for file in sorted(pack_of(folder).glob("*.toml")))
    data = re.sub("#.*", "", written)
    assert re.findall(r'"-?[0-9.]+ [a-zA-Z/]+|teeth = [0-9]', data) == []


FIGURES = re.compile(r'"-?[0-9.]+ [^"]+"|(?<=\nteeth = )[0-9]+')


@EACH_CHOICE
@given(draw=st.data())
@settings(max_examples=4)
def test_any_half_of_the_figures_is_a_pack_that_lints_with_notes_only(
    suspension: str, anchorage: str, draw: st.DataObject
) -> None:
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made) / "moor"
        new_pack(folder, "moor", suspension=suspension, anchorage=anchorage)
        chance = draw.draw(st.randoms(use_true_random=False))
        for name in ("parts.toml", "vehicles.toml"):
            file = pack_of(folder) / name
            data = "\n".join(x for x in file.read_text("utf-8").splitlines() if x[:1] != "#")
            halved = FIGURES.sub(lambda f: chance.choice([f[0], '"unknown"']), data)
            file.write_text(halved, encoding="utf-8")

        linted = bw.lint_pack(pack_of(folder))
        assert {finding.rule for finding in linted.findings} <= {"unknown-figures"}, linted.findings


def test_a_filled_in_figure_of_an_unknown_pack_needs_a_tolerance_and_nothing_else(
    tmp_path: Path,
) -> None:
    new_pack(tmp_path / "moor", "moor", unknown=True)
    parts = pack_of(tmp_path / "moor") / "parts.toml"
    before = parts.read_text("utf-8")

    def rules(radius: str) -> set[str]:
        parts.write_text(before.replace('radius = "unknown"', f'radius = "{radius}"'), "utf-8")
        return {finding.rule for finding in bw.lint_pack(parts.parent).findings}

    assert rules("330 mm ± 0.5 mm") == {"unknown-figures"}
    assert rules("330 mm") == {"unknown-figures", "toleranced"}


def test_the_remarks_of_an_unknown_pack_stand_where_they_stood(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor", unknown=True, anchorage="key-lever")

    lines = (pack_of(tmp_path / "moor") / "parts.toml").read_text("utf-8").splitlines()
    assert 'radius = "unknown"                    # bar axis to ball joint' in lines


def test_the_source_of_an_unknown_pack_names_the_year(tmp_path: Path) -> None:
    years = {dt.datetime.now().astimezone().year}
    new_pack(tmp_path / "moor", "moor", unknown=True)
    years.add(dt.datetime.now().astimezone().year)

    header = tomllib.loads((pack_of(tmp_path / "moor") / "pack.toml").read_text("utf-8"))
    (source,) = header["source"]
    assert source["kind"] == "measured"
    assert any(f"sheet of {year}." in source["note"] for year in years)
    assert header["title"] == "Pack moor"


@pytest.mark.parametrize(
    ("choice", "code"),
    [
        ({"suspension": "leaf"}, "S204"),
        ({"anchorage": "strut"}, "S204"),
        ({"licence": "CC BY"}, "S204"),
        ({"licence": ""}, "S204"),
        ({"licence": '"'}, "S204"),
        ({"licence": "../MIT"}, "S204"),
        ({"licence": "a" * 65}, "S204"),
    ],
)
def test_a_choice_that_is_none_is_refused(
    tmp_path: Path, choice: dict[str, Any], code: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        new_pack(tmp_path / "moor", "moor", **choice)

    assert (caught.value.code, caught.value.key) == (code, next(iter(choice)))
    assert list(tmp_path.iterdir()) == []


# -- What lies around the data --------------------------------------------------------


BEGINNINGS = {
    "CC0-1.0": "Creative Commons Legal Code\n\nCC0 1.0 Universal",
    "CC-BY-4.0": "Creative Commons Attribution 4.0 International\n",
    "CC-BY-SA-4.0": "Creative Commons Attribution-ShareAlike 4.0 International\n",
    "MIT": "MIT License\n\nCopyright (c) the authors of barwright-pack-moor\n\nPermission is",
}


@pytest.mark.parametrize("licence", LICENCES)
def test_the_licence_is_named_everywhere_and_its_text_is_there(
    tmp_path: Path, licence: str
) -> None:
    folder = tmp_path / "moor"
    new_pack(folder, "moor", licence=licence)

    text = (folder / "LICENSE").read_text("utf-8")
    assert text.startswith(BEGINNINGS[licence])
    assert len(text) > 1000
    assert text.endswith("\n")
    project = tomllib.loads((folder / "pyproject.toml").read_text("utf-8"))["project"]
    header = tomllib.loads((pack_of(folder) / "pack.toml").read_text("utf-8"))
    assert (project["license"], header["licence"]) == (licence, licence)
    assert f"the text of {licence}." in (folder / "README.md").read_text("utf-8")
    assert bw.lint_pack(pack_of(folder)).exit_code == 0


def test_a_licence_whose_text_is_not_at_hand_is_named_and_its_text_asked_for(
    tmp_path: Path,
) -> None:
    new_pack(tmp_path / "moor", "moor", licence="ODbL-1.0")

    text = (tmp_path / "moor" / "LICENSE").read_text("utf-8")
    assert text.startswith("SPDX-License-Identifier: ODbL-1.0\n")
    assert "Put the full text here" in text


def test_every_licence_at_hand_can_be_chosen() -> None:
    texts = SCAFFOLD.with_name("licences").iterdir()
    assert {path.name.removesuffix(".txt") for path in texts} == set(LICENCES)


def schema_beside(file: Path) -> Path:
    """The schema that the first line of a data file names, as an editor finds it."""
    first = file.read_text("utf-8").partition("\n")[0]
    (named,) = re.findall("^#:schema (.+)$", first)
    return (file.parent / str(named)).resolve()


@pytest.mark.parametrize("overlay", rarely_after(1, [False, True]))
def test_each_data_file_names_a_schema_that_is_there_and_that_it_follows(
    tmp_path: Path, *, overlay: bool
) -> None:
    folder = tmp_path / "moor"
    (new_overlay if overlay else new_pack)(folder, "moor")

    files = sorted(pack_of(folder).glob("*.toml"))
    assert len(files) == 3
    for file in files:
        schema = schema_beside(file)
        assert schema.read_text("utf-8") == schema_text(overlay=overlay)
        data = tomllib.loads(file.read_text("utf-8"))
        jsonschema.validate(data, json.loads(schema.read_text("utf-8")))


def test_the_tests_of_a_pack_test_the_folder_that_they_lie_in(tmp_path: Path) -> None:
    folder = tmp_path / "moor"
    new_pack(folder, "moor")
    spec = importlib.util.spec_from_file_location("of_moor", folder / "tests" / "test_pack.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)

    assert module.TestPack.folder == pack_of(folder)
    assert module.TestPack.package == ""


def test_the_workflow_calls_actions_of_general_purpose_and_what_the_readme_names(
    tmp_path: Path,
) -> None:
    folder = tmp_path / "moor"
    new_pack(folder, "moor")

    workflow = (folder / ".github" / "workflows" / "check.yml").read_text("utf-8")
    used = re.findall(r"uses: ([\w-]+/[\w-]+)@v[0-9]+$", workflow, re.MULTILINE)
    assert used == ["actions/checkout", "actions/setup-python"]
    readme = (folder / "README.md").read_text("utf-8")
    ran = re.findall(r"run: (.+)$", workflow, re.MULTILINE)
    assert ran == ["pip install '.[test]'", "barwright lint src", "pytest"]
    assert all(f"    {command}" in readme for command in ran)
    assert "contents: read" in workflow


def test_what_a_pack_is_built_of_and_in_is_left_out_of_version_control(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")

    ignored = (tmp_path / "moor" / ".gitignore").read_text("utf-8").split()
    assert {"build/", "dist/", "__pycache__/", ".venv/"} <= set(ignored)
    assert "## 0.1.0" in (tmp_path / "moor" / "CHANGELOG.md").read_text("utf-8")


# -- Overlays --------------------------------------------------------------------------


@pytest.mark.parametrize("over", [None, []])
def test_a_new_overlay_lints_clean_whatever_it_lies_on(
    tmp_path: Path, over: list[Path] | None
) -> None:
    shop = tmp_path / "shop"
    written = new_overlay(shop, "shop")

    assert set(written) == {path for path in tmp_path.rglob("*") if path.is_file()}
    assert not any("$" in path.read_text("utf-8") for path in written if path.suffix != ".json")
    assert bw.lint_pack(shop, over=over) == bw.answers.PackLint(
        folder=str(shop), pack="shop", exit_code=0
    )


def test_an_overlay_without_a_title_says_that_it_is_invented(tmp_path: Path) -> None:
    new_overlay(tmp_path / "shop", "shop")

    registry = bw.Registry.from_folders(overlays=[tmp_path / "shop"])
    assert registry.packs[0].header.title == "Overlay shop, invented"


def test_a_new_overlay_can_be_laid_on_top_and_is_no_pack(tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    new_overlay(shop, "shop", title="Our shop")

    registry = bw.Registry.from_folders(overlays=[shop])
    assert (registry.problems, registry.ids("bar")) == ((), ("shop:bar/spare",))
    assert registry.packs[0].header.title == "Our shop"
    assert bw.Registry.from_folders(shop).problems


def test_the_examples_in_a_new_overlay_are_good_once_they_are_uncommented(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")
    shop = tmp_path / "shop"
    new_overlay(shop, "shop")
    pack = pack_of(tmp_path / "moor")
    for name in ("corrections.toml", "pack.toml"):
        file = shop / name
        text = re.sub(r"^# (?=[\[a-z]+( =|]))", "", file.read_text("utf-8"), flags=re.MULTILINE)
        text = text.replace('moor = "barwright-pack-moor"', f'moor = "{pack}"')
        file.write_text(text, encoding="utf-8")

    registry = bw.Registry.from_folders(pack, overlays=[shop])
    bar: Any = registry.part("moor:bar/standard")
    assert (registry.problems, bar.diameter.m_as("mm")) == ((), 23.1)
    assert [one.id for one in registry.preferences] == ["moor"]
    found = [finding.rule for finding in bw.lint_pack(shop, over=[pack]).findings]
    assert found == ["preference-needed"]


def test_an_overlay_with_a_bad_id_or_in_the_way_of_something_is_refused(tmp_path: Path) -> None:
    with pytest.raises(bw.SchemaError):
        new_overlay(tmp_path / "shop", "Shop")
    with pytest.raises(bw.FileError):
        new_overlay(tmp_path, "shop")

    assert list(tmp_path.iterdir()) == []


# -- Corrections that a program has found ------------------------------------------------


def correction(**change: str) -> Correction:
    usual = {
        "of": "fells:bar/short-standard",
        "figure": "measured_rate",
        "is_": "46.2 N·m/deg ± 1.5 N·m/deg",
        "source": "readings",
        "at": 'front left, "4" readings',
        "why": "measured on this vehicle",
    }
    return Correction(**(usual | change))


READINGS = Source(id="readings", kind=SourceKind.MEASURED, note="on the van, 2031")


def test_corrections_are_an_overlay_that_can_be_laid_on_top(tmp_path: Path) -> None:
    folder = tmp_path / "my-van"
    written = new_corrections(folder, [correction()], READINGS)
    assert {path.name for path in written} == {"pack.toml", "corrections.toml"}
    registry = bw.Registry.discover(overlays=[folder])
    bar = registry.bar("fells:bar/short-standard")
    known = bar.about["measured_rate"]
    assert bar.measured_rate == bw.Quantity(46.2, "N*m/deg")
    assert known.tolerance == bw.Quantity(1.5, "N*m/deg")
    assert (known.source, known.at) == ("my-van:readings", 'front left, "4" readings')
    assert known.source_kind is SourceKind.MEASURED
    assert bw.lint_pack(folder).findings == ()


def test_corrections_replace_no_folder_and_need_an_id(tmp_path: Path) -> None:
    there = tmp_path / "there"
    there.mkdir()
    with pytest.raises(bw.FileError, match="already exists"):
        new_corrections(there, [correction()], READINGS)
    with pytest.raises(bw.SchemaError) as caught:
        new_corrections(tmp_path / "My Van", [correction()], READINGS)
    assert caught.value.code == "S205"
    assert list(tmp_path.iterdir()) == [there]
