"""Text is what it looks like."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace, holders
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]

_LETTERS = re.compile(r"[^\W\d_]+")
_BLANKS = "has a space at an end, or two in a row"
_ALPHABETS = ("LATIN", "GREEK", "CYRILLIC")

# It begins units, and looks like no letter but the sign that was made for them.
_MICRO = "\N{GREEK SMALL LETTER MU}"


def _remarks(subject: Subject) -> Iterator[Remark]:
    listed = (place for place, _ in (*subject.records, *subject.sources))
    names = {(place.file, place.key): place.of for place in listed}
    for file, tables in subject.tables.items():
        for path, text in _texts(tables, ""):
            if wrong := _wrong(text):
                yield Remark(PackPlace(_concerned(names, file, path), file, path), wrong)


def _texts(value: object, path: str) -> Iterator[tuple[str, str]]:
    """Every piece of text in a file, keys among them, with its path."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, dict):
        for key, inner in value.items():
            within = f"{path}.{key}".removeprefix(".")
            yield within, key
            yield from _texts(inner, within)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _texts(inner, f"{path}[{index}]")


def _wrong(text: str) -> str:
    """Say what is wrong with a piece of text; empty if nothing is."""
    if text.isascii() and text.isprintable():  # as most is
        return _BLANKS if _has_stray_blanks(text) else ""
    hidden = [c for c in text if unicodedata.category(c)[0] == "C" and c != "\n"]
    if hidden:
        return f"holds U+{ord(hidden[0]):04X}, which is invisible"
    if unicodedata.normalize("NFC", text) != text:
        return "has decomposed letters, which look like other text"
    if _has_stray_blanks(text):
        return _BLANKS
    mixed = [word for word in _LETTERS.findall(text) if len(_alphabets(word)) > 1]
    return f"mixes alphabets in {mixed[0]!r}" if mixed else ""


def _has_stray_blanks(text: str) -> bool:
    return text != text.strip() or "  " in text


def _alphabets(word: str) -> set[str]:
    letters = word.replace(_MICRO, "")
    names = (unicodedata.name(letter, "").partition(" ")[0] for letter in letters)
    return {name for name in names if name in _ALPHABETS}


def _concerned(names: Mapping[tuple[str, str], str], file: str, path: str) -> str:
    """Name what a path lies in, as a waiver would."""
    around = ((key, names.get((file, key))) for key in holders(path))
    return next((of + path.removeprefix(key) for key, of in around if of), path)


RULE = Rule(
    name="plain-text",
    code="R201",
    wants="text has no hidden characters, stray spaces or look-alike letters",
    tip="type it again",
    remarks=_remarks,
)
