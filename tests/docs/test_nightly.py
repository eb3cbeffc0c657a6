"""The nightly check of the examples: which answers other packs change, and for whom."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

import barwright as bw
from examples.nightly import recheck

JOB = """
vehicle = "{vehicle}"
corners = ["front left"]
parts.bar = "{bar}"
wanted.keep_standard = true
order.customer = "{customer}"
"""

HEADER = """
schema = 2
id = "shop"
title = "Our shop"
licence = "CC0-1.0"

[[source]]
id = "gauge"
kind = "invented"
note = "Made up for this test."
"""

THICKER = """
[[correction]]
of = "fells:bar/short-standard"
figure = "diameter"
is = "23.55 mm"
source = "gauge"
why = "Measured."
"""

DAMPER = """
[[damper]]
id = "used"
title = "Used damper"
source = "gauge"
open_length = "674 mm"
closed_length = "480 mm"
"""


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    """Two jobs, of which the correction touches one; a third cannot be read."""
    folder = tmp_path / "jobs"
    folder.mkdir()
    for name, vehicle, bar, customer in (
        ("mill", "fells:chassis/short", "fells:bar/short-standard", "Kirk\\u001bstone Mill"),
        ("farm", "fells:chassis/short", "fells:bar/short-firm", "Low Farm"),
    ):
        text = JOB.format(vehicle=vehicle, bar=bar, customer=customer)
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    (folder / "torn.toml").write_text("vehicle =", encoding="utf-8")
    return folder


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """An overlay that changes nothing yet."""
    folder = tmp_path / "shop"
    folder.mkdir()
    (folder / "pack.toml").write_text(HEADER, encoding="utf-8")
    return folder


def night(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *arguments: object
) -> tuple[int, list[str]]:
    """The exit code of a night, and its report."""
    monkeypatch.setattr(sys, "argv", ["recheck.py", *map(str, arguments)])
    code = recheck.main()
    return code, capsys.readouterr().out.splitlines()


def test_a_night_tells_whose_answer_other_packs_change(
    jobs: Path, shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def tonight(*options: str) -> tuple[int, list[str]]:
        return night(monkeypatch, capsys, jobs, "--overlay", shop, *options)

    kept = (0, ["3 job(s) are kept with their answers."])
    assert tonight() == kept
    assert tonight() == kept

    (shop / "bars.toml").write_text(THICKER, encoding="utf-8")
    code, report = tonight()
    assert code == 1
    assert report[0].startswith("P501: barwright.lock: shop: got 'content ")
    assert report[1:3] == ["mill.toml, for Kirk\ufffdstone Mill:", "  front left"]
    was, now = (line.split(": ", 2) for line in report[3:])
    assert (was[0].strip(), now[0].strip()) == ("was", "is")
    assert was[1:] != now[1:]
    checked = bw.check_job(jobs / "mill.toml", bw.Registry.discover(overlays=[shop]))
    assert now[2] == checked.corners[0].headline
    assert tonight() == (code, report)  # until somebody has read it

    assert tonight("--accept") == kept
    (shop / "bars.toml").write_text(f"{THICKER}# as before\n", encoding="utf-8")
    code, report = tonight()
    assert (code, report[-1]) == (0, "The answers of 3 job(s) are the same.")


def test_a_part_that_is_gone_is_told_to_its_customer(
    jobs: Path, shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "dampers.toml").write_text(DAMPER, encoding="utf-8")
    with (jobs / "farm.toml").open("a", encoding="utf-8") as job:
        job.write('parts.damper = "shop:damper/used"\n')
    assert night(monkeypatch, capsys, jobs, "--overlay", shop)[0] == 0

    (shop / "dampers.toml").unlink()
    code, report = night(monkeypatch, capsys, jobs, "--overlay", shop)
    assert code == 1
    assert report[1:3] == ["farm.toml, for Low Farm:", "  front left"]
    assert report[4:6] == ["    is:  no answer", "  the file"]
    assert "shop:damper/used" in report[-1]


def test_an_overlay_that_cannot_be_read_is_told_and_nothing_is_kept(
    jobs: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    code, report = night(monkeypatch, capsys, jobs, "--overlay", jobs / "none")
    assert code == 1
    assert "F101" in report[0]
    assert [line for line in report if line.startswith("    was: ")] == ["    was: no answer"] * 3
    assert not (jobs / "barwright.lock").exists()


def test_answers_that_cannot_be_read_end_the_night_with_what_to_do(tmp_path: Path) -> None:
    store = tmp_path / "answers.json"
    assert recheck.kept(store) == {}
    store.write_text('{"a": ', encoding="utf-8")

    with pytest.raises(SystemExit, match=r"answers\.json: cannot be read .*--accept"):
        recheck.kept(store)
