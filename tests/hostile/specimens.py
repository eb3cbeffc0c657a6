"""Some hundred specimens of what a stranger may send, each about as large as it may be."""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Callable, Mapping

import attrs
import tomli_w

from fuzz.mutations import chance_of, spoilt_table
from fuzz.seeds import HEADER, TEXTS, seeds
from hostile.documents import ALLOWED, HOSTILE, SIZE, filled, numbered
from sample_packs import SPECIMENS as SPECIMEN_FOLDER

__all__ = ["SPECIMENS", "Specimen"]

Files = Mapping[str, bytes]

_SPOILT = 120
_ID = re.compile(rb'^id = "', re.MULTILINE)
_OVERLAY = b"overlay = true\n" + HEADER.replace(b'"tiny"', b'"shed"')


@attrs.frozen
class Specimen:
    """Files that somebody sends, and the door at which they arrive.

    Parameters
    ----------
    name : str
        What it is.
    door : str
        What reads it: a pack's folder, a job, and so on.
    files : callable
        Makes its files by their names.
    """

    name: str
    door: str
    files: Callable[[], Files] = attrs.field(repr=False)


def _in_a_pack(data: bytes) -> Files:
    return {"pack.toml": HEADER, "data.toml": data}


def _over_and_over(block: bytes, size: int = SIZE - 2) -> bytes:
    """Records of one kind, each with an id of its own, up to a megabyte."""
    pieces, length, number = [], 0, 0
    while length + len(block) + 8 < size:
        piece = _ID.sub(b'id = "x%d-' % number, block, count=1) + b"\n"
        pieces.append(piece)
        length, number = length + len(piece), number + 1
    return b"".join(pieces)


def _documents() -> list[Specimen]:
    named = [(f"{code} {name}", made) for code, of in HOSTILE.items() for name, made in of.items()]
    named += list(ALLOWED.items())
    return [
        Specimen(name, door, functools.partial(_document, door, made))
        for name, made in named
        for door in ("pack", "job")
    ]


def _document(door: str, made: Callable[[], bytes]) -> Files:
    return {"job.toml": made()} if door == "job" else _in_a_pack(made())


def _records() -> list[Specimen]:
    return [
        Specimen(f"record {number} over and over", "pack", functools.partial(_record, number))
        for number in range(len(seeds().blocks))
    ]


def _record(number: int) -> Files:
    return _in_a_pack(_over_and_over(seeds().blocks[number]))


def _spoilt() -> list[Specimen]:
    return [
        Specimen(f"spoilt record {number} over and over", door, functools.partial(_worse, number))
        for number, door in zip(range(_SPOILT), ("pack", "pack", "lint") * _SPOILT, strict=False)
    ]


def _worse(number: int) -> Files:
    chance = chance_of("budget", number)
    table = spoilt_table(chance, chance.choice(seeds().tables), seeds().tables)
    block = tomli_w.dumps(table).encode("utf-8", "replace")
    return _in_a_pack(_over_and_over(block) or block)


_MULTILINE = "k{{0}} = '''" + "{0}" + "'''\n"


def _strings() -> list[Specimen]:
    """Texts over lines, each of as many characters as are allowed, of pieces that hurt."""
    pieces = ('"\\', '\\"', '"', '""\\', '"#', "a.", "[", "{ ", "''.", '= "', " ", "# ")
    return [
        Specimen(f"texts of {piece!r}", "pack", functools.partial(_string, piece))
        for piece in pieces
    ]


def _string(piece: str) -> Files:
    text = (piece * 4080)[:4080].replace("'''", "''").replace("{", "{{")
    return _in_a_pack(numbered(f"k{{0}} = '''\n{text}\n'''", size=SIZE - 2))


_DAMPER = '[[damper]]\nid = "d{0}"\ntitle = "D"\nsource = "desk"\nclosed_length = "1 mm"\n'


def _figures() -> list[Specimen]:
    texts: tuple[str, ...] = (
        "9" * 4000,
        "1 " * 2000,
        " " * 4000,
        "1e1" * 1300,
        "± 1" * 1300,
        "1/2 " * 1000,
    )
    texts += (
        "1," * 2000,
        "a" * 4000,
        "mm ± " * 800,
        *(text for text in TEXTS if text.isprintable()),
    )
    return [
        Specimen(f"figure {number}: {text[:12]!r}", "pack", functools.partial(_figure, text))
        for number, text in enumerate(texts)
    ]


def _figure(text: str) -> Files:
    figure = json.dumps(text).replace("{", "{{").replace("}", "}}")
    line = _DAMPER + f"open_length = {figure}"
    return _in_a_pack(numbered(line, size=SIZE - 2))


