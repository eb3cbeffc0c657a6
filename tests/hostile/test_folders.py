"""No text of a pack, a job or a distribution leads out of the pack's folder."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.registry.authoring.scaffold import new_pack
from barwright.registry.discovery.entry_points import installed_packs
from barwright.registry.lock import read_lock
from each_case import each_case
from sample_packs import (
    GOOD_PACK,
    SPECIMENS,
    changed_pack,
    discovered_once,
    distribution,
    problems_in,
)

UP = ("..", "../x", "..\\x", "../../x", "..\\..\\x", "x/../../y", "x\\..\\..\\y", "./x", ".\\x")
ROOTS = ("/", "//", "\\", "\\\\", "/etc/passwd", "//host/share", "\\\\host\\share\\x", "~", "~/x")
DRIVES = ("c:", "C:\\", "c:x", "c:/x", "C:\\x", "\\\\?\\C:\\x", "\\\\.\\nul", "file:///x")
DEVICES = ("CON", "Aux", "NUL", "COM1", "LPT9", "con:", "CONIN$", "COM\u00b9", "nul ")
ENDS = ("x ", " x", "x/", "x\\", "x:stream", "x::$DATA", "\tx", "x\n", "x\r\n")
CONTROL = ("x\0", "\0", "x\0.toml", "\x1b[31mx", "x\x7f", "x\x85", "x\u2028", "a\nb")
CASE = ("X", "xY", "\u212a", "\u0130", "stra\u00dfe", "\ufb01x", "e\u0301", "\u00e9", "\uff41")
BIDI = ("x\u202ey", "\u2066x\u2069", "\u200fx", "x\u200by", "\ufeffx", "x\u00a0y", "\u00adx")
SIGNS = ("", " ", "*", "x?", "x|y", "x>y", '"x"', "$HOME", "%TEMP%", "`id`", "$(id)", "x;y")
LONG = ("x" * 65, "x/" * 40, "../" * 40, "x" * 4000)

TEXTS = (*UP, *ROOTS, *DRIVES, *DEVICES, *ENDS, *CONTROL, *CASE, *BIDI, *SIGNS, *LONG)


def test_the_corpus_has_no_text_twice() -> None:
    assert len(set(TEXTS)) == len(TEXTS) >= 60


def quoted(text: str) -> str:
    """Text as TOML writes it."""
    return json.dumps(text).replace("\x7f", "\\u007f")


def parts_alone(folder: Path, file: str = "pack.toml", old: str = "", new: str = "") -> Path:
    """The good pack as changed, without its vehicles, of which nothing here asks."""
    pack = changed_pack(folder, file, old, new)
    (pack / "vehicles.toml").unlink()
    return pack


# -- Ids and references ------------------------------------------------------------------


@each_case("text", TEXTS)
def test_an_id_is_refused(tmp_path: Path, text: str) -> None:
    """What an id may hold is no part of a path that leads anywhere."""
    for number, (file, old) in enumerate(
        (
            ("pack.toml", 'id = "tiny"'),
            ("pack.toml", 'id = "desk"'),
            ("vehicles.toml", 'id = "one"'),
        )
    ):
        pack = changed_pack(tmp_path / str(number), file, old, f"id = {quoted(text)}")

        problems = problems_in(pack)
        assert {problem[:4] for problem in problems} <= {"S205", "S206", "S202", "S203"}
        assert any(problem.endswith("id") for problem in problems)


@pytest.mark.rare
@each_case("text", TEXTS)
def test_a_reference_leads_to_nothing(tmp_path: Path, text: str) -> None:
    names = (text, f"material/{text}", f"tiny:material/{text}", f"{text}:material/steel")
    for number, name in enumerate(names):
        pack = parts_alone(tmp_path / str(number), "parts.toml", '"material/steel"', quoted(name))

        assert set(problems_in(pack)) == {"S206 bar[0].material"}


@each_case("text", TEXTS)
def test_a_source_that_is_named_is_no_file(tmp_path: Path, text: str) -> None:
    pack = parts_alone(tmp_path, "steel.toml", 'source = "desk"', f"source = {quoted(text)}")

    assert {problem[:4] for problem in problems_in(pack)} == {"S206" if text else "S202"}


@each_case("text", TEXTS)
def test_a_name_in_a_job_leads_to_nothing(tmp_path: Path, text: str) -> None:
    least = (SPECIMENS / "jobs" / "least.toml").read_text(encoding="utf-8")
    vehicle = least.splitlines()[0]
    assert vehicle.startswith("vehicle = ")
    path = tmp_path / "job.toml"
    for name in (text, f"{text}:chassis/short", f"fells:chassis/{text}"):
        path.write_text(least.replace(vehicle, f"vehicle = {quoted(name)}"), encoding="utf-8")

        checked = bw.check_job(path, discovered_once())

        assert checked.exit_code == 2
        assert {problem.code for problem in checked.problems} <= {"L101", "L104", "S203", "S202"}


@each_case("text", TEXTS)
def test_a_pack_in_a_lock_is_no_file(tmp_path: Path, text: str) -> None:
    path = tmp_path / "barwright.lock"
    fields = "".join(f"{name} = {quoted(text)}\n" for name in ("id", "origin", "digest"))
    path.write_text(f'schema = 1\nlibrary = "1"\n[[pack]]\n{fields}', encoding="utf-8")

    with pytest.raises(bw.LockError):
        bw.check_lock(bw.Registry.from_folders(GOOD_PACK), read_lock(path))


@each_case("text", TEXTS)
def test_no_pack_is_begun_under_such_an_id(tmp_path: Path, text: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        new_pack(tmp_path / "new", text)

    assert caught.value.code == "S205"
    assert list(tmp_path.iterdir()) == []


# -- Entry points ------------------------------------------------------------------------

VALUES = (
    *(
        "os.path",
        "os",
        "sys",
        "barwright",
        "barwright.registry",
        "__main__",
        "builtins",
        "encodings",
    ),
    *("x:y", "x [extra]", ".x", "x.", "x..y", "x-y", "1x", "class", "__pycache__", "lib2to3.x"),
)


@each_case("text", [*TEXTS, *VALUES])
def test_an_entry_point_leads_to_no_folder_beside_the_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str
) -> None:
    """Neither is a pack found there, nor is anything imported."""
    site = tmp_path / "site"
    for bait in (tmp_path / "x", tmp_path / "y", site / "x" / "z", tmp_path / "X"):
        if not bait.exists():
            bait.mkdir(parents=True)
            (bait / "pack.toml").touch()
    distribution(site, "hostile", f"one = {text}")
    # What else is installed takes long to look through.
    standard = [entry for entry in sys.path if not entry.endswith("site-packages")]
    monkeypatch.setattr(sys, "path", [str(site), *standard])
    before = set(sys.modules)

    found = installed_packs(cache=False)

    assert found
    assert all(pack.folder is None and pack.problem is not None for pack in found)
    assert set(sys.modules) - before <= {"importlib_metadata"}


# -- Files -------------------------------------------------------------------------------

# What a file on some system can be called; no name holds these two, nor is any longer.
FILES = [text for text in TEXTS if text and not set("/\0") & set(text) and len(text) < 200]


@each_case("text", FILES)
def test_a_data_file_of_such_a_name_is_refused_or_passed_over(tmp_path: Path, text: str) -> None:
    pack = parts_alone(tmp_path)
    name = f"{text}.toml"
    (pack / name).touch()
    hidden = text.startswith(".")

    assert problems_in(pack) == ([] if hidden else ["F108"])
    assert [finding.file for finding in bw.lint_pack(pack).findings] == ([] if hidden else [name])


@each_case("text", [text for text in FILES if text != ".."])
def test_a_folder_of_such_a_name_is_refused_once_it_holds_data(tmp_path: Path, text: str) -> None:
    pack = parts_alone(tmp_path)
    (pack / text).mkdir()
    assert problems_in(pack) == []
    (pack / text / "x.toml").write_text("[[unknown]]", encoding="utf-8")

    assert problems_in(pack) == ([] if text.startswith(".") else ["F108"])


@pytest.mark.parametrize(("one", "other"), [("x.toml", "X.toml"), ("a/x.toml", "A/x.toml")])
def test_two_names_that_differ_in_case_are_told(tmp_path: Path, one: str, other: str) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    steel = (pack / "steel.toml").read_bytes()
    (pack / "steel.toml").unlink()
    for name in (one, other):
        (pack / name).parent.mkdir(exist_ok=True)
        (pack / name).write_bytes(steel)

    [finding] = bw.lint_pack(pack).findings

    assert (finding.code, finding.file) == ("F108", other)


def test_a_name_that_is_no_text_can_be_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    (pack / os.fsdecode(b"\xff\x1b.toml")).touch()

    assert run(["lint", str(pack)]) == 1
    assert "F108" in capsys.readouterr().out


# -- Places ------------------------------------------------------------------------------


@pytest.fixture
def pack(tmp_path: Path) -> Path:
    """The good pack, with a file beside its folder that would be a problem if it were read."""
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "x.toml").write_text("[[unknown]]", encoding="utf-8")
    return changed_pack(tmp_path, "pack.toml", "", "")


def folder(pack: Path, name: str) -> Path:
    """A new folder of a pack."""
    (pack / name).mkdir()
    return pack / name


PLACES: dict[str, tuple[Callable[[Path], object], list[str]]] = {
    "a link outside": (lambda p: (p / "x.toml").symlink_to("../outside/x.toml"), ["F109"]),
    "an absolute link": (lambda p: (p / "x.toml").symlink_to(p / "steel.toml"), ["F109"]),
    "a link inside": (lambda p: (p / "x.toml").symlink_to("steel.toml"), ["F109"]),
    "a link to nothing": (lambda p: (p / "x.toml").symlink_to("nothing"), ["F109"]),
    "a link to itself": (lambda p: (p / "x.toml").symlink_to("x.toml"), ["F109"]),
    "a link without end": (lambda p: (p / "x.toml").symlink_to("/dev/zero"), ["F109"]),
    "a link to a terminal": (lambda p: (p / "x.toml").symlink_to("/dev/tty"), ["F109"]),
    "a link to memory": (lambda p: (p / "x.toml").symlink_to("/proc/self/mem"), ["F109"]),
    "a pipe": (lambda p: os.mkfifo(p / "x.toml"), ["F109"]),
    "a pipe below": (lambda p: os.mkfifo(folder(p, "a") / "x.toml"), ["F109"]),
    "a pipe without a suffix": (lambda p: os.mkfifo(p / "x"), []),
    "a folder": (lambda p: (p / "x.toml").mkdir(), ["F109"]),
    "a linked folder": (lambda p: (p / "x").symlink_to("../outside"), []),
    "a linked folder that looks like data": (
        lambda p: (p / "x.toml").symlink_to("../outside"),
        ["F109"],
    ),
    "a folder in itself": (lambda p: (p / "x").symlink_to("."), []),
    "a folder around it": (lambda p: (folder(p, "a") / "b").symlink_to("../.."), []),
    "a hidden pipe": (lambda p: os.mkfifo(p / ".x.toml"), []),
    "the header as a pipe": (lambda p: exchanged(p, os.mkfifo), ["F109"]),
    "the header as a folder": (lambda p: exchanged(p, Path.mkdir), ["F109"]),
    "the header as a link": (
        lambda p: exchanged(p, lambda path: path.symlink_to(GOOD_PACK / "pack.toml")),
        ["F109"],
    ),
}


def exchanged(pack: Path, make: Callable[[Path], object]) -> None:
    """Put something else in place of the header."""
    (pack / "pack.toml").unlink()
    make(pack / "pack.toml")


@pytest.mark.parametrize(("make", "problems"), PLACES.values(), ids=PLACES)
def test_nothing_that_stands_in_a_folder_leads_out_of_it_or_is_waited_for(
    pack: Path, make: Callable[[Path], object], problems: list[str]
) -> None:
    make(pack)

    assert problems_in(pack) == problems
    assert [finding.code for finding in bw.lint_pack(pack).findings] == problems


def test_the_folder_of_a_pack_may_be_a_link_itself(pack: Path, tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(pack)

    assert problems_in(tmp_path / "link") == []
    assert len(bw.Registry.from_folders(tmp_path / "link").packs) == 1
