"""Work in parts: a restart does what is missing, and no result is half there."""

from __future__ import annotations

import errno
import json
import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections import Counter
from pathlib import Path

import pytest

import barwright as bw
from barwright.parted.part_files import PartFiles
from barwright.parted.run import Written, write_parted
from parted.toy_work import ToyWork, numbers_in

ALL = list(range(10))


@pytest.fixture
def output(tmp_path: Path) -> Path:
    return tmp_path / "result.parquet"


def folder_of(output: Path) -> Path:
    return output.with_name("result.parquet.parts")


def stop_at(part: int) -> ToyWork:
    """A work that is interrupted at a part."""

    def interrupt(number: int) -> None:
        if number == part:
            raise KeyboardInterrupt

    return ToyWork(before=interrupt)


def interrupted(output: Path, part: int = 3) -> None:
    with pytest.raises(KeyboardInterrupt):
        write_parted(stop_at(part), output, processes=1)


def test_the_result_has_all_parts_in_order_and_leaves_nothing_beside_it(output: Path) -> None:
    seen: list[tuple[int, int]] = []

    written = write_parted(
        ToyWork(), output, processes=1, progress=lambda *counts: seen.append(counts)
    )

    assert written == Written(Counter(rows=10, even=5), parts=5, earlier=0)
    assert numbers_in(output) == ALL
    assert seen == [(done, 5) for done in range(1, 6)]
    assert list(output.parent.iterdir()) == [output]


