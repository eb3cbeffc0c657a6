"""Tests of `barwright calibrate`: readings of a job, and what is kept of them."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from asked_once import asked_once
from barwright.analysis.corner.corner import Corner
from barwright.cli.command import run
from sample_packs import SPECIMENS

JOB = SPECIMENS / "jobs" / "weighed-four-times.toml"


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Fit the same readings once for all tests."""
    asked_once(monkeypatch, "barwright.cli.asking.measurements.calibrate", "calibrate")


@pytest.fixture
def kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """A function that calibrates a job and keeps the rate: the overlay, and what is printed."""

    def calibrated(*options: str, job: Path = JOB, code: int = 0) -> tuple[Path, str, str]:
        folder = tmp_path / "my-van"
        assert run(["calibrate", str(job), "--output", str(folder), *options]) == code
        printed = capsys.readouterr()
        return folder, printed.out, printed.err

    return calibrated


def one_side(tmp_path: Path) -> Path:
    """The job for the left corner alone."""
    text = JOB.read_text(encoding="utf-8")
    head, _, rest = text.partition("[[measured.right]]")
    other = '[present.right]\npin_distance = "161 mm"'
    tail = rest.partition("[present.left]")[2].replace(other, "")
    path = tmp_path / "left.toml"
    head = head.replace('["front left", "front right"]', '["front left"]')
    path.write_text(f"{head}[present.left]{tail}", encoding="utf-8")
    return path


def test_a_job_is_planned_with_the_rate_and_the_free_angle_that_were_measured(
    kept: Any, tmp_path: Path
) -> None:
    job = one_side(tmp_path)
    folder, out, err = kept(job=job)
    assert err == ""
    assert out.splitlines()[-2:] == [f"{folder}/corrections.toml", f"{folder}/pack.toml"]
    plain, laid = (bw.Registry.discover(overlays=some) for some in ((), (folder,)))
    before = bw.load_job(job, plain).corners[0]
    found = bw.calibrate(before.present)
    assert found.system_rate is not None
    assert found.free_angle is not None
    after = bw.load_job(job, laid).corners[0]
    rates = Corner(after.setup).torsional_rates
    assert rates is not None
    assert rates.system == pytest.approx(float(found.system_rate.m_as("N*m/rad")), rel=1e-4)
    assert Corner(after.present).free_angle == pytest.approx(
        float(found.free_angle.m_as("rad")), abs=1e-4
    )
    # Every ± of the rate is the interval that was found.
    (row,) = (row for row in bw.tolerance(bw.rates, after.present).rows if row.figure == "bar_rate")
    assert found.bar_rate_uncertainty is not None
    assert row.uncertainty is not None
    assert float(row.uncertainty.m_as("N*m/deg")) == pytest.approx(
        float(found.bar_rate_uncertainty.m_as("N*m/deg")), rel=1e-3
    )
    plan = bw.reindex(after.setup, wanted=after.wanted, present=after.present).preferred
    done = attrs.evolve(bw.carry_out(after.setup, plan), reading=None, further_readings=())
    assert plan.height.m_as("mm") == pytest.approx(385.0, abs=2.0)
    assert done.bar.measured_rate == after.setup.bar.measured_rate


def test_the_overlay_names_the_vehicle_its_readings_and_the_day(kept: Any) -> None:
    folder, *_ = kept()
    bar = bw.Registry.discover(overlays=[folder]).bar("fells:bar/short-standard")
    known = bar.about["measured_rate"]
    assert known.at == "front left, 4 readings; front right, 4 readings"
    header = (folder / "pack.toml").read_text(encoding="utf-8")
    today = f"{dt.datetime.now(tz=dt.UTC):%Y}"
    assert "measured on this vehicle, fells:chassis/short; calibrated " + today in header


def test_json_stays_json_while_files_are_written(kept: Any) -> None:
    folder, out, err = kept("--json")
    answers = [bw.from_json(json.dumps(one["answer"])) for one in json.loads(out)["answers"]]
    assert [one.verdict for one in answers] == [bw.Verdict.CALIBRATED] * 2
    assert err.splitlines() == [f"{folder}/corrections.toml", f"{folder}/pack.toml"]


def test_nothing_is_kept_of_readings_that_tell_no_rate(kept: Any) -> None:
    folder, out, err = kept(job=SPECIMENS / "jobs" / "least.toml", code=2)
    assert "J104" in err
    assert out == ""
    assert not folder.exists()


def test_a_folder_that_is_there_is_not_replaced(kept: Any) -> None:
    folder, *_ = kept()
    written = (folder / "pack.toml").read_bytes()
    _, out, err = kept(code=2)
    assert "F201" in err
    assert out == ""
    assert (folder / "pack.toml").read_bytes() == written


def test_variants_of_a_job_are_written_once(kept: Any, tmp_path: Path) -> None:
    text = JOB.read_text(encoding="utf-8")
    bars = '[parts]\nbar = ["fells:bar/short-standard", "fells:bar/short-firm"]\n\n[wanted]'
    path = tmp_path / "two.toml"
    path.write_text(text.replace("[wanted]", bars), encoding="utf-8")
    folder, out, _ = kept(job=path)
    assert out.count("calibrated") >= 4
    assert (folder / "corrections.toml").read_text(encoding="utf-8").count("[[correction]]") == 1
