"""The parts of a work on a cluster: the same result, and nothing lost with a worker."""

from __future__ import annotations

import importlib
import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.family.family_file import FamilyWork
from barwright.family.vehicle import family_question
from barwright.parted.run import write_parted
from parted.client_here import Client, KilledWorker, work_here
from parted.toy_work import ToyWork, numbers_in


@pytest.fixture(autouse=True)
def _here(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a client of this process pass for one of Dask, but in slow tests."""
    if "slow" not in request.keywords:
        work_here(monkeypatch)


def test_a_cluster_writes_the_same_bytes(tmp_path: Path) -> None:
    one, other = tmp_path / "one.parquet", tmp_path / "other.parquet"
    seen: list[tuple[int, int]] = []
    write_parted(ToyWork(), one, processes=1)
    client = Client()

    write_parted(ToyWork(), other, client=client, progress=lambda *counts: seen.append(counts))

    assert other.read_bytes() == one.read_bytes()
    assert seen == [(done, 5) for done in range(1, 6)]
    assert client.cancelled == 5


def test_a_worker_that_is_asked_other_work_opens_that(tmp_path: Path) -> None:
    for asked in ("squares", "cubes"):
        write_parted(ToyWork(asked=asked), tmp_path / f"{asked}.parquet", client=Client())
    assert numbers_in(tmp_path / "cubes.parquet") == list(range(10))


def test_what_a_cluster_cannot_do_is_told_and_what_is_done_is_kept(tmp_path: Path) -> None:
    output = tmp_path / "result.parquet"
    with pytest.raises(bw.ClusterError, match="KilledWorker") as caught:
        write_parted(ToyWork(), output, client=Client(KilledWorker()))
    assert caught.value.code == "C101"
    assert caught.value.exit_code == 3
    assert not output.exists()

    assert write_parted(ToyWork(), output, client=Client()).earlier == 3
    assert numbers_in(output) == list(range(10))


def test_an_error_of_the_library_comes_back_as_it_is(tmp_path: Path) -> None:
    error = bw.FileError("F101", value="x", expected="y", remedy="z")
    with pytest.raises(bw.FileError) as caught:
        write_parted(ToyWork(), tmp_path / "r.parquet", client=Client(error))
    assert caught.value is error


def test_what_is_no_client_is_refused(tmp_path: Path) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        write_parted(ToyWork(), tmp_path / "r.parquet", client="tcp://scheduler:8786")
    assert (caught.value.code, caught.value.key) == ("S203", "client")


def test_without_dask_the_extra_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(bw.MissingExtraError, match=r"barwright\[cluster\]"):
        write_parted(ToyWork(), tmp_path / "r.parquet", client=Client())


# -- On Dask -----------------------------------------------------------------------------


@pytest.fixture
def dask(tmp_path: Path) -> Iterator[Any]:
    """A cluster of two processes on this machine, each of which does one part at a time."""
    distributed: Any = importlib.import_module("distributed")

    places = {"PYTHONPATH": str(Path(__file__).parents[1])}
    with (
        distributed.LocalCluster(
            n_workers=2,
            threads_per_worker=1,
            dashboard_address=None,
            local_directory=str(tmp_path / "dask"),
            silence_logs="CRITICAL",
            env=places,
        ) as local,
        distributed.Client(local) as client,
    ):
        yield client


@pytest.mark.slow
def test_a_matrix_on_dask_is_the_matrix_of_one_process_though_a_worker_is_killed(
    dask: Any, tmp_path: Path
) -> None:
    demo, one, other = bw.Registry.demo(), tmp_path / "one.parquet", tmp_path / "other.parquet"
    question = family_question(height=None, clocking=True, pruned=False)
    work = FamilyWork(demo, question, bars="", vehicles="", at_a_time=1)
    write_parted(work, one, processes=1)

    def kill(done: int, _: int) -> None:
        if done == 2:
            os.kill(next(iter(dask.run(os.getpid).values())), signal.SIGKILL)

    written = write_parted(work, other, client=dask, progress=kill)

    assert other.read_bytes() == one.read_bytes()
    assert written.parts == len(demo.vehicles())


def die(part: int) -> None:
    """End this process as the system does with one that is out of memory."""
    if part == 1:
        os.kill(os.getpid(), signal.SIGKILL)


@pytest.mark.slow
def test_a_part_that_kills_every_worker_is_told(dask: Any, tmp_path: Path) -> None:
    output = tmp_path / "result.parquet"
    dask.cluster.scheduler.allowed_failures = 1

    with pytest.raises(bw.ClusterError, match="KilledWorker"):
        write_parted(ToyWork(before=die), output, client=dask)

    assert not output.exists()
    # What is under way on a worker when it dies has failed once too, and is done again.
    dask.cluster.scheduler.allowed_failures = 10
    assert write_parted(ToyWork(), output, client=dask).parts == 5
    assert numbers_in(output) == list(range(10))
