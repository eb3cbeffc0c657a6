"""Tests of `barwright explain`."""

from __future__ import annotations

import pytest

from barwright.cli.command import run
from barwright.report.explain import code_lines, explanation


def test_several_are_explained_one_after_the_other(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "Q101", "placed"]) == 0

    assert capsys.readouterr().out == f"{explanation('Q101')}\n\n{explanation('placed')}\n"


def test_without_a_code_all_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain"]) == 0

    assert capsys.readouterr().out.splitlines() == list(code_lines())


def test_an_unknown_code_is_bad_input(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "Q101", "Q999"]) == 2

    reported = capsys.readouterr()
    assert reported.out == ""
    assert reported.err.startswith("error L105: got 'Q999'")
