"""The same question has the same answer, byte by byte, wherever and whenever it is asked."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

import barwright as bw

_ROOT = Path(__file__).parents[2]
_FELLS = _ROOT / "plugins" / "barwright-pack-fells" / "src" / "barwright_pack_fells"
_JOB = _ROOT / "docs/examples" / "shorter-dampers.toml"
_BROKEN = _ROOT / "tests" / "specimens" / "packs" / "poor"

# One process asks all, since starting is what takes time.
_PROGRAM = """
import sys
from barwright.cli import main

for asked in list(sys.argv[1:]):
    print("$", asked)
    sys.stdout.flush()
    try:
        sys.argv = ["barwright", *asked.split(" ")]
        main()
    except SystemExit as stopped:
        print("exit", stopped.code)
    sys.stdout.flush()
"""

_ASKED = (
    "vehicles",
    "vehicles --one fells",
    "vehicles --one felsl",
    "parts",
    f"reindex {_JOB} --json",
    f"sheet {_JOB}",
    f"check {_JOB} --form sarif",
    f"lint {_FELLS} {_BROKEN}",
    f"lint {_BROKEN} --form junit",
    "lock --output new.lock",
    f"check --locked new.lock {_JOB}",
    "schema",
    "completion bash",
)

_SURROUNDINGS = (
    {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati"},
    {"PYTHONHASHSEED": "2718281828", "LC_ALL": "C", "PYTHONUTF8": "1"},
    {"PYTHONHASHSEED": "31", "TZ": "America/St_Johns", "BARWRIGHT_CACHE": "off"},
)


def _reported(surroundings: dict[str, str], folder: Path) -> str:
    done = subprocess.run(
        [sys.executable, "-c", _PROGRAM, *_ASKED],
        env={**os.environ, **surroundings},
        cwd=folder,
        capture_output=True,
        check=True,
    )
    return f"{done.stdout.decode()}{done.stderr.decode()}"


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> str:
    """What is told where hash seed, clock and cache are as they mostly are."""
    return _reported({"PYTHONHASHSEED": "0", "TZ": "UTC"}, tmp_path_factory.mktemp("usual"))


@pytest.mark.slow
def test_everything_was_asked_and_answered(usual: str) -> None:
    assert [line for line in usual.splitlines() if line.startswith("$ ")] == [
        f"$ {asked}" for asked in _ASKED
    ]
    codes = [line.split()[1] for line in usual.splitlines() if line.startswith("exit ")]
    assert codes == ["0", "2", "2", "0", "0", "0", "0", "1", "1", "0", "0", "0", "0"]


@pytest.mark.slow
@pytest.mark.parametrize("surroundings", _SURROUNDINGS, ids=["seed", "plain", "no cache"])
def test_nothing_around_a_question_changes_its_answer(
    surroundings: dict[str, str], usual: str, tmp_path: Path
) -> None:
    assert _reported(surroundings, tmp_path) == usual


def _asked(registry: bw.Registry, start: threading.Barrier) -> list[str]:
    start.wait()
    [job] = bw.load_jobs(_JOB, registry)
    setup = job.corners[0].setup
    answers = [*bw.reindex_job(job), bw.bench_sheet(job), bw.rates(setup), bw.strength(setup)]
    return [bw.to_json(answer) for answer in answers]


@pytest.mark.rare
def test_threads_that_ask_at_once_get_the_same_answers() -> None:
    right = _asked(bw.Registry.discover(), threading.Barrier(1))
    shared, start = bw.Registry.discover(), threading.Barrier(4, timeout=60)

    with ThreadPoolExecutor(max_workers=4) as pool:
        reported = list(pool.map(lambda _: _asked(shared, start), range(4)))

    assert reported == [right] * 4