def _others() -> list[Specimen]:
    made: dict[tuple[str, str], Callable[[], Files]] = {
        ("records without anything", "pack"): lambda: _in_a_pack(b"[[bar]]\n" * 16_000),
        ("records without anything", "lint"): lambda: _in_a_pack(b"[[bar]]\n" * 16_000),
        ("unknown tables", "lint"): lambda: _in_a_pack(numbered("[[t{0}]]", size=9000)),
        ("unknown keys", "lint"): lambda: _in_a_pack(
            "".join(
                "[[bar]]\n" + "".join(f'k{key}x = "x"\n' for key in range(900)) for _ in range(90)
            ).encode()
        ),
        ("one id", "lint"): lambda: _in_a_pack(b'[[bar]]\nid = "a"\n' * 16_000),
        ("blanks in titles", "lint"): lambda: _in_a_pack(
            numbered(_DAMPER.replace('"D"', '"a  b"') + 'open_length = "2 mm"', size=SIZE - 2)
        ),
        ("waivers that cover", "lint"): lambda: _in_a_pack(
            numbered(
                _DAMPER.replace('"D"', '"a  b"') + 'open_length = "2 mm"\n'
                '[[waiver]]\nrule = "plain-text"\nof = "damper/d{0}"\nwhy = "So it is on it."',
                size=SIZE - 2,
            )
        ),
        ("unknown references", "pack"): lambda: {
            "pack.toml": HEADER,
            "a.toml": numbered(
                '[[material]]\nid = "m{0}"\ntitle = "M"\nsource = "desk"\nshear_modulus = "77 GPa"',
                size=SIZE - 2,
            ),
            "b.toml": b'[[bar]]\nid = "x"\ntitle = "X"\nsource = "desk"\nmaterial = "y"\n' * 1100,
        },
        ("checks", "lint"): lambda: _in_a_pack(b'[[check]]\nof = "a"\n' * 16_000),
        ("waivers", "lint"): lambda: _in_a_pack(b'[[waiver]]\nrule = "a"\n' * 16_000),
        ("four files", "pack"): lambda: {
            "pack.toml": HEADER,
            **{f"d{n}.toml": _over_and_over(seeds().blocks[n]) for n in range(4)},
        },
        ("sources", "pack"): lambda: {
            "pack.toml": HEADER + numbered('[[source]]\nid = "s{0}"', size=20_000)
        },
        ("corrections", "overlay"): lambda: {
            "pack.toml": _OVERLAY,
            "data.toml": numbered(
                '[[correction]]\nof = "fells:bar/short-standard"\nfigure = "diameter"\n'
                'is = "23 mm"\nsource = "desk"\nwhy = "Measured."\n# {0}',
                size=SIZE - 2,
            ),
        },
        ("corrections without anything", "overlay"): lambda: {
            "pack.toml": _OVERLAY,
            "data.toml": b"[[correction]]\n" * 16_000,
        },
        ("records", "overlay"): lambda: {
            "pack.toml": _OVERLAY,
            "data.toml": _over_and_over(seeds().blocks[0]),
        },
        ("preferences", "overlay"): lambda: {
            "pack.toml": _OVERLAY + b"[prefer]\n" + numbered('k{0} = "x"', size=12_000)
        },
        ("corners", "job"): lambda: {"job.toml": b'[[corner]]\nvehicle = "x"\n' * 16_000},
        ("vehicles", "job"): lambda: {
            "job.toml": b"vehicle = [" + b'"fells short", ' * 900 + b"]\n"
        },
        ("packs", "lock"): lambda: {"barwright.lock": b"[[pack]]\n" * 16_000},
        ("good packs", "lock"): lambda: {
            "barwright.lock": b"schema = 1\nlibrary = '0'\n"
            + numbered("[[pack]]\nid = 'p{0}'\norigin = 'x'\ndigest = 'y'", size=900_000)
        },
        ("travels", "history"): lambda: {"history.txt": filled("-12.5 mm\n")},
        ("travels that are none", "history"): lambda: {"history.txt": filled("1,1,1\n")},
        ("one line", "history"): lambda: {"history.txt": filled("1 mm ± ")},
        ("blanks", "history"): lambda: {"history.txt": filled(" ", after="x")},
        ("blank lines", "history"): lambda: {"history.txt": filled("\n")},
        ("brackets", "note"): lambda: {"note": filled("[")},
        ("a number", "note"): lambda: {"note": filled("9")},
        ("packs", "note"): lambda: {"note": b"[" + b"[], " * 260_000 + b"0]"},
        ("entry points", "metadata"): lambda: {
            "entry_points.txt": filled("a = b\n", before="[barwright.packs]\n")
        },
        ("a hundred entry points", "metadata"): lambda: {
            "entry_points.txt": numbered(
                "p{0} = nothing_{0}", before="[barwright.packs]\n", size=2900
            )
        },
        ("sections", "metadata"): lambda: {"entry_points.txt": filled("[barwright.packs]\n")},
        ("fields", "metadata"): lambda: {
            "entry_points.txt": b"[barwright.packs]\na = b\n",
            "METADATA": filled("Name: x\n"),
        },
        ("parts within parts", "metadata"): lambda: {
            "entry_points.txt": b"[barwright.packs]\na = b\n",
            "METADATA": b"Name: x\nVersion: 1\n"
            + numbered('Content-Type: multipart/mixed; boundary="b{0}"\n\n--b{0}', size=SIZE - 100),
        },
        ("words", "words"): lambda: {"words": filled("fells ")},
        ("a word", "words"): lambda: {"words": filled("a")},
        ("an id", "words"): lambda: {"words": filled("a:")},
        ("months", "words"): lambda: {"words": filled("2014-05 ")},
    }
    return [Specimen(name, door, files) for (name, door), files in made.items()]


def _slowest() -> list[Specimen]:
    """The slowest inputs that fuzzing has found, each named after its target."""
    return [
        Specimen(path.name, "fuzz", lambda path=path: {path.name: path.read_bytes()})  # type: ignore[misc]
        for path in sorted((SPECIMEN_FOLDER / "hostile").iterdir())
    ]


SPECIMENS: tuple[Specimen, ...] = (
    *_documents(),
    *_records(),
    *_spoilt(),
    *_strings(),
    *_figures(),
    *_others(),
    *_slowest(),
)
