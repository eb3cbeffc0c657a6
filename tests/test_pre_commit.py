"""The hooks for pre-commit: what they call is there, and what they install is enough."""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

from barwright.cli.command import run
from barwright.registry.authoring.scaffold import SCAFFOLD, new_pack

ROOT = Path(__file__).parents[1]


def value(text: str, key: str) -> str:
    """Value of a key of which there is one; these files are simple enough."""
    (found,) = re.findall(rf"^[ -]*{key}: (.*)$", text, re.MULTILINE)
    return str(found)


def test_the_hook_installs_what_the_command_line_needs() -> None:
    hook = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))

    needs = project["project"]["optional-dependencies"]["cli"]
    assert re.findall(r'"([^"]+)"', value(hook, "additional_dependencies")) == needs
    assert value(hook, "language") == "python"
    assert value(hook, "pass_filenames") == "false"


def test_the_hooks_call_a_command_that_lints(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")
    hook = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    own = (SCAFFOLD / ".pre-commit-config.yaml.txt").read_text(encoding="utf-8")
    folder = value(hook, "args").strip("[]")

    calls = [[*shlex.split(value(hook, "entry")), folder], shlex.split(value(own, "entry"))]
    for program, *arguments in calls:
        assert program == "barwright"
        assert arguments == ["lint", "src"]
        assert run(["lint", str(tmp_path / "moor" / "src")]) == 0


def test_the_hook_of_a_new_pack_watches_its_data_and_nothing_else(tmp_path: Path) -> None:
    written = new_pack(tmp_path / "moor", "moor")
    config = (tmp_path / "moor" / ".pre-commit-config.yaml").read_text(encoding="utf-8")

    names = [path.relative_to(tmp_path / "moor").as_posix() for path in written]
    watched = [Path(name).name for name in names if re.search(value(config, "files"), name)]
    assert watched == ["pack.toml", "parts.toml", "vehicles.toml"]
