"""Rule `plain-text`: text is what it looks like."""

from __future__ import annotations

from pathlib import Path

import pytest

from each_case import each_case
from flawed_packs import changed, reported

WRONG = {
    "direction turned": ("Arm\u202e", "holds U+202E, which is invisible"),
    "no width": ("Ar\u200bm", "holds U+200B, which is invisible"),
    "byte-order mark": ("\ufeffArm", "holds U+FEFF, which is invisible"),
    "private": ("Arm \ue000", "holds U+E000, which is invisible"),
    "in pieces": ("Bru\u0308cke", "has decomposed letters, which look like other text"),
    "blank first": (" Arm", "has a space at an end, or two in a row"),
    "blank last": ("Arm ", "has a space at an end, or two in a row"),
    "two blanks": ("Arm  one", "has a space at an end, or two in a row"),
    "blank behind an umlaut": ("Brü ", "has a space at an end, or two in a row"),
    "Cyrillic in Latin": ("\u0410rm", "mixes alphabets in '\u0410rm'"),
    "Greek in Latin": ("Arm\u03bf", "mixes alphabets in 'Arm\u03bf'"),
}
RIGHT = ["Brücke", "Ø 25", "Δφ at τ_a", "Рычаг", "µ", "Lenker, lang (2)", "Arm №2", "5 \u03bcm"]


@each_case("title, message", WRONG.values())
def test_text_that_deceives(tmp_path: Path, title: str, message: str) -> None:
    change = ("parts.toml", 'title = "Arm"', f'title = "{title}"')
    (finding,) = changed(tmp_path, "plain-text", change)
    assert reported(finding) == ("parts.toml", 3, "arm/one.title", message)
    assert finding.code == "R201"


@pytest.mark.parametrize("title", RIGHT)
def test_text_of_any_language_is_text(tmp_path: Path, title: str) -> None:
    change = ("parts.toml", 'title = "Arm"', f'title = "{title}"')
    assert changed(tmp_path, "plain-text", change) == []


def test_an_escaped_control_character_is_found(tmp_path: Path) -> None:
    change = ("parts.toml", 'title = "Arm"', 'title = "Arm\\u001b[31m"')
    assert len(changed(tmp_path, "plain-text", change)) == 1


def test_a_note_may_have_several_lines(tmp_path: Path) -> None:
    change = ("pack.toml", '"Invented for the tests."', '"""Invented\nfor the tests."""')
    assert changed(tmp_path, "plain-text", change) == []


@pytest.mark.parametrize(
    ("change", "of"),
    [
        (("pack.toml", "One invented vehicle", "One  invented"), "title"),
        (("pack.toml", "Invented for the tests.", "Invented  for tests."), "source/desk.note"),
        (("steel.toml", "sheet 2", "sheet  2"), "material/steel.shear_modulus.at"),
        (("parts.toml", 'form = "involute"', 'form = " involute"'), "arm/one.socket.form"),
        (("vehicles.toml", '"Vehicle"', '"Vehicle "'), "chassis/one.title"),
    ],
)
def test_all_text_is_looked_at(tmp_path: Path, change: tuple[str, str, str], of: str) -> None:
    (finding,) = changed(tmp_path, "plain-text", change)
    assert finding.of == of
    assert finding.line > 0


def test_keys_are_text_too_even_where_the_record_does_not_load(tmp_path: Path) -> None:
    change = ("parts.toml", 'title = "Arm"', 'title = "Arm"\n"ti\\u200btle" = "Arm"')
    (finding,) = changed(tmp_path, "plain-text", change)
    assert finding.message == "holds U+200B, which is invisible"
