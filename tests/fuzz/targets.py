"""What inputs are put to: each draws one from chance, and answers with what came of it."""

from __future__ import annotations

import functools
import math
import os
import re
import tempfile
import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from random import Random
from typing import Any

import attrs
import tomli_w

import barwright as bw
from barwright.errors import BarwrightError
from barwright.lint.subject.read_checks import read_checks, read_waivers
from barwright.registry.files.document import parse_toml
from barwright.registry.files.key_lines import lines_of
from barwright.registry.files.snapshot import HEADER, Snapshot, Stats
from barwright.registry.overlays.overlay import read_overlay
from barwright.registry.overlays.preference import stated_preferences
from barwright.registry.packs.checks import PROOFS
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.load import Loaded, load_over, load_snapshot, standards
from barwright.registry.packs.store import MemoryStore
from barwright.units import kinds, read_figure
from barwright.units.kinds import UNITS, Kind
from fuzz.grammar import a_document
from fuzz.mutations import spoilt_bytes, spoilt_table, spoilt_text
from fuzz.renders import rendered
from fuzz.row_files import a_row_file, ask_row_file
from fuzz.seeds import HEADER as SHORT_HEADER
from fuzz.seeds import TEXTS, seeds
from fuzz.small_files import (
    a_history,
    a_lock,
    a_note,
    ask_history,
    ask_lock,
    ask_metadata,
    ask_note,
    some_metadata,
)

__all__ = ["TARGETS", "Target", "snapshot_of_files"]

_DATA = "data.toml"
_NUMBER = re.compile(r"\[\d+\]$")


@attrs.frozen
class Target:
    """Something that reads what strangers write.

    Parameters
    ----------
    draw : callable
        Makes an input, the same one of the same chance.
    ask : callable
        Puts an input to it: what came of it in words, or an error.
    share : float
        Of the inputs that are asked for, how many it is given: fewer where it is slow.
    """

    draw: Callable[[Random], bytes]
    ask: Callable[[bytes], str]
    share: float = 1.0


# -- Figures -----------------------------------------------------------------------------

_KINDS: tuple[Kind, ...] = tuple(v for v in vars(kinds).values() if isinstance(v, Kind))
_FIGURES = (
    *("742.0 mm ± 0.4 mm", "14 deg", "-0.42 N/mm", "77 GPa +/- 4 GPa", "1.5e3 lbf*in/deg"),
    *("1 3/8 in", "5' 3\"", "25,4 mm", "12 ft-lbs", "0.5 turn", "1.75 ± 0.1 mm", "291 kg"),
)


def _a_figure(chance: Random) -> bytes:
    text = chance.choice(_FIGURES) if chance.random() < 0.6 else _of_units(chance)
    spoilt = spoilt_text(chance, text, TEXTS).encode("utf-8", "surrogateescape")
    return chance.randbytes(1) + spoilt


def _of_units(chance: Random) -> str:
    unit = chance.choice(sorted(UNITS))
    return f"{chance.uniform(-1e3, 1e3):.{chance.randrange(6)}f} {unit}"


def _read_figure(data: bytes) -> str:
    """Read text as a figure of the kind that the first byte stands for."""
    text = data[1:].decode("utf-8", "surrogateescape")
    reading = read_figure(text, _KINDS[sum(data[:1]) % len(_KINDS)], key="")
    for value in (reading.value, reading.tolerance):
        assert value is None or math.isfinite(value.magnitude), text
    return f"read\n{reading}"


# -- Packs -------------------------------------------------------------------------------


def snapshot_of_files(files: Mapping[str, bytes]) -> Snapshot:
    """A pack that lies on no disk."""
    return Snapshot(Path(os.devnull), Stats((), is_settled=False), files, digest="")


def _loaded(data: bytes, *, header: bytes = SHORT_HEADER) -> Loaded:
    """Load a file of a pack with records of the demo packs beside it."""
    snapshot = snapshot_of_files({HEADER: header, _DATA: data})
    return load_over(snapshot, origin="fuzz", known=seeds().known, beside=set())


def _outcome(loaded: Loaded) -> str:
    """First code, and all that is told, on lines below."""
    if not loaded.problems:
        return f"loaded\n{sorted(loaded.pack.parts) if loaded.pack else ''}"
    return f"{loaded.problems[0].code}\n" + "\n".join(map(str, loaded.problems))


def _load_bytes(data: bytes) -> str:
    loaded = _loaded(data)
    # Loading tells the lines of keys, if it finds the file on a disk.
    lines_of(data.decode("utf-8", "replace"))
    return _outcome(loaded)


