"""What is shipped carries its licences, and what the tests bring along forbids nobody to sell."""

from __future__ import annotations

import importlib.metadata
import re
import tarfile
import tomllib
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hatchling.builders.sdist import SdistBuilder
from hatchling.builders.wheel import WheelBuilder
from packaging.requirements import Requirement

from barwright.registry.authoring.scaffold import new_pack

ROOT = Path(__file__).parents[1]
PACKS = sorted(ROOT.glob("plugins/*"))

# A line of each text.
TEXTS = {
    "MIT": "Permission is hereby granted, free of charge, to any person obtaining a copy",
    "CC0-1.0": "Affirmer hereby overtly,",
}


def built(project: Path, folder: Path) -> Iterator[dict[str, str]]:
    """Texts of what is in the wheel and in the sdist, by their names."""
    for builder in (WheelBuilder, SdistBuilder):
        (archive,) = builder(str(project)).build(directory=str(folder), versions=["standard"])
        if archive.endswith(".whl"):
            with zipfile.ZipFile(archive) as wheel:
                yield {name: wheel.read(name).decode() for name in wheel.namelist()}
        else:
            with tarfile.open(archive) as sdist:
                yield {
                    member.name: file.read().decode(errors="replace")
                    for member in sdist.getmembers()
                    if (file := sdist.extractfile(member))
                }


def described(project: Path) -> dict[str, Any]:
    with (project / "pyproject.toml").open("rb") as file:
        found: dict[str, Any] = tomllib.load(file)["project"]
    return found


@pytest.mark.rare
@pytest.mark.parametrize("project", [ROOT, *PACKS], ids=lambda project: project.name)
def test_wheel_and_sdist_carry_the_text_of_each_licence(project: Path, tmp_path: Path) -> None:
    for held in built(project, tmp_path):
        texts = [text for name, text in held.items() if "LICENSE" in name and ".dist-info" in name]
        texts = texts or [text for name, text in held.items() if "LICENSE" in name]
        for licence in described(project)["license"].split(" AND "):
            assert any(TEXTS[licence] in text for text in texts)


def test_a_new_pack_carries_the_text_of_its_licence(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")

    assert described(tmp_path / "moor")["license"] == "CC0-1.0"
    for held in built(tmp_path / "moor", tmp_path / "built"):
        assert any(TEXTS["CC0-1.0"] in text for name, text in held.items() if "LICENSE" in name)


def test_the_wheel_names_the_licence_of_the_data_in_it() -> None:
    headers = [
        *ROOT.glob("src/barwright/**/pack.toml"),
        *ROOT.glob("src/barwright/**/pack.toml.txt"),
    ]
    named = {
        licence
        for header in headers
        for licence in re.findall(
            r'^licence = "([^$"]+)"$', header.read_text("utf-8"), re.MULTILINE
        )
    }

    # That of a new pack is chosen when it is written.
    assert len(headers) == 3
    assert named == {"CC0-1.0"}
    assert named <= set(described(ROOT)["license"].split(" AND "))


@pytest.mark.rare
def test_vendored_schemas_say_what_they_are_and_where_they_came_from(tmp_path: Path) -> None:
    folder = ROOT / "tests" / "specimens" / "schemas"
    notice = (folder / "README.md").read_text("utf-8")
    _, shipped = built(ROOT, tmp_path)

    for file in folder.iterdir():
        if file.name != "README.md":
            assert f"`{file.name}`" in notice
        assert any(name.endswith(f"schemas/{file.name}") for name in shipped)


def brought_along(text: str, seen: set[str]) -> None:
    """Collect what a requirement asks for, and all that this needs."""
    wanted = Requirement(text)
    if wanted.name in seen:
        return
    seen.add(wanted.name)
    for needed in importlib.metadata.requires(wanted.name) or []:
        marker = Requirement(needed).marker
        extras = wanted.extras or {""}
        if marker is None or any(marker.evaluate({"extra": extra}) for extra in extras):
            brought_along(needed, seen)


def test_no_distribution_of_the_extras_forbids_to_sell() -> None:
    project = described(ROOT)
    seen: set[str] = set()
    for extra in ("cli", "fatigue", "test"):
        for text in [*project["dependencies"], *project["optional-dependencies"][extra]]:
            brought_along(text, seen)

    assert len(seen) > 30
    for name in seen:
        for line in importlib.metadata.metadata(name).get_all("Classifier") or []:
            assert "Proprietary" not in line, name
            assert "non-commercial" not in line.lower(), name
