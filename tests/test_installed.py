"""What a wheel holds is enough: installed alone, in an environment of its own, it works."""

from __future__ import annotations

import os
import subprocess
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).parents[1]
JOB = ROOT / "docs/examples" / "shorter-dampers.toml"


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    (built,) = WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"])
    return Path(built)


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A Python that has the wheel, and of this environment what the wheel needs.

    The packs that are installed here are not: entry points of editable installations lie
    beside what is needed, so that only the packages themselves are linked.
    """
    folder = tmp_path_factory.mktemp("alone")
    venv.create(folder / "env", with_pip=False)
    where = {"base": str(folder / "env"), "platbase": str(folder / "env")}
    site = Path(sysconfig.get_path("purelib", "venv", where))
    for place in map(Path, {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}):
        for path in place.iterdir():
            if "barwright" not in path.name and path.suffix != ".pth":
                (site / path.name).symlink_to(path)
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    return Path(sysconfig.get_path("scripts", "venv", where)) / "python"


def ran(python: Path, *arguments: str, code: int = 0) -> tuple[str, str]:
    """What `python -m barwright` prints, outside the project."""
    done = subprocess.run(
        [str(python), "-I", "-m", "barwright", *arguments],
        cwd=python.parent,
        env=os.environ | {"COLUMNS": "80"},
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=120,
    )
    assert done.returncode == code, done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    return done.stdout, done.stderr


@pytest.mark.slow
def test_a_wheel_alone_says_where_vehicles_come_from(python: Path) -> None:
    out, err = ran(python, "vehicles", code=1)

    assert out == ""
    assert "no pack is installed" in err
    assert all(way in err for way in ("--demo", "new-pack", "--pack"))


@pytest.mark.slow
def test_a_wheel_alone_answers_from_its_demo_data(python: Path) -> None:
    for vehicle in ("fells:chassis/short", "hodmule:chassis/long", "trundlet:chassis/open"):
        assert vehicle in ran(python, "vehicles", "--demo")[0]
    assert "Chock the wheels" in ran(python, "sheet", "--demo", str(JOB))[0]


@pytest.mark.slow
def test_a_wheel_alone_explains_what_it_says(python: Path) -> None:
    _, err = ran(python, "fit", "no-such-job.toml", code=2)
    (hint,) = (line for line in err.splitlines() if line.startswith("for more: barwright explain"))

    assert ran(python, "explain", hint.split()[-1])[0].startswith("F101: ")
    assert ran(python, "explain", "placed", "job-file")[0]


def test_a_wheel_carries_data_and_its_licence_and_no_more_than_is_needed(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
        (metadata,) = (n for n in names if n.endswith(".dist-info/METADATA"))
        headers = [
            archive.read(n).decode()
            for n in names
            if n.startswith("barwright/demo/") and n.endswith("pack.toml")
        ]
        described = archive.read(metadata).decode()

    assert len(headers) == 3
    assert all('licence = "CC0-1.0"' in header for header in headers)
    assert "License-Expression: MIT AND CC0-1.0" in described
    assert any(name.endswith("CC0-1.0.txt") for name in names)
    assert all(name.startswith(("barwright/", "barwright-")) for name in names)
