"""Kills itself at every operation of a writer in turn, and looks at what is there then.

Run by `test_output`, in a process of its own since it forks; prints the count.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

from barwright.registry.authoring.scaffold import new_pack
from barwright.registry.files.whole_file import write_whole
from file_faults import killed_at

_MOST = 500


def main() -> None:
    """Write a file over another, and a new pack."""
    with tempfile.TemporaryDirectory() as name:
        counts = [
            kill_at_all(Path(name) / "file", write_a_file, file_is_whole),
            kill_at_all(Path(name) / "pack", write_a_pack, pack_is_whole_or_absent),
        ]
    assert min(counts) > 2, counts
    print(sum(counts))  # noqa: T201 - for the test


def kill_at_all(
    around: Path, write: Callable[[Path], object], is_right: Callable[[Path], bool]
) -> int:
    """Kill a writer at every operation until one gets to its end; count them."""
    for at in range(1, _MOST):
        folder = around / str(at)
        folder.mkdir(parents=True)
        (folder / "a.txt").write_text("old", encoding="utf-8")
        code = killed_at(folder, at, lambda: write(folder))  # noqa: B023 - called at once
        assert is_right(folder), at
        if code == 0:
            return at - 1
        assert code == 9, code
        if not (folder / "pack").exists():
            write(folder)  # what was left over is in no way
    raise AssertionError


def write_a_file(folder: Path) -> None:
    """Write over what is there."""
    write_whole(folder / "a.txt", "new", inputs=[])


def file_is_whole(folder: Path) -> bool:
    """Whether it is the old one or the new one."""
    return (folder / "a.txt").read_text(encoding="utf-8") in ("old", "new")


def write_a_pack(folder: Path) -> None:
    """Begin a pack."""
    new_pack(folder / "pack", "moor")


def pack_is_whole_or_absent(folder: Path) -> bool:
    """Whether it has all its files, if it is there."""
    pack = folder / "pack"
    return not pack.exists() or all(path.exists() for path in _files_of(pack))


def _files_of(pack: Path) -> list[Path]:
    with tempfile.TemporaryDirectory() as name:
        whole = Path(name) / "pack"
        return [pack / path.relative_to(whole) for path in new_pack(whole, "moor")]


if __name__ == "__main__":
    main()
