"""Checked jobs and packs as JUnit XML, for build servers."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from barwright.lint.finding import PackLint, Severity
from barwright.report.forms.notices import Result, name_of, notices
from barwright.report.safe_text import one_line

__all__ = ["to_junit"]


def to_junit(results: Sequence[Result]) -> str:
    """Write what became of job files or packs as a JUnit XML test suite, a case each.

    Parameters
    ----------
    results : sequence of JobCheck or PackLint
        What became of each, all of one sort.

    Returns
    -------
    str
        An answer that is no, or a finding, is a failure; bad input or a fault is an error.
    """
    codes = [result.exit_code for result in results]
    about = "pack" if any(isinstance(result, PackLint) for result in results) else "job"
    suite = ET.Element(
        "testsuite",
        name="barwright lint" if about == "pack" else "barwright check",
        tests=str(len(codes)),
        failures=str(codes.count(1)),
        errors=str(sum(code > 1 for code in codes)),
        skipped="0",
        time="0",
    )
    for result in results:
        name = one_line(name_of(result))
        case = ET.SubElement(suite, "testcase", classname=f"barwright.{about}", name=name, time="0")
        if result.exit_code:
            kind = "failure" if result.exit_code == 1 else "error"
            told = notices(result)
            lines = [n.line_of_text for n in told if n.severity is not Severity.NOTE]
            element = ET.SubElement(case, kind, type=result.mark, message=lines[0])
            element.text = "\n".join(lines)
    suites = ET.Element("testsuites")
    suites.append(suite)
    ET.indent(suites)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + ET.tostring(suites, encoding="unicode")
