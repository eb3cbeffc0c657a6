"""Tests of the index with several processes and threads at once."""

from __future__ import annotations

import contextlib
import itertools
import os
import pickle
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

import barwright as bw
from barwright.registry import open_packs as opening
from index_packs import asked, broken_pack, fresh_cache, is_indexed
from sample_packs import changed_pack


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder for one test, in which everything is worth an index."""
    monkeypatch.setattr(opening, "_WORTHWHILE", 0)
    return fresh_cache(tmp_path, monkeypatch)


@pytest.fixture
def packs(tmp_path: Path) -> tuple[Path, Path]:
    """A good pack and a broken one."""
    return changed_pack(tmp_path, "pack.toml", "", ""), broken_pack(tmp_path)


@pytest.mark.slow
def test_many_processes_may_write_at_once_while_another_deletes(
    packs: tuple[Path, Path], cache: Path
) -> None:
    program = (
        "import barwright as bw\n"
        "from barwright.registry import open_packs as opening\n"
        "from index_packs import asked, expected\n"
        "from pathlib import Path\n"
        "opening._WORTHWHILE = 0\n"
        f"packs = [Path(path) for path in {list(map(str, packs))!r}]\n"
        "right = expected(*packs)\n"
        "assert all(asked(*packs) == right for _ in range(20))\n"
    )
    path = os.pathsep.join(sys.path)
    running = [
        subprocess.Popen(
            [sys.executable, "-c", program],
            stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": path},
        )
        for _ in range(4)
    ]
    while any(process.poll() is None for process in running):
        for file in itertools.chain(cache.glob("*.index"), cache.glob("*.note")):
            file.unlink(missing_ok=True)
        time.sleep(0.02)

    assert [process.communicate()[1] for process in running] == [b""] * 4
    assert [file for file in cache.iterdir() if file.name.startswith(".new-")] == []
    asked(*packs)
    assert is_indexed(bw.Registry.from_folders(*packs))


@contextlib.contextmanager
def switching_often(pool: ThreadPoolExecutor, count: int) -> Iterator[None]:
    """Let threads take turns as often as can be, once all have started."""
    barrier = threading.Barrier(count)
    list(pool.map(lambda _: barrier.wait(), range(count)))
    interval = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    try:
        yield
    finally:
        sys.setswitchinterval(interval)


def test_eight_threads_answer_as_one(packs: tuple[Path, Path]) -> None:
    good, _ = packs
    names = ["tiny:chassis/one", "tiny:bar/one", "tiny:tube/one"]

    def answer(registry: bw.Registry) -> list[str]:
        setup = registry.setup("chassis/one", corner="front left")
        parts = [registry.part(name).id for name in names[1:]]
        return [bw.to_json(bw.length_fit(setup)), *parts, repr(registry.chassis(names[0]))]

    right = answer(bw.Registry.from_folders(good, cache=False))
    for _ in range(5):
        shared = bw.Registry.from_folders(good)
        assert is_indexed(shared)
        with ThreadPoolExecutor(max_workers=8) as pool, switching_often(pool, 8):
            reported = list(pool.map(answer, [shared] * 32))
        assert reported == [right] * 32


@pytest.mark.slow
def test_a_process_that_forks_goes_on_in_both(packs: tuple[Path, Path]) -> None:
    """As worker processes do that take over an open registry."""
    program = (
        "import os, sys\n"
        "import barwright as bw\n"
        "from barwright.registry import open_packs as opening\n"
        "opening._WORTHWHILE = 0\n"
        f"registry = bw.Registry.from_folders({str(packs[0])!r})\n"
        "registry.chassis('chassis/one')\n"
        "child = os.fork()\n"
        "wrong = registry.part('bar/one').title != 'Bar'\n"
        "if child == 0:\n"
        "    os._exit(wrong)\n"
        "sys.exit(wrong or os.waitpid(child, 0)[1])\n"
    )

    done = subprocess.run([sys.executable, "-c", program], check=False, timeout=60)

    assert done.returncode == 0


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_a_process_may_fork_while_other_threads_of_it_read(packs: tuple[Path, Path]) -> None:
    """A child that has to wait for a lock of a thread that it has not is ended by its alarm."""
    program = (
        "import os, signal, sys, threading\n"
        "import barwright as bw\n"
        "from barwright.registry import open_packs as opening\n"
        "opening._WORTHWHILE = 0\n"
        f"registry = bw.Registry.from_folders({str(packs[0])!r})\n"
        "def read():\n"
        "    while True:\n"
        "        registry.ids()\n"
        "for _ in range(4):\n"
        "    threading.Thread(target=read, daemon=True).start()\n"
        "def child():\n"
        "    signal.alarm(20)\n"
        "    os._exit(registry.part('bar/one').title != 'Bar')\n"
        "def ended():\n"
        "    number = os.fork()\n"
        "    return os.waitpid(number, 0)[1] if number else child()\n"
        "os._exit(any(ended() for _ in range(10)))\n"
    )

    done = subprocess.run([sys.executable, "-c", program], check=False, timeout=120)

    assert done.returncode == 0


def test_a_damaged_index_is_made_up_for_wherever_one_is(
    packs: tuple[Path, Path], cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    good, _ = packs
    monkeypatch.chdir(good.parent)
    registry = bw.Registry.from_folders(good.name)
    assert is_indexed(registry)
    kept = pickle.dumps(registry)
    shutil.rmtree(cache)
    monkeypatch.chdir(good)

    assert pickle.loads(kept).part("tiny:bar/one").title == "Bar"  # noqa: S301 - our own
