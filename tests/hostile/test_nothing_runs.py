"""Packs are data: nothing of theirs runs, and nothing is read or written but what is named."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import sysconfig
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.registry.files.cache_files import is_digest
from sample_packs import GOOD_PACK, distribution

HERE = Path(__file__).parent

TRAP = """
from pathlib import Path
Path({sprung!r}).write_text("a pack has run code")
raise SystemExit("a pack has run code")
"""
# Whatever some tool loads when it finds it.
TRAPS = (
    *("__init__.py", "__main__.py", "conftest.py", "sitecustomize.py", "usercustomize.py"),
    *("setup.py", "pack.py", "noxfile.py", "tomllib.py", "inner/__init__.py"),
)
LIBRARY = Path(bw.__file__).parent
DEMO_PACKS = {pack.folder.resolve() for pack in bw.Registry.discover().packs}

# Everything that the work may do; anything new has to be thought about. Those of objects
# and frames are the interpreter's own: looking at a function, changing a class's name.
EVENTS = {
    # Python keeps the bytecode of the library's own modules, if the environment lets it.
    *("import", "compile", "exec", "marshal.loads", "marshal.dumps"),
    *("open", "os.listdir", "os.scandir", "os.walk", "os.mkdir", "os.rename", "os.remove"),
    *("tempfile.mkstemp", "pathlib.Path.glob", "pathlib.Path.rglob"),
    *("sqlite3.connect", "sqlite3.connect/handle"),
    *("builtins.id", "sys._getframe", "object.__getattr__", "object.__setattr__"),
}
CHANGES = ("os.mkdir", "os.rename", "os.remove", "tempfile.mkstemp")
IMPORT = {
    *("import", "compile", "exec", "marshal.loads", "marshal.dumps", "open", "os.listdir"),
    *("builtins.id", "sys._getframe", "object.__getattr__", "object.__setattr__"),
}

# A word that stands in every text of the packs with traps, and nowhere else.
CANARY = "kettledrum"


@attrs.frozen
class Seen:
    """What a program did: where, which events, and which files its modules came from."""

    workshop: Path
    events: list[tuple[str, list[str]]]
    loaded: list[str]

    def of(self, *names: str) -> Iterator[list[str]]:
        """Arguments of all events of some names."""
        return (arguments for name, arguments in self.events if name in names)


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> Seen:
    """A program's work with packs full of traps."""
    workshop = tmp_path_factory.mktemp("workshop")
    _lay_traps(workshop)
    environment = os.environ | {
        "PYTHONPATH": str(workshop / "site"),
        "BARWRIGHT_CACHE": str(workshop / "cache"),
        # What the interpreter keeps of modules is not what this is about.
        "PYTHONDONTWRITEBYTECODE": "1",
        "PYTHONPYCACHEPREFIX": "",
    }
    ran = subprocess.run(
        [sys.executable, str(HERE / "watched.py"), str(workshop)],
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    reported: dict[str, Any] = json.loads(ran.stdout)
    return Seen(workshop, [(name, given) for name, given in reported["events"]], reported["loaded"])


def _lay_traps(workshop: Path) -> None:
    for name in ("trap", "quiet", "broken"):
        folder = workshop / "site" / f"barwright_pack_{name}"
        folder.mkdir(parents=True)
        distribution(workshop / "site", f"barwright-pack-{name}", f"{name} = barwright_pack_{name}")
        for file in GOOD_PACK.glob("*.toml"):
            text = file.read_text(encoding="utf-8").replace("tiny", name)
            text = text.replace('title = "', f'title = "{CANARY} ')
            (folder / file.name).write_text(text, encoding="utf-8")
        if name != "quiet":
            _lay_trap(folder, workshop / "sprung")
    (workshop / "site" / "barwright_pack_broken" / "parts.toml").write_bytes(b"[[bar]]\nid = \xff")
    (workshop / "out").mkdir()
    (workshop / "job.toml").write_text(
        'vehicle = "trap:chassis/one"\ncorners = ["front left"]\n[wanted]\nkeep_standard = true\n',
        encoding="utf-8",
    )


def _lay_trap(folder: Path, sprung: Path) -> None:
    for name in TRAPS:
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(TRAP.format(sprung=str(sprung)), encoding="utf-8")
    (folder / "trap.pth").write_text("import barwright_pack_trap.pack\n", encoding="utf-8")
    (folder / f"native{sysconfig.get_config_var('EXT_SUFFIX')}").write_bytes(b"\x7fELF")
    (folder / "pack.pickle").write_bytes(b"cposix\nsystem\n(S'true'\ntR.")


@pytest.mark.slow
def test_nothing_happens_that_is_not_on_the_list(seen: Seen) -> None:
    assert {name for name, _ in seen.events} <= EVENTS


@pytest.mark.slow
def test_no_module_of_a_pack_is_imported(seen: Seen) -> None:
    packs = {*DEMO_PACKS, seen.workshop}
    assert not [file for file in seen.loaded if file and _is_in(file, packs)]
    asked = {arguments[0].partition(".")[0] for arguments in seen.of("import")}
    assert not {name for name in asked if name.startswith("barwright_pack_")}
    assert not (seen.workshop / "sprung").exists()


@pytest.mark.slow
def test_no_code_comes_from_a_pack(seen: Seen) -> None:
    files = [arguments[0] for arguments in seen.of("exec")]
    files += [arguments[1] for arguments in seen.of("compile")]
    packs = {*DEMO_PACKS, seen.workshop}
    generated = ("<string>", "<attrs generated ", "<cattrs generated ", "<frozen ", "<__array_")
    assert not [f for f in files if not f.startswith(generated) and not _is_code_of_ours(f)]
    assert not [f for f in files if not f.startswith("<") and _is_in(f, packs)]
    # Annotations are compiled as they are looked up; a pack's text never is.
    assert not [source for source, *_ in seen.of("compile") if CANARY in source]


@pytest.mark.slow
def test_of_a_pack_only_its_tables_and_metadata_are_opened(seen: Seen) -> None:
    packs = {*DEMO_PACKS, seen.workshop / "site"}
    opened = {path for path, *_ in seen.of("open") if _is_in(path, packs)}
    files = {Path(path) for path in opened if not Path(path).is_dir()}
    metadata = {"METADATA", "entry_points.txt"}
    assert CANARY in (seen.workshop / "site" / "barwright_pack_trap" / "parts.toml").read_text()
    assert not [f for f in files if f.suffix != ".toml" and f.name not in metadata]


@pytest.mark.slow
def test_nothing_else_is_opened_but_code_metadata_cache_and_what_was_named(seen: Seen) -> None:
    own = [seen.workshop / name for name in ("site", "cache", "out", "job.toml")]
    known = {*own, *DEMO_PACKS}
    opened = {path for path, *_ in seen.of("open") if not _is_in(path, known)}
    # A file of a folder that is open already is named alone, and one that is open, by number.
    others = {path for path in opened if not path.isdecimal()}
    others = {path for path in others if not _is_a_table(path) and not _is_of_the_cache(path)}
    assert not [path for path in others if not _is_code_of_ours(path)]
    listed = {path for path, *_ in seen.of("os.listdir", "os.scandir") if not _is_in(path, known)}
    # Where modules are looked for, folders are listed, and nothing in them need be opened.
    searched = {str(folder) for folder in (HERE, LIBRARY.parent, *(d.parent for d in DEMO_PACKS))}
    assert not [path for path in listed - searched if not _is_code_of_ours(path)]


@pytest.mark.slow
def test_nothing_is_changed_but_the_cache_and_what_was_asked_for(seen: Seen) -> None:
    places = {seen.workshop / "cache", seen.workshop / "out"}
    changed = [path for path, *_ in seen.of(*CHANGES)]
    changed += [path for path, mode, *_ in seen.of("open") if set(mode) & set("wxa+")]
    assert changed
    assert not [path for path in changed if not _is_in(path, places)]


def test_importing_the_library_opens_nothing_but_modules() -> None:
    script = (
        "import sys, json; seen = []\n"
        "note = lambda name, given: seen.append((name, str(given[0]) if given else ''))\n"
        "sys.addaudithook(note)\n"
        "import barwright; print(json.dumps(seen))"
    )
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    events = json.loads(ran.stdout)
    assert {name for name, _ in events} <= IMPORT
    opened = [path for name, path in events if name == "open"]
    assert opened
    assert not [path for path in opened if Path(path).suffix not in {".py", ".pyc"}]


def _is_in(path: str, folders: set[Path]) -> bool:
    found = Path(path)
    return found.is_absolute() and any(found.is_relative_to(folder) for folder in folders)


def _is_of_the_cache(name: str) -> bool:
    """Whether a name is that of a file of the cache, whose folder is open already."""
    return is_digest(name.partition(".")[0])


def _is_a_table(path: str) -> bool:
    return "/" not in path and path.endswith(".toml")


def _is_code_of_ours(path: str) -> bool:
    """Tell whether a path is one of the interpreter's, of the library's or of its needs."""
    return _is_in(path, {LIBRARY, *map(Path, _code_folders())})


def _code_folders() -> list[str]:
    paths = sysconfig.get_paths()
    zipped = f"python{sys.version_info.major}{sys.version_info.minor}.zip"
    library = Path(paths["stdlib"])
    return [paths["stdlib"], paths["purelib"], paths["platlib"], str(library.parent / zipped)]