def _some_bytes(chance: Random) -> bytes:
    return spoilt_bytes(chance, chance.choice(seeds().blocks), seeds().blocks)


def _load_grammar(data: bytes) -> str:
    """Load a document, and look at the line of each key that begins one."""
    outcome = _load_bytes(data)
    text = data.decode("utf-8", "replace")
    try:
        parse_toml(data, shown_as="")
    except BarwrightError:
        return outcome
    rows = text.split("\n")
    for path, line in lines_of(text).items():
        # A record's path may end with its number, and its last part may have been in quotes.
        last = _NUMBER.sub("", path).rpartition(".")[2].strip("\"' ")
        assert last in rows[line - 1], (path, line)
    return outcome


def _a_grammar(chance: Random) -> bytes:
    data = a_document(chance)
    return data if chance.random() < 0.7 else spoilt_bytes(chance, data, seeds().blocks)


def _load_header(data: bytes) -> str:
    return _outcome(_loaded(b"", header=data))


def _a_header(chance: Random) -> bytes:
    if chance.random() < 0.5:
        return spoilt_bytes(chance, SHORT_HEADER, seeds().blocks)
    table = tomllib.loads(SHORT_HEADER.decode())
    return _dumped(spoilt_table(chance, table, seeds().tables))


def _some_tables(chance: Random) -> bytes:
    return _dumped(spoilt_table(chance, chance.choice(seeds().tables), seeds().tables))


def _dumped(table: dict[str, Any]) -> bytes:
    return tomli_w.dumps(table).encode("utf-8", "replace")


# -- Overlays ----------------------------------------------------------------------------

_OVERLAY = b"overlay = true\n" + SHORT_HEADER.replace(b'"tiny"', b'"shed"')
_CORRECTED = (
    ("fells:bar/short-standard", "diameter", "23.55 mm ± 0.02 mm"),
    ("fells:bar/short-standard", "arm_end.length", "37.5 mm"),
    ("fells:chassis/short", "axles.front.standard_mass", "452 kg ± 5 kg"),
    ("fells:chassis/short", "axles.front.droop_stop", "-20 deg"),
    ("tiny:damper/one", "gas.slope", "-0.4 N/mm"),
)


def _an_overlay(chance: Random) -> bytes:
    """Records and corrections, or the header of an overlay."""
    if chance.random() < 0.2:
        header = {**tomllib.loads(_OVERLAY.decode()), "prefer": {"fells": "elsewhere"}}
        return b"# header\n" + _dumped(spoilt_table(chance, header, seeds().tables))
    chosen = chance.sample(_CORRECTED, k=2)
    corrections = [
        {"of": of, "figure": figure, "is": is_, "source": "desk", "at": "1", "why": "Measured."}
        for of, figure, is_ in chosen
    ]
    table = chance.choice(seeds().tables) | {"correction": corrections}
    return _dumped(spoilt_table(chance, table, [*seeds().tables, {"correction": corrections}]))


def _read_overlay(data: bytes) -> str:
    is_header = data.startswith(b"# header\n")
    snapshot = snapshot_of_files({HEADER: data} if is_header else {HEADER: _OVERLAY, _DATA: data})
    stated_preferences(snapshot)
    return _outcome(read_overlay(snapshot, _registry().store).loaded)


# -- Checks, waivers and rules -----------------------------------------------------------


@functools.cache
def _whole_packs() -> tuple[Pack, ...]:
    return tuple(load_snapshot(snapshot_of_files(files), origin="fuzz") for files in seeds().packs)


@functools.cache
def _proofs() -> tuple[dict[str, Any], ...]:
    return tuple(table for table in seeds().tables if set(table) & set(PROOFS))


def _some_proofs(chance: Random) -> bytes:
    return _dumped(spoilt_table(chance, chance.choice(_proofs()), seeds().tables))


def _read_proofs(data: bytes) -> str:
    """Read checks and waivers, of whichever pack has their records."""
    tables = {_DATA: tomllib.loads(data.decode())}
    reported = [str(problem) for problem in read_waivers(tables)[1]]
    for pack in _whole_packs():
        reported += [str(problem) for problem in read_checks(tables, pack)[2]]
    return "problems\n" + "\n".join(reported) if reported else "read"


@functools.cache
def _folder() -> Path:
    """A folder for what is only read from files, with a pack in it."""
    folder = Path(tempfile.mkdtemp(prefix="barwright-fuzz-"))
    for name, data in seeds().packs[-1].items():
        (folder / name).write_bytes(data)
    return folder


