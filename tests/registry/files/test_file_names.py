"""Tests of `file_names`: a data file has a name that every system can hold."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.files.file_names import check_name
from each_case import each_case

PLAIN = (
    *("pack.toml", "a.toml", "0.toml", "_.toml", "a-b_c.d.toml", "bars/front/short.toml"),
    *("con-rods.toml", "conn.toml", "com.toml", "com10.toml", "auxiliary/a.toml", "a.con.toml"),
    *("x" * 59 + ".toml", "a/b/c/d/e/f/g/h.toml"),
)


@each_case("name", PLAIN)
def test_a_plain_name(name: str) -> None:
    check_name(name)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("Bars.toml", "Bars.toml"),
        ("bars.TOML", "bars.TOML"),
        ("Front/bars.toml", "Front"),
        ("x" * 60 + ".toml", "x" * 60 + ".toml"),
        ("a/b/c/d/e/f/g/h/i.toml", "9 parts"),
        ("bars./x.toml", "bars."),
    ],
)
def test_a_name_that_is_not_plain_is_refused_with_the_part(name: str, value: str) -> None:
    with pytest.raises(bw.FileError) as caught:
        check_name(name)

    error = caught.value
    assert (error.code, error.file, error.value) == ("F108", name, value)


def refuses(name: str) -> bool:
    """Whether a name is refused."""
    try:
        check_name(name)
    except bw.FileError:
        return True
    return False


@given(st.text(min_size=1), st.text(min_size=1))
def test_of_two_names_that_some_system_takes_for_one_at_least_one_is_refused(
    one: str, other: str
) -> None:
    for name in (one, other):
        for form in ("NFC", "NFD", "NFKC", "NFKD"):
            same = unicodedata.normalize(form, name).casefold()
            assert same == name or refuses(same) or refuses(name)


@given(st.text())
def test_a_plain_name_holds_nothing_that_leads_elsewhere(text: str) -> None:
    if not refuses(text):
        parts = text.split("/")
        assert not {"", ".", ".."} & set(parts)
        assert text.isascii()
        assert text.isprintable()
        assert not set(text) & set('\\:*?"<>| ')
