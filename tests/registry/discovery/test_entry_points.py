"""Tests of `entry_points`: packs are found, and nothing of them is executed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import types
from collections.abc import Callable
from pathlib import Path
from typing import TypeAlias

import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.registry.discovery import entry_points as discovery
from barwright.registry.discovery.entry_points import installed_packs
from sample_packs import GOOD_PACK, distribution

PRINT = """
import site
import sys
import barwright as bw
before = {{pack.id for pack in bw.Registry.discover().packs}}
{longer_path}
registry = bw.Registry.discover()
ids = [pack.id for pack in registry.packs]
assert before <= set(ids)
print([id for id in ids if id not in before], [p.problems[0].code for p in registry.problems])
print([name for name in sys.modules if "_pack" in name and "barwright" not in name])
"""

TRAP = "raise SystemExit('this pack was executed')\n"


def package(folder: Path, name: str, pack_id: str = "tiny") -> Path:
    """An importable package that holds the good pack, and that must not be imported."""
    target = folder / name
    shutil.copytree(GOOD_PACK, target)
    (target / "__init__.py").write_text(TRAP, encoding="utf-8")
    for file in ("pack.toml", "parts.toml"):
        text = (target / file).read_text(encoding="utf-8")
        text = text.replace('"tiny"', f'"{pack_id}"').replace("tiny:", f"{pack_id}:")
        (target / file).write_text(text, encoding="utf-8")
    return target


Discover: TypeAlias = Callable[..., tuple[list[str], list[str]]]


@pytest.fixture
def discovered(monkeypatch: pytest.MonkeyPatch) -> Discover:
    """A function that finds packs on a longer path, while those of the environment stay.

    Gives the ids that were not there before, and the codes of what was left out.
    """

    def discover(*folders: Path) -> tuple[list[str], list[str]]:
        here = {pack.id for pack in bw.Registry.discover().packs}
        assert "fells" in here
        for folder in reversed(folders):
            monkeypatch.syspath_prepend(folder)
        before = set(sys.modules)
        registry = bw.Registry.discover()
        assert not any("_pack" in name for name in set(sys.modules) - before)
        problems = [problem.problems[0].code for problem in registry.problems]
        ids = [pack.id for pack in registry.packs]
        assert here <= set(ids)
        return [pack_id for pack_id in ids if pack_id not in here], problems

    return discover


def found_from(longer_path: str) -> list[str]:
    """What a program of its own prints that discovers packs before and after its path grows."""
    run = subprocess.run(
        [sys.executable, "-c", PRINT.format(longer_path=longer_path)],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    return run.stdout.splitlines()


def test_installed_packs_are_found_by_their_entry_points() -> None:
    (fells,) = [pack for pack in installed_packs() if "fells" in pack.origin]

    assert fells.origin.startswith("barwright-pack-fells ")
    assert fells.folder is not None
    assert (fells.folder / "pack.toml").is_file()
    assert "fells" in [pack.id for pack in bw.Registry.discover().packs]


@pytest.mark.slow
def test_a_pack_is_read_and_never_executed(tmp_path: Path) -> None:
    distribution(tmp_path, "trap", "trap = trap_pack")
    package(tmp_path, "trap_pack")

    printed = found_from(f"sys.path.insert(0, {str(tmp_path)!r})")

    assert printed == ["['tiny'] []", "[]"]
    with pytest.raises(SystemExit, match="this pack was executed"):
        exec(compile(TRAP, "trap", "exec"), {})  # noqa: S102 - the trap works


@pytest.mark.slow
def test_a_pack_that_is_installed_for_editing_is_found(tmp_path: Path) -> None:
    """Its metadata lies in one place, and a file beside it adds the place of its code."""
    distribution(tmp_path / "site", "trap", "trap = trap_pack")
    package(tmp_path / "src", "trap_pack")
    (tmp_path / "site" / "trap.pth").write_text(f"{tmp_path / 'src'}\n", encoding="utf-8")

    printed = found_from(f"site.addsitedir({str(tmp_path / 'site')!r})")

    assert printed == ["['tiny'] []", "[]"]


def test_a_package_without_code_is_found(tmp_path: Path, discovered: Discover) -> None:
    distribution(tmp_path, "plain", "plain = plain_pack")
    (package(tmp_path, "plain_pack") / "__init__.py").unlink()

    assert discovered(tmp_path) == (["tiny"], [])


@pytest.mark.parametrize(
    "point",
    [
        "gone = gone_pack",
        "dotted = trap_pack.data",
        "attribute = trap_pack:data",
        "path = ../trap_pack",
        "standard = json",
        "module = this",
        "builtin = sys",
        "extra = trap_pack [more]",
    ],
)
def test_an_entry_point_that_leads_to_no_pack(
    tmp_path: Path, point: str, discovered: Discover
) -> None:
    distribution(tmp_path, "stale", point)
    (tmp_path / "trap_pack").mkdir()
    (tmp_path / "trap_pack" / "__init__.py").write_text(TRAP, encoding="utf-8")

    assert discovered(tmp_path) == ([], ["P201"])


def test_two_distributions_that_claim_one_id_are_both_left_out(
    tmp_path: Path, discovered: Discover
) -> None:
    for name in ("one", "two"):
        distribution(tmp_path, name, f"p = {name}_pack")
        (package(tmp_path, f"{name}_pack") / "more.toml").write_text(f"# {name}", encoding="utf-8")

    assert discovered(tmp_path) == ([], ["P301", "P301"])


def test_two_distributions_with_the_same_pack_count_once(
    tmp_path: Path, discovered: Discover
) -> None:
    for name in ("one", "two"):
        distribution(tmp_path, name, f"p = {name}_pack")
        package(tmp_path, f"{name}_pack")

    assert discovered(tmp_path) == (["tiny"], [])


@pytest.mark.parametrize("wanted", ["two", "two 1.0"])
def test_of_two_distributions_the_preferred_one_is_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, wanted: str
) -> None:
    for name in ("one", "two"):
        distribution(tmp_path, name, f"p = {name}_pack")
        (package(tmp_path, f"{name}_pack") / "more.toml").write_text(f"# {name}", encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)

    registry = bw.Registry.discover(prefer={"tiny": wanted})

    assert registry.problems == ()
    assert [pack.origin for pack in registry.packs if pack.id == "tiny"] == ["two 1.0"]


def test_a_broken_pack_leaves_the_others_alone(tmp_path: Path, discovered: Discover) -> None:
    for name in ("bad", "good"):
        distribution(tmp_path, name, f"p = {name}_pack")
        package(tmp_path, f"{name}_pack", pack_id=name)
    (tmp_path / "bad_pack" / "parts.toml").write_text("not TOML", encoding="utf-8")

    assert discovered(tmp_path) == (["good"], ["F103"])


def test_a_distribution_that_lies_on_the_path_twice_counts_once(
    tmp_path: Path, discovered: Discover
) -> None:
    for version in ("1.0", "2.0"):
        distribution(tmp_path / version, "twice", "p = twice_pack", version)
        package(tmp_path / version, "twice_pack")

    assert discovered(tmp_path / "2.0", tmp_path / "1.0") == (["tiny"], [])


@pytest.mark.parametrize("size", [0, 10**9])
def test_which_of_two_versions_counts_is_told(
    tmp_path: Path, size: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("barwright.registry.open_packs._WORTHWHILE", size)
    for version in ("1.0", "2.0"):
        distribution(tmp_path / version, "twice", "p = twice_pack", version)
        package(tmp_path / version, "twice_pack")
        monkeypatch.syspath_prepend(tmp_path / version)

    (info,) = [pack for pack in bw.Registry.discover().packs if pack.id == "tiny"]
    assert (info.origin, info.version, info.hidden_versions) == ("twice 2.0", "2.0", ("1.0",))
    run(["vehicles", "tiny"])
    told = capsys.readouterr().err
    assert told == "warning: twice 2.0 counts; 1.0 is installed too: remove one\n"
    assert run(["packs"]) == 0
    assert "twice 2.0 counts; not 1.0, installed too" in capsys.readouterr().out


def test_the_same_version_twice_is_no_news(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for place in ("a", "b"):
        distribution(tmp_path / place, "twice", "p = twice_pack")
        package(tmp_path / place, "twice_pack")
        monkeypatch.syspath_prepend(tmp_path / place)
    assert [info.hidden_versions for info in bw.Registry.discover().packs if info.id == "tiny"] == [
        ()
    ]


@pytest.mark.parametrize("name", ["whole.zip", "whole-1.0-py3.11.egg"])
def test_a_pack_in_an_archive_is_refused_with_what_to_do(
    tmp_path: Path, name: str, discovered: Discover
) -> None:
    distribution(tmp_path / "made", "whole", "p = whole_pack")
    package(tmp_path / "made", "whole_pack")
    archive = shutil.make_archive(str(tmp_path / "whole"), "zip", tmp_path / "made")
    Path(archive).rename(tmp_path / name)

    assert discovered(tmp_path / name) == ([], ["P202"])
    (error,) = bw.Registry.discover().problems
    (problem,) = error.problems
    assert (error.file, problem.value) == ("whole 1.0", name)
    assert problem.remedy.startswith(f"install it with pip install {name}, or unpack it")


def test_one_distribution_can_hold_several_packs(tmp_path: Path, discovered: Discover) -> None:
    distribution(tmp_path, "both", "a = a_pack\nb = b_pack")
    package(tmp_path, "a_pack", pack_id="a")
    package(tmp_path, "b_pack", pack_id="b")

    assert discovered(tmp_path) == (["a", "b"], [])


@pytest.mark.parametrize(
    ("metadata", "points", "codes"),
    [
        (None, "[barwright.packs]\nx = some_pack\n", ["P201"]),
        ("Name: odd\nVersion: 1\n", "[barwright.packs]\nthis is no entry point\n", ["P201"]),
        ("Name: odd\nVersion: 1\n", "[console_scripts]\nthis is no entry point\n", []),
        (None, "[console_scripts]\nx = y:z\n", []),
        (None, None, []),
    ],
)
def test_broken_metadata_of_a_distribution_stops_no_other(
    tmp_path: Path,
    metadata: str | None,
    points: str | None,
    codes: list[str],
    discovered: Discover,
) -> None:
    info = tmp_path / "odd-1.dist-info"
    info.mkdir()
    for name, text in (("METADATA", metadata), ("entry_points.txt", points)):
        if text is not None:
            (info / name).write_text(text, encoding="utf-8")

    assert discovered(tmp_path) == ([], codes)


def test_a_module_without_a_spec_is_no_pack(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "spectre", types.ModuleType("spectre"))
    assert list(discovery._folders("spectre")) == []  # noqa: SLF001 - reached by no installed pack


def test_a_distribution_is_the_same_however_its_name_is_spelled(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, version in (("Twice_Over", "2.0"), ("twice-over", "1.0")):
        distribution(tmp_path / version, name, "p = twice_pack", version)
        package(tmp_path / version, "twice_pack")
        monkeypatch.syspath_prepend(tmp_path / version)

    (found,) = [pack for pack in installed_packs() if "wice" in pack.origin]
    assert (found.origin, found.version) == ("twice-over 1.0", "1.0")


@pytest.mark.slow
def test_broken_entry_points_are_told_in_one_order_in_every_process(tmp_path: Path) -> None:
    points = "\n".join(f"p{n} = gone_pack_{n}" for n in range(6))
    distribution(tmp_path, "gone", points)
    code = (
        "import barwright as bw; "
        "print([str(problem.problems[0].value) for problem in bw.Registry.discover().problems])"
    )
    path = os.pathsep.join([str(tmp_path), *sys.path])
    reported = {
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
            env=os.environ | {"PYTHONPATH": path, "PYTHONHASHSEED": seed, "BARWRIGHT_CACHE": "off"},
        ).stdout
        for seed in ("0", "1", "2")
    }
    (text,) = reported
    assert [text.index(f"gone_pack_{n}") for n in range(6)] == sorted(
        text.index(f"gone_pack_{n}") for n in range(6)
    )