def _for_lint(chance: Random) -> bytes:
    """The records of the last pack in one file, spoilt, with a check and a waiver."""
    own = [data for name, data in seeds().packs[-1].items() if name != HEADER]
    table = tomllib.loads(b"\n".join(own).decode())
    for extra in chance.choices(_proofs(), k=2):
        table |= extra
    return _dumped(spoilt_table(chance, table, seeds().tables))


def _lint(data: bytes) -> str:
    for path in _folder().glob("*.toml"):
        if path.name != HEADER:
            path.unlink()
    (_folder() / _DATA).write_bytes(data)
    linted = bw.lint_pack(_folder())
    faults = [finding.text for finding in linted.findings if finding.code == "U101"]
    assert not faults, faults
    codes = [finding.code for finding in linted.findings]
    return f"{codes[0] if codes else 'good'}\n" + "\n".join(map(str, linted.findings))


# -- Jobs and words ----------------------------------------------------------------------


@functools.cache
def _registry() -> bw.Registry:
    return bw.Registry(MemoryStore(standards(), _whole_packs()))


def _a_job(chance: Random) -> bytes:
    job = chance.choice(seeds().jobs)
    if chance.random() < 0.5:
        return spoilt_bytes(chance, job, seeds().jobs)
    try:
        return _dumped(spoilt_table(chance, tomllib.loads(job.decode()), seeds().tables))
    except (ValueError, RecursionError):  # a job that is bad already
        return job


def _load_job(data: bytes) -> str:
    path = Path(tempfile.gettempdir()) / f"barwright-fuzz-{os.getpid()}.toml"
    path.write_bytes(data)
    try:
        return f"loaded {len(bw.load_jobs(path, _registry()))}"
    finally:
        path.unlink()


_WORDS = ("fells:chassis/short", "fells short 2014", "2014-05", "short chassis/one", "hodmule x")


def _some_words(chance: Random) -> bytes:
    return spoilt_text(chance, chance.choice(_WORDS), (*_WORDS, *TEXTS)).encode(
        "utf-8", "surrogateescape"
    )


def _resolve(data: bytes) -> str:
    words = data.decode("utf-8", "surrogateescape")
    found = [vehicle.id for vehicle in _registry().vehicles(words)]
    try:
        chassis = _registry().resolve(words)
    except BarwrightError as error:
        return f"{error.code}\n{error}\n{found}"
    _registry().source(words)
    return f"found\n{chassis.id}\n{found}"


# -- Reports -----------------------------------------------------------------------------


def _whole_pack(chance: Random) -> bytes:
    """A number of a corner, and a pack in one file whose figures and texts are changed."""
    files = chance.choice(seeds().packs)
    own = [data.decode() for name, data in files.items() if name != HEADER]
    table = tomllib.loads("\n".join(own))
    parts = {kind: records for kind, records in table.items() if kind not in PROOFS}
    if chance.random() < 0.7:
        parts = spoilt_table(chance, parts, [parts])
    for records in filter(lambda held: isinstance(held, list), parts.values()):
        for record in records:
            if isinstance(record, dict) and chance.random() < 0.5:
                record["title"] = chance.choice(TEXTS)
                record["at"] = chance.choice(TEXTS)
    return files[HEADER] + b"\n# corner %d\n" % chance.randrange(100) + _dumped(parts)


def _render(data: bytes) -> str:
    head, _, rest = data.partition(b"\n# corner ")
    number, _, text = rest.partition(b"\n")
    snapshot = snapshot_of_files({HEADER: head, _DATA: text})
    pack = load_snapshot(snapshot, origin="fuzz")
    return rendered(bw.Registry(MemoryStore(standards(), [pack])), int(number))


TARGETS: Mapping[str, Target] = {
    "figure": Target(_a_figure, _read_figure, share=2),
    "bytes": Target(_some_bytes, _load_bytes),
    "tables": Target(_some_tables, _load_bytes),
    "grammar": Target(_a_grammar, _load_grammar),
    "header": Target(_a_header, _load_header, share=0.25),
    "overlay": Target(_an_overlay, _read_overlay, share=0.25),
    "job": Target(_a_job, _load_job, share=0.5),
    "words": Target(_some_words, _resolve, share=0.25),
    "proofs": Target(_some_proofs, _read_proofs, share=0.25),
    "lock": Target(a_lock, ask_lock, share=0.25),
    "history": Target(a_history, ask_history, share=0.25),
    "note": Target(a_note, ask_note, share=0.25),
    "metadata": Target(some_metadata, ask_metadata, share=0.1),
    "rows": Target(a_row_file, ask_row_file, share=0.1),
    "lint": Target(_for_lint, _lint, share=0.025),
    "render": Target(_whole_pack, _render, share=0.01),
}
"""By name."""
