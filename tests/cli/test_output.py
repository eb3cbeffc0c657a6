"""Output: files appear whole or not at all, inputs stay, and a reader may go away."""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import stat
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.cli import command, main
from barwright.cli.command import run
from barwright.cli.output import say, shown_text, text_width
from barwright.registry.authoring.scaffold import new_overlay, new_pack
from barwright.registry.files.whole_file import write_whole
from barwright.report.text.layout.tables import marked
from each_case import each_case
from rare_cases import rarely_after
from sample_packs import SPECIMENS, discovered_once

LEAST = SPECIMENS / "jobs" / "least.toml"
OUT_OF_REACH = SPECIMENS / "jobs" / "out-of-reach.toml"


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


# -- Whole or not at all -----------------------------------------------------------------


def test_a_file_takes_the_place_of_another(tmp_path: Path) -> None:
    place = tmp_path / "a.txt"
    for text in ("one", "two ±"):
        write_whole(place, text, inputs=[])
        assert place.read_text(encoding="utf-8") == text
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_a_link_stays_a_link_and_what_it_leads_to_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    link = tmp_path / "link"
    link.symlink_to("there/a.txt")
    write_whole(link, "text", inputs=[])
    assert link.is_symlink()
    assert (tmp_path / "there" / "a.txt").read_text(encoding="utf-8") == "text"
    assert [path.name for path in (tmp_path / "there").iterdir()] == ["a.txt"]


def test_a_pipe_is_written_to(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    read: list[str] = []
    reader = threading.Thread(target=lambda: read.append(pipe.read_text(encoding="utf-8")))
    reader.start()
    write_whole(pipe, "text", inputs=[])
    reader.join()
    assert read == ["text"]
    assert stat.S_ISFIFO(pipe.lstat().st_mode)


@pytest.mark.parametrize("name", [".", "folder", "none/a.txt", "a\0b"])
def test_what_cannot_be_a_file_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "folder").mkdir()
    with pytest.raises(bw.FileError) as caught:
        write_whole(tmp_path / name, "text", inputs=[])
    assert (caught.value.code, caught.value.file) == ("F201", str(tmp_path / name))
    assert [path.name for path in tmp_path.iterdir()] == ["folder"]


def test_a_folder_for_a_lock_is_bad_input(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["lock", "--output", "."]) == 2
    assert "F201" in capsys.readouterr().err


def test_what_a_killed_run_has_left_is_in_no_way(tmp_path: Path) -> None:
    """Whatever number the process has: in a container it is the same every time."""
    place = tmp_path / "a.txt"
    left = tmp_path / f".a.txt.{os.getpid()}.part"
    left.write_text("half", encoding="utf-8")
    write_whole(place, "text", inputs=[])
    assert place.read_text(encoding="utf-8") == "text"
    new_pack(tmp_path / "pack", "moor")
    (tmp_path / f".other.{os.getpid()}.part").mkdir()
    new_pack(tmp_path / "other", "moor")


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_a_writer_may_be_killed_at_any_operation() -> None:
    done = subprocess.run(
        [sys.executable, str(Path(__file__).with_name("killed.py"))],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )

    assert (done.returncode, done.stderr) == (0, "")
    assert int(done.stdout) > 10


def test_a_name_may_be_as_long_as_the_file_system_bears(tmp_path: Path) -> None:
    place = tmp_path / ("x" * 255)
    write_whole(place, "text", inputs=[])
    assert place.read_text(encoding="utf-8") == "text"


def write_a_pack(folder: Path) -> None:
    new_pack(folder / "pack", "moor")


def write_a_file(folder: Path) -> None:
    write_whole(folder / "a.txt", "text", inputs=[])


