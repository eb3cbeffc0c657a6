"""What is put in the place of characters that steer a terminal, over all of Unicode."""

from __future__ import annotations

import json
import sys
from xml.etree import ElementTree as ET
from xml.sax.saxutils import escape

from hypothesis import example, given
from hypothesis import strategies as st

from barwright.report.safe_text import escaped_json, one_line, printable
from terminal_characters import unprintable

ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=60)
EVERY_CHARACTER = [chr(point) for point in range(sys.maxunicode + 1)]


def test_exactly_what_steers_a_terminal_or_fits_into_no_xml_is_marked() -> None:
    marked = {character for character in EVERY_CHARACTER if printable(character) != character}
    assert marked == unprintable("".join(EVERY_CHARACTER)) | {"\ufffe", "\uffff"}
    assert {printable(character) for character in marked} == {"\ufffd"}


@given(ANY_TEXT)
@example("\x1b[31mred\x9b0m\r\n\u202eabc\u2069\ud800")
def test_printable_text_is_as_long_has_the_same_lines_and_stays_as_it_is(text: str) -> None:
    shown = printable(text)
    assert not unprintable(shown)
    assert len(shown) == len(text)
    assert shown.count("\n") == text.count("\n")
    assert printable(shown) == shown


@given(ANY_TEXT)
def test_one_line_is_one_line_for_whoever_splits_it(text: str) -> None:
    assert len(one_line(f".{text}.").splitlines()) == 1


@given(ANY_TEXT)
def test_xml_can_hold_printable_text_and_a_file_too(text: str) -> None:
    shown = printable(text)
    root = ET.fromstring(f"<a>{escape(shown)}</a>")  # noqa: S314 - made here
    assert (root.text or "") == shown
    assert shown.encode().decode() == shown


@given(st.recursive(ANY_TEXT, lambda inner: st.lists(inner) | st.dictionaries(ANY_TEXT, inner)))
def test_escaped_json_says_the_same(value: object) -> None:
    document = escaped_json(json.dumps(value, ensure_ascii=False, indent=1))
    assert json.loads(document) == value
    assert not unprintable(document)
