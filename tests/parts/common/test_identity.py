"""Tests of `barwright.parts.common.identity`, and of what a chassis says of itself."""

from __future__ import annotations

import pickle
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.parts.common.identity import month
from sample_packs import changed_pack
from sample_vehicles import make_chassis

MONTHS = st.builds(bw.parts.Month, st.integers(1000, 9999), st.integers(1, 12))


# -- Numbers -----------------------------------------------------------------------------


def test_a_number_is_told_with_its_system() -> None:
    assert str(bw.parts.PartNumber("works", "71-20 455")) == "works 71-20 455"


@pytest.mark.parametrize(
    ("system", "number", "code"),
    [
        ("Works", "1", "S205"),
        ("", "1", "S205"),
        ("works", " - ", "S204"),
        ("works", "", "S204"),
        ("works", "1\n2", "S204"),
        ("works", "1" * 65, "S204"),
    ],
)
def test_what_nobody_could_order_by_is_refused(system: str, number: str, code: str) -> None:
    with pytest.raises(bw.BarwrightError, match=code):
        bw.parts.PartNumber(system, number)


# -- Months ------------------------------------------------------------------------------


@given(MONTHS)
def test_a_month_is_read_as_it_is_written(one: bw.parts.Month) -> None:
    assert bw.parts.Month.of(str(one)) == one
    assert re.fullmatch(bw.parts.Month.PATTERN, str(one))
    assert pickle.loads(pickle.dumps(one)) == one  # noqa: S301 - our own bytes


@given(MONTHS, MONTHS)
def test_earlier_months_are_less_and_count_less(one: bw.parts.Month, other: bw.parts.Month) -> None:
    assert (one < other) == (str(one) < str(other)) == (one.number < other.number)


def test_months_are_counted_from_january_of_the_year_0() -> None:
    assert bw.parts.Month(1000, 1).number == 12_000
    assert bw.parts.Month(2011, 3).number == 12 * 2011 + 2
    assert [bw.parts.Month.of(text).number for text in ("2011-12", "2012-01")] == [24_143, 24_144]


def test_a_month_is_accepted_as_text_and_as_itself() -> None:
    assert month("2011-03") == month(bw.parts.Month(2011, 3)) == bw.parts.Month(year=2011, month=3)
    assert str(bw.parts.Month(2011, 3)) == "2011-03"


