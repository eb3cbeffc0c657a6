"""Compares what was built with what the project tracks: nothing more in it, nothing left out.

python .ci/archives.py FOLDER
"""

from __future__ import annotations

import subprocess
import sys
import tarfile
import tomllib
import zipfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
# What building writes itself.
_OF_THE_SDIST = {"PKG-INFO"}
_OF_THE_WHEEL = {"METADATA", "WHEEL", "RECORD", "entry_points.txt"}


def main(folder: Path) -> None:
    """Compare the only sdist and the only wheel of a folder; end with what differs."""
    (sdist,), (wheel,) = folder.glob("*.tar.gz"), folder.glob("*.whl")
    differs = [
        *_different(sdist, held=_in_sdist(sdist), wanted=_tracked_for_sdist() | _OF_THE_SDIST),
        *_different(wheel, held=_in_wheel(wheel), wanted=_tracked_for_wheel()),
    ]
    if differs:
        sys.exit("\n".join(differs))


def _different(archive: Path, *, held: set[str], wanted: set[str]) -> Iterator[str]:
    yield from (
        f"{archive.name} holds {name}, which it should not" for name in sorted(held - wanted)
    )
    yield from (f"{archive.name} lacks {name}" for name in sorted(wanted - held))


def _in_sdist(archive: Path) -> set[str]:
    with tarfile.open(archive) as file:
        return {member.name.partition("/")[2] for member in file.getmembers() if member.isfile()}


def _in_wheel(archive: Path) -> set[str]:
    """Names in a wheel, those of its metadata without their folder."""
    with zipfile.ZipFile(archive) as file:
        return {
            name.partition("/")[2] if ".dist-info/" in name else name for name in file.namelist()
        }


def _tracked(*below: str) -> set[str]:
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--", *below],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    return set(listed.stdout.split("\0")) - {""}


def _tracked_for_sdist() -> set[str]:
    built = _building()["sdist"]["include"]
    return _tracked("pyproject.toml", ".gitignore", *(path.removeprefix("/") for path in built))


def _tracked_for_wheel() -> set[str]:
    places = {"src/barwright": "barwright"} | _building()["wheel"]["force-include"]
    held = {
        place + name.removeprefix(source)
        for source, place in places.items()
        for name in _tracked(source)
    }
    return held | _OF_THE_WHEEL | {f"licenses/{name}" for name in _tracked("LICENSE", "LICENSES")}


def _building() -> dict[str, dict[str, dict[str, str]]]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    found: dict[str, dict[str, dict[str, str]]] = project["tool"]["hatch"]["build"]["targets"]
    return found


if __name__ == "__main__":
    main(Path(sys.argv[1]))
