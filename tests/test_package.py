"""What the package says of itself agrees with what it is."""

from __future__ import annotations

import re
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path
from typing import Any

import pytest
from hatchling.builders.sdist import SdistBuilder
from hatchling.builders.wheel import WheelBuilder

from barwright.version import VERSION

ROOT = Path(__file__).parents[1]
PROJECT: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]


def test_the_citation_names_this_version_and_these_licences() -> None:
    citation = (ROOT / "CITATION.cff").read_text("utf-8")

    assert re.search(r"^version: (.+)$", citation, re.MULTILINE)[1] == VERSION  # type: ignore[index]
    licences = re.search(r"^license:\n((?:  - .+\n)+)", citation, re.MULTILINE)[1]  # type: ignore[index]
    assert re.findall(r"- (.+)", licences) == PROJECT["license"].split(" AND ")


def test_every_python_from_the_lowest_on_is_named() -> None:
    named = re.findall(r"Python :: 3\.(\d+)'", str(PROJECT["classifiers"]))

    assert PROJECT["requires-python"] == f">=3.{named[0]}"
    assert [int(minor) for minor in named] == list(range(int(named[0]), int(named[-1]) + 1))
    assert sys.version_info.minor in map(int, named)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("dist")
    for builder in (SdistBuilder, WheelBuilder):
        list(builder(str(ROOT)).build(directory=str(folder), versions=["standard"]))
    return folder


def compared(folder: Path) -> subprocess.CompletedProcess[str]:
    """What the comparison of archives with the project prints."""
    return subprocess.run(
        [sys.executable, ".ci/archives.py", str(folder)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.slow
def test_a_file_too_many_or_too_few_in_an_archive_is_named(built: Path) -> None:
    (wheel,), (sdist,) = built.glob("*.whl"), built.glob("*.tar.gz")
    with zipfile.ZipFile(wheel, "a") as archive:
        archive.writestr("barwright/notes.txt", "")
    with tarfile.open(sdist, "w:gz"):
        pass

    found = compared(built)

    assert found.returncode == 1
    assert "holds barwright/notes.txt, which it should not" in found.stderr
    assert f"{sdist.name} lacks src/barwright/version.py" in found.stderr
    assert "lacks barwright/" not in found.stderr
