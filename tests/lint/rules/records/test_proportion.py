"""Rule `proportion`: figures of one part are in proportion to one another."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed, reported, subjects
from sample_packs import GOOD_PACK

RULE = "proportion"
GAS = 'gas = { force = "190 N", at_length = "590 mm", slope = "-0.42 N/mm" }'

SLIPS = {
    "half a nut": ('nut_height = "10.5 mm"', 'nut_height = "5.1 mm"', "adjuster/one.nut_height"),
    "a thin body": ('"23.3 mm ± 0.05 mm"', '"11.6 mm"', "bar/one.diameter"),
    "closed too short": ('"486 mm"', '"350 mm"', "damper/one.closed_length"),
    "gas beyond the damper": ('"590 mm"', '"690 mm"', "damper/one.gas.at_length"),
    "gas by the centimetre": ("-0.42 N/mm", "-4.2 N/mm", "damper/one.gas.slope"),
    "no thread": ('thread_end = "185 mm"', 'thread_end = "160 mm"', "adjuster/one.thread_end"),
    "little engagement": (
        'required_engagement = "24 mm"',
        'required_engagement = "2.4 mm"',
        "arm/one.socket.required_engagement",
    ),
}


def test_the_good_pack_is_in_proportion() -> None:
    assert subjects(GOOD_PACK, RULE) == []


@pytest.mark.parametrize(("old", "new", "of"), SLIPS.values(), ids=SLIPS)
def test_each_slip_is_told_with_its_figure(tmp_path: Path, old: str, new: str, of: str) -> None:
    findings = changed(tmp_path, RULE, ("parts.toml", old, new))
    assert of in [finding.of for finding in findings]


def test_what_is_said_of_it(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, RULE, ("parts.toml", '"10.5 mm"', '"5.1 mm"'))
    message = "nut_height of 5.1 mm is 0.43 times thread_diameter of 12 mm; usual is 0.49 to 1.6 "
    assert reported(finding)[3] == f"{message}times"
    assert (finding.code, finding.severity) == ("R106", bw.answers.Severity.WARNING)


@pytest.mark.parametrize("gas", ["", 'gas = { force = "0 N", at_length = "590 mm" }', "gas = {}"])
def test_a_damper_without_gas_has_none_to_compare(tmp_path: Path, gas: str) -> None:
    assert changed(tmp_path, RULE, ("parts.toml", GAS, gas)) == []
