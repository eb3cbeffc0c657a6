"""The hooks for pre-commit: what they call is there, and what they install is enough."""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sysconfig
import tomllib
from pathlib import Path

import pytest

from barwright.cli.command import run
from barwright.registry.authoring.scaffold import SCAFFOLD, new_pack

ROOT = Path(__file__).parents[1]


def value(text: str, key: str) -> str:
    """Value of a key of which there is one; these files are simple enough."""
    (found,) = re.findall(rf"^[ -]*{key}: (.*)$", text, re.MULTILINE)
    return str(found)


def hook(name: str) -> str:
    """What the file of hooks says of one."""
    hooks = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    (found,) = (one for one in hooks.split("- id: ")[1:] if one.startswith(f"{name}\n"))
    return found


def call(of_hook: str) -> list[str]:
    """What a hook starts."""
    folder = value(of_hook, "args").strip("[]")
    return [*shlex.split(value(of_hook, "entry")), folder]


@pytest.mark.parametrize("name", ["barwright-lint", "barwright-check"])
def test_a_hook_installs_what_the_command_line_needs(name: str) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))

    needs = project["project"]["optional-dependencies"]["cli"]
    assert re.findall(r'"([^"]+)"', value(hook(name), "additional_dependencies")) == needs
    assert value(hook(name), "language") == "python"
    assert value(hook(name), "pass_filenames") == "false"


def test_the_hooks_call_a_command_that_lints(tmp_path: Path) -> None:
    new_pack(tmp_path / "moor", "moor")
    own = (SCAFFOLD / ".pre-commit-config.yaml.txt").read_text(encoding="utf-8")

    for program, *arguments in (call(hook("barwright-lint")), shlex.split(value(own, "entry"))):
        assert program == "barwright"
        assert arguments == ["lint", "src"]
        assert run(["lint", str(tmp_path / "moor" / "src")]) == 0


def test_the_hook_for_jobs_checks_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "jobs").mkdir()
    job = tmp_path / "jobs" / "dampers.toml"
    shutil.copyfile(ROOT / "docs/examples/shorter-dampers.toml", job)
    monkeypatch.chdir(tmp_path)
    program, *arguments = call(hook("barwright-check"))

    assert program == "barwright"
    assert run(arguments) == 0
    assert capsys.readouterr().out == ""
    job.write_text("vehicle = 3", encoding="utf-8")
    assert run(arguments) == 2


@pytest.mark.slow
def test_the_action_for_jobs_runs_and_shows_what_is_wrong(tmp_path: Path) -> None:
    action = (ROOT / "docs/examples/check-jobs/action.yml").read_text(encoding="utf-8")
    install, check = re.findall(r"^    - run: (.*)$", action, re.MULTILINE)
    inputs = dict(re.findall(r"^ +(\w+): \$\{\{ inputs\.(\w+) \}\}$", action, re.MULTILINE))
    assert set(inputs) == set(re.findall(r"\$(\w+)", f"{install} {check}"))
    assert set(inputs.values()) == set(
        re.findall(r"^  (\w+):\n    description", action, re.MULTILINE)
    )

    jobs = tmp_path / "jobs"
    jobs.mkdir()
    shutil.copyfile(ROOT / "docs/examples/shorter-dampers.toml", jobs / "dampers.toml")
    path = f"{sysconfig.get_path('scripts')}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        ["bash", "-e", "-c", check],
        cwd=tmp_path,
        env=os.environ | {"PATH": path, "JOBS": "jobs", "OPTIONS": "--require no-cuts"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 1, done.stderr
    assert done.stdout.startswith("::warning file=jobs/dampers.toml,title=cannot be reached::")


@pytest.mark.slow
def test_the_shell_job_for_jobs_runs_and_shows_what_is_wrong(tmp_path: Path) -> None:
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    shutil.copyfile(ROOT / "docs/examples/shorter-dampers.toml", jobs / "dampers.toml")
    path = f"{sysconfig.get_path('scripts')}{os.pathsep}{os.environ['PATH']}"

    def build(options: str) -> tuple[int, str]:
        done = subprocess.run(
            [ROOT / "docs/examples/check-jobs/check-jobs.sh"],
            cwd=tmp_path,
            env=os.environ | {"PATH": path, "OPTIONS": options},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.stderr == ""
        return done.returncode, done.stdout

    assert build("") == (0, "")
    assert ' failures="0"' in (tmp_path / "barwright.xml").read_text(encoding="utf-8")
    code, printed = build("--require no-cuts")
    assert code == 1
    assert "front left: cannot be reached" in printed
    assert ' failures="1"' in (tmp_path / "barwright.xml").read_text(encoding="utf-8")


def test_the_shell_job_installs_what_is_missing_before_it_checks(tmp_path: Path) -> None:
    script = (ROOT / "docs/examples/check-jobs/check-jobs.sh").read_text(encoding="utf-8")
    # Nothing is installed here: each program only tells that it was called.
    told = """python3() { echo "python3 $*"; }
pip() { echo "pip $*"; }
barwright() { echo "barwright $*"; }
command() { false; }
"""
    done = subprocess.run(
        ["sh", "-c", told + script],
        cwd=tmp_path,
        env={"PATH": os.environ["PATH"], "PACKS": "barwright-pack-fells"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.stdout.splitlines() == [
        "python3 -m venv .barwright",
        "pip install barwright[cli] barwright-pack-fells",
        "barwright check --form junit --output barwright.xml -- jobs",
    ]


def test_the_hook_of_a_new_pack_watches_its_data_and_nothing_else(tmp_path: Path) -> None:
    written = new_pack(tmp_path / "moor", "moor")
    config = (tmp_path / "moor" / ".pre-commit-config.yaml").read_text(encoding="utf-8")

    names = [path.relative_to(tmp_path / "moor").as_posix() for path in written]
    watched = [Path(name).name for name in names if re.search(value(config, "files"), name)]
    assert watched == ["pack.toml", "parts.toml", "vehicles.toml"]
