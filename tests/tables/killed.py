"""Kills itself at every operation of a table's answers in turn, and looks at what is there then.

Run by `test_batch_file`, in a process of its own since it forks; prints the count.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import barwright as bw
from file_faults import killed_at
from sample_packs import discovered_once

_MOST = 200


def main() -> None:
    """Answer a table over another file."""
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        table = place / "rows.csv"
        table.write_text("load.mass [kg]\n260\n291\n-1\n", encoding="utf-8")
        answer(table, place / "whole.csv")
        whole = (place / "whole.csv").read_bytes()
        for at in range(1, _MOST):
            output = place / str(at) / "answers.csv"
            output.parent.mkdir()
            output.write_bytes(b"old")
            code = killed_at(output.parent, at, lambda: answer(table, output))  # noqa: B023 - called at once
            assert output.read_bytes() in (b"old", whole), at
            if code == 0:
                print(at - 1)  # noqa: T201 - for the test
                return
            assert code == 9, code
    raise AssertionError


def answer(table: Path, output: Path) -> None:
    """Answer it."""
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    bw.batch_file(van, table, output, asked="fit")


if __name__ == "__main__":
    main()
