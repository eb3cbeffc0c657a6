"""Tests of `barwright lock`, and of `barwright check --locked`."""

from __future__ import annotations

import contextlib
import errno
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.registry.files.whole_file import write_whole
from file_faults import counted, failing, injected
from sample_packs import SPECIMENS, distribution

JOB = str(SPECIMENS / "jobs" / "least.toml")


def here() -> list[str]:
    """Ids of all packs of this environment, the standards among them, as a lock lists them."""
    ids = [pack.id for pack in bw.Registry.discover().packs]
    assert "fells" in ids
    return sorted([*ids, "standards"])


def test_what_is_locked_passes_until_something_changes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["lock"]) == 0
    listed = ", ".join(here())
    assert capsys.readouterr().out == f"barwright.lock: {len(here())} pack(s): {listed}\n"
    assert bw.read_lock(Path("barwright.lock")) == bw.lock_of(bw.Registry.discover())
    assert run(["check", "--locked", "barwright.lock", JOB]) == 0
    text = Path("barwright.lock").read_text(encoding="utf-8")
    Path("barwright.lock").write_text(text.replace('"fells"', '"fens"'), encoding="utf-8")
    capsys.readouterr()

    assert run(["check", "--locked", "barwright.lock", JOB]) == 2
    reported = capsys.readouterr()
    assert reported.out == ""
    assert [line.split(": got")[0] for line in reported.err.splitlines()] == [
        "error P501: barwright.lock: fells",
        "error P501: barwright.lock: fens",
        "for more: barwright explain P501",
    ]


def test_drift_is_told_to_programs_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lock = tmp_path / "a.lock"
    lock.write_text('schema = 1\nlibrary = "0"\npack = []\n', encoding="utf-8")

    with pytest.raises(bw.LockError) as caught:
        bw.check_lock(bw.Registry.discover(), bw.read_lock(lock))

    assert [p.key for p in caught.value.problems] == ["library", *here()]
    assert run(["check", "--locked", str(lock), JOB]) == 2
    assert capsys.readouterr().err.count("error P501") == 1 + len(here())


def test_a_lock_is_written_whole_or_not_at_all(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lock = tmp_path / "barwright.lock"
    lock.write_text("as it was", encoding="utf-8")

    assert run(["lock", "--output", str(tmp_path / "none" / "a.lock")]) == 2
    assert "F201" in capsys.readouterr().err
    assert run(["lock", "--output", str(lock)]) == 0
    assert bw.read_lock(lock).library
    assert [path.name for path in tmp_path.iterdir()] == ["barwright.lock"]


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES])
def test_a_fault_leaves_the_old_lock_or_the_new_one(tmp_path: Path, number: int) -> None:
    lock = tmp_path / "barwright.lock"

    def write() -> None:
        write_whole(lock, "new", inputs=[])

    operations = counted(tmp_path, write)
    assert operations >= 2
    for at in range(1, operations + 1):
        lock.write_text("old", encoding="utf-8")
        with injected(tmp_path, at, failing(number)), contextlib.suppress(bw.FileError):
            write()
        assert lock.read_text(encoding="utf-8") in ("old", "new")
        assert [path.name for path in tmp_path.iterdir()] == ["barwright.lock"]


def test_a_pack_that_is_left_out_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    distribution(tmp_path, "gone", "gone = gone_pack")
    monkeypatch.syspath_prepend(tmp_path)

    assert run(["lock", "--output", str(tmp_path / "a.lock")]) == 3
    assert "left out" in capsys.readouterr().err
    assert list(bw.read_lock(tmp_path / "a.lock").by_id) == here()


@pytest.mark.parametrize("form", ["json-lines", "junit", "github", "sarif"])
def test_programs_are_told_in_their_form_which_packs_differ(
    form: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lock = tmp_path / "a.lock"
    lock.write_text(f'schema = 1\nlibrary = "{bw.version.VERSION}"\npack = []\n', encoding="utf-8")

    assert run(["check", "--locked", str(lock), "--form", form, JOB]) == 2

    captured = capsys.readouterr()
    assert captured.err == ""
    for pack in here():
        assert pack in captured.out
    assert "P501" in captured.out
    assert "a.lock" in captured.out
    # Answers from other packs than those that were locked would only mislead.
    assert Path(JOB).name not in captured.out


def test_a_lock_that_cannot_be_read_is_told_in_the_same_form(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["check", "--locked", str(tmp_path / "none"), "--form", "json-lines", JOB]) == 2
    assert '"code": "F101"' in capsys.readouterr().out


def test_jobs_are_checked_in_every_form_where_the_packs_are_the_locked_ones(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lock = tmp_path / "a.lock"
    lock.write_text(bw.lock_text(bw.lock_of(bw.Registry.discover())), encoding="utf-8")

    assert run(["check", "--locked", str(lock), "--form", "json-lines", JOB]) == 0
    assert Path(JOB).name in capsys.readouterr().out
