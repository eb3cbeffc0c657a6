"""The Python of the pages passes a strict type checker as it is printed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from doc_pages import DOCS, ROOT, fenced

PAGES = (ROOT / "README.md", DOCS / "recipes.md", DOCS / "the-job.md")


def written_blocks(folder: Path) -> list[str]:
    """Write each block of Python of each page to a file of its own; their names."""
    names = []
    for page in PAGES:
        blocks = (code for kind, code in fenced(page.read_text("utf-8")) if kind == "python")
        for number, code in enumerate(blocks, start=1):
            name = f"{page.stem.replace('-', '_').lower()}_{number}.py"
            (folder / name).write_text(code, encoding="utf-8")
            names.append(name)
    return names


@pytest.mark.slow
def test_the_python_of_the_pages_is_typed(tmp_path: Path) -> None:
    pytest.importorskip("mypy")
    names = written_blocks(tmp_path)
    # Frames of data come without types; whoever has them has their stubs or none.
    untyped = "[mypy-pandas.*]\nignore_missing_imports = true\n"
    (tmp_path / "mypy.ini").write_text(f"[mypy]\nstrict = true\n{untyped}", encoding="utf-8")

    checked = subprocess.run(
        [sys.executable, "-m", "mypy", "--config-file", "mypy.ini", *names],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )

    assert len(names) > 10
    assert checked.stdout.splitlines()[-1].startswith("Success: "), checked.stdout