def test_several_processes_write_the_same_bytes(
    output: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    write_parted(ToyWork(), output, processes=1)
    other = output.with_name("other.parquet")

    write_parted(ToyWork(), other, processes=2)

    assert other.read_bytes() == output.read_bytes()


def test_a_killed_process_s_parts_are_done_here(
    output: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    here = os.getpid()

    def deadly(part: int) -> None:
        if os.getpid() != here and part == 2:
            os.kill(os.getpid(), signal.SIGKILL)

    write_parted(ToyWork(before=deadly), output, processes=2)

    assert numbers_in(output) == ALL


def test_an_interrupted_work_leaves_no_result_and_goes_on_where_it_was(output: Path) -> None:
    interrupted(output)
    assert not output.exists()
    done: list[int] = []

    written = write_parted(ToyWork(before=done.append), output, processes=1)

    assert done == [3, 4]
    assert written == Written(Counter(rows=10, even=5), parts=5, earlier=3)
    assert numbers_in(output) == ALL
    assert not folder_of(output).exists()


def test_a_cut_part_is_done_again(output: Path) -> None:
    interrupted(output)
    part = folder_of(output) / "000001.parquet"
    part.write_bytes(part.read_bytes()[:-40])
    done: list[int] = []

    write_parted(ToyWork(before=done.append), output, processes=1)

    assert done == [1, 3, 4]
    assert numbers_in(output) == ALL


def test_a_part_with_damaged_rows_is_named(output: Path) -> None:
    interrupted(output)
    part = folder_of(output) / "000001.parquet"
    content = part.read_bytes()
    part.write_bytes(content[:4] + b"\xff" * 60 + content[64:])

    with pytest.raises(bw.FileError, match="a part that is damaged") as caught:
        write_parted(ToyWork(), output, processes=1)
    assert (caught.value.code, caught.value.file) == ("F101", str(part))
    assert not output.exists()

    part.unlink()
    write_parted(ToyWork(), output, processes=1)
    assert numbers_in(output) == ALL


def test_a_complete_result_is_not_made_again(output: Path) -> None:
    write_parted(ToyWork(), output, processes=1)

    again = write_parted(stop_at(0), output, processes=1)

    assert again == Written(Counter(rows=10, even=5), parts=5, earlier=5)


def test_the_result_of_another_question_is_replaced_when_the_new_one_is_complete(
    output: Path,
) -> None:
    write_parted(ToyWork(asked="cubes", number=1), output, processes=1)
    old = output.read_bytes()
    interrupted(output)
    assert output.read_bytes() == old

    write_parted(ToyWork(), output, processes=1)

    assert numbers_in(output) == ALL


@pytest.mark.parametrize(
    ("other", "says"),
    [
        (ToyWork(asked="cubes"), "parts with another asked"),
        (ToyWork(number=6), "parts with another number of parts"),
    ],
)
def test_parts_of_other_work_are_told_and_not_mixed(
    other: ToyWork, says: str, output: Path
) -> None:
    interrupted(output)
    before = sorted(folder_of(output).iterdir())

    with pytest.raises(bw.FileError, match=says) as caught:
        write_parted(other, output, processes=1)

    assert (caught.value.code, caught.value.file) == ("F203", str(folder_of(output)))
    assert sorted(folder_of(output).iterdir()) == before


@pytest.mark.parametrize("manifest", [None, "{", "[]"])
def test_parts_that_nobody_can_tell_of_are_not_used(manifest: str | None, output: Path) -> None:
    interrupted(output)
    path = folder_of(output) / "manifest.json"
    path.unlink() if manifest is None else path.write_text(manifest)

    with pytest.raises(bw.FileError, match=r"a folder without a manifest\.json"):
        write_parted(ToyWork(), output, processes=1)


def test_a_kill_before_the_first_part_leaves_nothing_in_the_way(output: Path) -> None:
    folder_of(output).mkdir()
    (folder_of(output) / ".barwright-12.part").write_text("{")

    write_parted(ToyWork(), output, processes=1)

    assert list(output.parent.iterdir()) == [output]


def test_parts_of_other_work_stay_beside_a_complete_result(output: Path) -> None:
    write_parted(ToyWork(), output, processes=1)
    folder_of(output).mkdir()
    (folder_of(output) / "manifest.json").write_text(json.dumps({"key": "another"}))

    assert write_parted(ToyWork(), output, processes=1).earlier == 5
    assert folder_of(output).exists()


def test_a_part_that_another_process_has_done_is_not_done_again(output: Path) -> None:
    done: list[int] = []
    files = PartFiles(ToyWork(before=done.append), output)
    files.begin()
    for part in (0, 0, 1, 0):
        files.do(part)
    assert done == [0, 1]


def test_a_full_disk_is_told_and_what_is_done_is_kept(
    output: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[int] = []

    def full(descriptor: int) -> None:
        synced.append(descriptor)
        if len(synced) == 4:  # after the manifest and two parts
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(bw.FileError, match="No space left on device") as caught:
            write_parted(ToyWork(), output, processes=1)
    assert caught.value.code == "F201"
    names = sorted(path.name for path in folder_of(output).iterdir())
    assert names == ["000000.parquet", "000001.parquet", "manifest.json"]

    assert write_parted(ToyWork(), output, processes=1).earlier == 2
    assert numbers_in(output) == ALL


def test_an_output_that_cannot_be_is_refused_before_any_work(tmp_path: Path) -> None:
    source = tmp_path / "source.parquet"
    source.write_bytes(b"rows")
    refused = {
        "F110": (tmp_path / "result.csv", ()),
        "F201": (tmp_path / "none" / "result.parquet", ()),
        "F202": (source, (source,)),
    }
    (tmp_path / "folder.parquet").mkdir()
    for code, (path, inputs) in [*refused.items(), ("F201", (tmp_path / "folder.parquet", ()))]:
        with pytest.raises(bw.FileError) as caught:
            write_parted(stop_at(0), path, inputs=inputs)
        assert caught.value.code == code


_SLOWLY = """
from pathlib import Path
from parted.toy_work import ToyWork
from barwright.parted.part_files import PartFiles
from barwright.parted.run import write_parted
write_parted(ToyWork(number=40, seconds=0.02), Path("result.parquet"), processes=2)
"""


@pytest.mark.slow
def test_a_kill_at_any_moment_loses_and_doubles_nothing(output: Path) -> None:
    moments = random.Random(7)  # noqa: S311 - moments, no secret
    known = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[1])}
    kills = 0
    while not output.exists():
        before = files_in(output)
        program = subprocess.Popen(
            [sys.executable, "-c", _SLOWLY], cwd=output.parent, env=known, start_new_session=True
        )
        while program.poll() is None and files_in(output) == before:
            time.sleep(0.005)
        time.sleep(moments.uniform(0.0, 0.2))
        if program.poll() is None:
            os.killpg(program.pid, signal.SIGKILL)
            kills += 1
        program.wait()

    write_parted(ToyWork(number=40, seconds=0.02), output, processes=1)
    assert kills
    assert numbers_in(output) == list(range(80))
    assert list(output.parent.iterdir()) == [output]


def files_in(output: Path) -> set[str]:
    folder = folder_of(output)
    return {path.name for path in folder.iterdir()} if folder.exists() else set()


def test_a_result_that_cannot_take_its_place_is_told(output: Path) -> None:
    def in_the_way(part: int) -> None:
        if part == 4:
            output.mkdir()

    with pytest.raises(bw.FileError) as caught:
        write_parted(ToyWork(before=in_the_way), output, processes=1)

    assert (caught.value.code, caught.value.file) == ("F201", str(output))