@pytest.mark.parametrize("write", [write_a_file, write_a_pack])
def test_an_interrupt_leaves_nothing(
    write: Callable[[Path], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", interrupted)
    monkeypatch.setattr(Path, "rename", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_contents_are_synced_before_the_name_is_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []
    sync, replace = os.fsync, Path.replace

    def syncing(handle: int) -> None:
        done.append(f"synced {os.fstat(handle).st_size}")
        sync(handle)

    def replacing(path: Path, target: Path) -> Path:
        done.append(f"named {target.name}")
        return replace(path, target)

    monkeypatch.setattr(os, "fsync", syncing)
    monkeypatch.setattr(Path, "replace", replacing)
    write_whole(tmp_path / "a.txt", "text", inputs=[])
    assert done == ["synced 4", "named a.txt"]


def test_two_writers_at_once_both_succeed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    both = threading.Barrier(2, timeout=60)
    sync = os.fsync

    def meeting(handle: int) -> None:
        both.wait()
        sync(handle)

    monkeypatch.setattr(os, "fsync", meeting)
    texts = ("one", "two")
    errors: list[BaseException] = []

    def write(text: str) -> None:
        try:
            write_whole(tmp_path / "a.txt", text, inputs=[])
        except BaseException as error:  # noqa: BLE001 - told below
            errors.append(error)

    threads = [threading.Thread(target=write, args=[text]) for text in texts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert errors == []
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]
    assert (tmp_path / "a.txt").read_text(encoding="utf-8") in texts


# -- Inputs stay -------------------------------------------------------------------------


def test_every_option_for_an_output_is_among_these(capsys: pytest.CaptureFixture[str]) -> None:
    """Another one needs a case below."""
    found = set()
    for name in command._ROOM_OF:  # noqa: SLF001 - all there are
        run([name, "--help"])
        reported = capsys.readouterr().out
        found |= {(name, option) for option in ("--output", "--svg") if option in reported}
    # An overlay is a folder of its own, which must not be there yet.
    assert found - FOLDERS == {(call[0], option) for call, option in CALLS}


# What is written there is a folder, which must be new.
FOLDERS = {("calibrate", "--output"), ("import-table", "--output")}

CALLS = [
    (("chart", "job.toml"), "--svg"),
    (("check", "job.toml"), "--output"),
    (("lint", "job.toml"), "--output"),
    (("lock",), "--output"),
    (("balance", "job.toml", "--form", "markdown"), "--output"),
    (("batch", "job.toml"), "--output"),
    (("matrix", "--demo"), "--output"),
    (("family", "--demo", "--form", "csv"), "--output"),
    (("schema",), "--output"),
    (("needs", "job.toml", "--form", "markdown"), "--output"),
    (("sheet", "job.toml", "--form", "markdown"), "--output"),
    (("working", "job.toml", "--form", "markdown"), "--output"),
]


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A job in the current folder, with links that lead to it."""
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "job.toml"
    path.write_bytes(LEAST.read_bytes())
    (tmp_path / "link.svg").symlink_to("job.toml")
    (tmp_path / "folder").symlink_to(".")
    return path


@pytest.mark.parametrize(
    "spelled", rarely_after(1, ["job.toml", "./job.toml", "link.svg", "folder/job.toml"])
)
@pytest.mark.parametrize(("call", "option"), CALLS)
def test_no_output_takes_the_place_of_a_job(
    call: tuple[str, ...],
    option: str,
    spelled: str,
    job: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    before = {path.name for path in job.parent.iterdir()}
    assert run([*call, option, spelled]) == 2
    out, err = capsys.readouterr()
    assert (out, err.partition(": got")[0]) == ("", f"error F202: {Path(spelled)}")
    assert job.read_bytes() == LEAST.read_bytes()
    assert {path.name for path in job.parent.iterdir()} == before


@pytest.mark.parametrize(("call", "option"), CALLS[:3])
def test_what_is_read_stays_whatever_its_name(
    call: tuple[str, ...], option: str, job: Path
) -> None:
    job.rename(job.with_name("job.txt"))
    Path("hard.svg").hardlink_to("job.txt")
    assert run([call[0], "job.txt", option, "hard.svg"]) == 2
    assert Path("hard.svg").read_bytes() == LEAST.read_bytes()


def test_the_lock_that_is_held_to_stays(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lock", "--output", "packs.lock"]) == 0
    assert run(["check", str(job), "--locked", "packs.lock", "--output", "packs.lock"]) == 2
    assert "F202" in capsys.readouterr().err
    bw.read_lock(Path("packs.lock"))


@pytest.mark.usefixtures("job")
def test_a_lock_may_be_written_anew_and_so_may_any_other_output() -> None:
    for _ in range(2):
        assert run(["lock", "--output", "packs.toml"]) == 0
        assert run(["schema", "--output", "pack.schema.json"]) == 0
        assert run(["check", "none.txt", "--output", "report.txt"]) == 2
    assert (
        Path("report.txt")
        .read_text(encoding="utf-8")
        .startswith("1 job file(s): 0 good, 0 no, 1 bad")
    )


def test_no_file_of_a_pack_is_lost(job: Path) -> None:
    pack = new_overlay(job.with_name("shop"), "shop")
    texts = [path.read_bytes() for path in pack]
    data = [path for path in pack if path.suffix == ".toml"]
    assert len(data) > 1
    for path in data:
        assert run(["check", "job.toml", "--overlay", "shop", "--output", str(path)]) == 2
        assert run(["lint", "shop", "--output", str(path)]) == 2
    assert [path.read_bytes() for path in pack] == texts


# -- Readers that go away, and no room ---------------------------------------------------


@pytest.fixture
def nobody(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Make a standard stream one that nobody reads."""
    unread = []

    def go(name: str) -> None:
        ours, theirs = os.pipe()
        os.close(ours)
        unread.append(os.fdopen(theirs, "w", encoding="utf-8"))
        monkeypatch.setattr(sys, name, unread[-1])

    yield go
    for stream in (sys.stdout, sys.stderr):
        stream.flush()
    for stream in unread:
        with contextlib.suppress(BrokenPipeError):
            stream.close()


@pytest.mark.parametrize("name", ["stdout", "stderr"])
def test_what_nobody_reads_is_no_error(name: str, nobody: Any) -> None:
    nobody(name)
    for _ in range(3):
        say("text", err=name == "stderr")


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["--help"], 0),
        (["fit", "--help"], 0),
        (["--version"], 0),
        (["sheet", str(LEAST)], 0),
        (["sheet", str(LEAST), "--json"], 0),
        (["check", str(LEAST), str(OUT_OF_REACH)], 1),
        (["check", str(LEAST), "none.toml"], 2),
        (["rates", "none.toml", "--json"], 2),
    ],
)
@pytest.mark.parametrize("colour", ["", "1"])
def test_a_reader_that_goes_away_changes_no_exit_code(
    arguments: list[str], code: int, colour: str, nobody: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FORCE_COLOR", colour)
    nobody("stdout")
    assert run(arguments) == code


def test_a_pipe_that_nobody_reads_is_no_error(tmp_path: Path) -> None:
    """A pipe as an output: its reader closes it at once."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = threading.Thread(target=lambda: pipe.open("rb").close())
    reader.start()
    write_whole(pipe, "text" * 100_000, inputs=[])
    reader.join()


def called(*arguments: object, **streams: Any) -> subprocess.CompletedProcess[bytes]:
    """Run the command in a process of its own."""
    code = "from barwright.cli import main; main()"
    call = [sys.executable, "-c", code, *map(str, arguments)]
    return subprocess.run(call, check=False, timeout=60, **streams)


@pytest.mark.slow
def test_the_process_ends_quietly_where_nobody_reads() -> None:
    ours, theirs = os.pipe()
    os.close(ours)
    done = called("check", LEAST, OUT_OF_REACH, stdout=theirs, stderr=subprocess.PIPE)
    os.close(theirs)
    assert (done.returncode, done.stderr) == (1, b"")


FULL = Path("/dev/full")


@pytest.mark.slow
@pytest.mark.parametrize("arguments", [["--help"], ["fit", LEAST, "--json"]])
def test_a_full_disk_is_bad_input(arguments: list[object]) -> None:
    with FULL.open("wb") as full:
        done = called(*arguments, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 2
    line, *_ = done.stderr.decode().splitlines()
    assert line.startswith("error F201: standard output: got 'No space left on device'")


@pytest.mark.slow
def test_there_may_be_no_room_to_say_so(monkeypatch: pytest.MonkeyPatch) -> None:
    with FULL.open("wb") as full:
        assert called("fit", "none.toml", stdout=full, stderr=full).returncode == 2
        assert called("fit", LEAST, stdout=subprocess.PIPE, stderr=full).returncode == 0
    for name in ("stdout", "stderr"):
        monkeypatch.setattr(sys, name, FULL.open("w", encoding="utf-8"))
    assert run(["fit", str(LEAST)]) == 2
    assert run(["--help"]) == 0, "all further output goes nowhere"
    sys.stdout.close()
    sys.stderr.close()


def test_help_without_room_is_bad_input(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdout", FULL.open("w", encoding="utf-8"))
    assert run(["--help"]) == 2
    assert "F201: standard output" in capsys.readouterr().err
    with contextlib.suppress(OSError):
        sys.stdout.close()


def test_a_full_device_for_an_output_is_bad_input(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", str(LEAST), "--output", str(FULL)]) == 2
    assert "F201: /dev/full: got 'No space left on device'" in capsys.readouterr().err


def test_an_interrupt_before_the_first_command_is_quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted() -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("barwright.cli.command.run", interrupted)
    with pytest.raises(SystemExit) as caught:
        main()
    assert caught.value.code == 130


# -- Width and letters ---------------------------------------------------------------------


@each_case(
    "columns, width",
    [
        *((None, 110), ("", 110), ("0", 110), ("wide", 110), ("99999", 110), ("-5", 110)),
        *(("60", 60), ("080", 80), ("10", 40), ("٣٠٠", 110)),
    ],
)
def test_a_pipe_is_as_wide_as_columns_says(
    columns: str | None, width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    if columns is not None:
        monkeypatch.setenv("COLUMNS", columns)
    assert text_width() == width
    lines = shown_text(marked("*", "word " * 60)).splitlines()
    assert width - 5 <= max(map(len, lines)) <= width


def test_a_terminal_is_as_wide_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    for found, width in ((72, 72), (7, 40)):
        size = os.terminal_size((found, 24))
        monkeypatch.setattr(shutil, "get_terminal_size", lambda *_, size=size: size)
        assert text_width() == width


@pytest.mark.parametrize(
    "arguments",
    [
        ["rates", str(LEAST)],
        ["reindex", str(LEAST), "--json"],
        ["chart", str(LEAST)],
        ["check", str(LEAST)],
        ["explain", "units"],
        ["rates", "no°where.toml"],
    ],
)
def test_plain_letters_are_sent_where_no_others_can_be_shown(
    arguments: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    streams = {}
    for name in ("stdout", "stderr"):
        streams[name] = io.TextIOWrapper(io.BytesIO(), encoding="ascii", errors="strict")
        monkeypatch.setattr(sys, name, streams[name])
    assert run(arguments) in (0, 2)
    sent = ""
    for stream in streams.values():
        stream.flush()
        sent += stream.buffer.getvalue().decode("ascii")
    assert sent
    assert "\\x" not in sent
    if "--json" in arguments:
        (answer, _) = json.loads(sent)["answers"]
        assert "±" in answer["answer"]["headline"]


def test_a_figure_in_plain_letters_stays_with_its_unit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(io.BytesIO(), encoding="latin-1"))
    monkeypatch.setenv("COLUMNS", "40")
    lines = shown_text(marked("*", "the bar stands at a height of 349 ± 7 mm")).splitlines()
    assert lines == ["   * the bar stands at a height of", "     349 +/- 7 mm"]