@pytest.mark.parametrize(
    "text",
    [
        *("2011", "2011-3", "2011-00", "2011-13", "11-03", "0999-01", "2011-03-01", "2011/03"),
        *("", " 2011-03", "2011-03\n", "٢٠١١-03", "March 2011"),
    ],
)
def test_what_is_not_spelled_as_a_month_is_refused(text: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.parts.Month.of(text)

    assert (caught.value.code, caught.value.remedy) == ("S204", "write it like '2011-03'")


@pytest.mark.parametrize("value", [2011, 2011.03, None, ("2011", "03"), True])
def test_what_is_no_text_is_no_month(value: Any) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        month(value)

    assert (caught.value.code, caught.value.remedy) == ("S203", "write it like '2011-03'")


@pytest.mark.parametrize(
    ("numbers", "code", "key"),
    [
        ((2011, 13), "S204", ""),
        ((999, 1), "S204", ""),
        ((2011, 0), "S203", "month"),
        (("2011", 3), "S203", "year"),
        ((10_000, 1), "S203", "year"),
    ],
)
def test_a_month_of_no_calendar_is_refused(numbers: Any, code: str, key: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.parts.Month(*numbers)

    assert (caught.value.code, caught.value.key) == (code, key)


# -- Chassis -----------------------------------------------------------------------------

STATED: dict[str, Any] = {
    "maker": "Yard Works",
    "model": "Yardling",
    "body": "panel van",
    "trim": "plain",
    "drive": "front",
    "markets": ("home", "export"),
    "codes": ("YD-7",),
    "first_built": bw.parts.Month(2009, 3),
    "last_built": bw.parts.Month(2014, 5),
}


def test_nothing_of_a_chassis_need_be_stated() -> None:
    chassis = make_chassis()

    unstated = {name: getattr(chassis, name) for name in STATED}
    assert unstated == dict.fromkeys(STATED) | {"markets": (), "codes": ()}


def test_what_a_chassis_states_is_kept_and_survives_json() -> None:
    chassis = make_chassis(**STATED)

    assert {name: getattr(chassis, name) for name in STATED} == STATED
    assert bw.from_json(bw.to_json(chassis)) == chassis
    assert '"first_built": "2009-03"' in bw.to_json(chassis)
    assert pickle.loads(pickle.dumps(chassis)) == chassis  # noqa: S301 - our own bytes


def test_months_are_given_as_text_too() -> None:
    chassis = make_chassis(first_built="2009-03", last_built="2009-03")

    assert chassis.first_built == chassis.last_built == bw.parts.Month(2009, 3)


@pytest.mark.parametrize(
    ("change", "code", "key"),
    [
        ({"first_built": "2009-03", "last_built": "2009-02"}, "S207", "last_built"),
        ({"first_built": "2009"}, "S204", "first_built"),
        ({"last_built": 2009}, "S203", "last_built"),
        ({"maker": 5}, "S203", "maker"),
        ({"codes": "YD-7"}, "S203", "codes"),
        ({"markets": ("home", 1)}, "S203", "markets"),
    ],
)
def test_what_a_chassis_cannot_state(change: dict[str, Any], code: str, key: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        make_chassis(**change)

    assert (caught.value.code, caught.value.key) == (code, key)


def test_one_end_may_be_left_open() -> None:
    assert make_chassis(first_built="2009-03").last_built is None
    assert make_chassis(last_built="2009-03").first_built is None


# -- In a file ---------------------------------------------------------------------------

IN_A_FILE = """maker = "Yard Works"
model = "Yardling"
body = "panel van"
trim = "plain"
drive = "front"
markets = ["home", "export"]
codes = ["YD-7"]
first_built = "2009-03"
last_built = "2014-05"
"""


def with_lines(folder: Path, lines: str) -> Path:
    """The good pack, with more lines in its chassis."""
    return changed_pack(folder, "vehicles.toml", "wheelbase =", f"{lines}wheelbase =")


def test_a_file_states_the_same(tmp_path: Path) -> None:
    registry = bw.Registry.from_folders(with_lines(tmp_path, IN_A_FILE))

    assert registry.problems == ()
    chassis = registry.chassis("tiny:chassis/one")
    assert {name: getattr(chassis, name) for name in STATED} == STATED


@pytest.mark.parametrize(
    ("line", "code", "key"),
    [
        ("first_built = 2009-03-01", "S203", "first_built"),
        ("first_built = 2009", "S203", "first_built"),
        ("first_built = '2009'", "S204", "first_built"),
        ("last_built = ''", "S204", "last_built"),
        ("first_built = { year = 2009, month = 3 }", "S201", "first_built.month"),
        ("first_built = '2009-03'\nlast_built = '2008-03'", "S207", "last_built"),
        ("maker = ''", "S203", "maker"),
        ("maker = ['a']", "S203", "maker"),
        ("codes = 'YD-7'", "S203", "codes"),
        ("codes = ['YD-7', 8]", "S203", "codes[1]"),
        ("codes = [' ']", "S203", "codes[0]"),
        ("market = 'home'", "S201", "market"),
    ],
)
def test_a_slip_in_a_file_is_told_with_its_line(
    line: str, code: str, key: str, tmp_path: Path
) -> None:
    pack = with_lines(tmp_path, f"{line}\n")

    (problem,) = bw.Registry.from_folders(pack).problems[0].problems

    text = (pack / "vehicles.toml").read_text(encoding="utf-8")
    (number,) = [
        n for n, found in enumerate(text.splitlines(), 1) if found == line.splitlines()[-1]
    ]
    assert (problem.code, problem.key) == (code, f"chassis[0].{key}")
    assert (problem.file, problem.line) == ("vehicles.toml", number)
