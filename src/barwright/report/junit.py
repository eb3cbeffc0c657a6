"""Checked jobs as JUnit XML, for build servers."""

from __future__ import annotations

import re
from collections.abc import Sequence
from xml.etree import ElementTree as ET

from barwright.analysis.check import Checked

__all__ = ["to_junit"]

# What XML 1.0 cannot hold, not even escaped.
_FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def to_junit(results: Sequence[Checked]) -> str:
    """Write what became of job files as a JUnit XML test suite, a case a file.

    Parameters
    ----------
    results : sequence of Checked
        What became of each file.

    Returns
    -------
    str
        An answer that is no is a failure; bad input or a fault is an error.
    """
    codes = [checked.exit_code for checked in results]
    suite = ET.Element(
        "testsuite",
        name="barwright check",
        tests=str(len(codes)),
        failures=str(codes.count(1)),
        errors=str(sum(code > 1 for code in codes)),
        skipped="0",
        time="0",
    )
    for checked in results:
        case = ET.SubElement(
            suite, "testcase", classname="barwright.job", name=_clean(checked.file), time="0"
        )
        if checked.exit_code:
            kind = "failure" if checked.exit_code == 1 else "error"
            lines = _lines(checked)
            element = ET.SubElement(case, kind, type=checked.mark, message=_clean(lines[0]))
            element.text = _clean("\n".join(lines))
    suites = ET.Element("testsuites")
    suites.append(suite)
    ET.indent(suites)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + ET.tostring(suites, encoding="unicode")


def _lines(checked: Checked) -> list[str]:
    problems = [f"{p.place}: {p.code} {p.text}" for p in checked.problems]
    return [*problems, *checked.reasons]


def _clean(text: str) -> str:
    return _FORBIDDEN.sub("\ufffd", text)
