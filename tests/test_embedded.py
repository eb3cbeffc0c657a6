"""In a host's process: nothing of the host's is changed, and answers go to its other processes."""

from __future__ import annotations

import pickle
import subprocess
import sys
from pathlib import Path

import pytest

import barwright as bw
from sample_packs import discovered_once

ROOT = Path(__file__).parents[1]
JOB = ROOT / "docs/examples/shorter-dampers.toml"

HOST = """
import decimal, gc, locale, logging, os, random, signal, sys, threading, warnings

def state():
    return {
        "handlers": logging.root.handlers[:],
        "level": logging.root.level,
        "disabled": logging.root.manager.disable,
        "filters": warnings.filters[:],
        "environment": dict(os.environ),
        "folder": os.getcwd(),
        "path": sys.path[:],
        "locale": locale.setlocale(locale.LC_ALL),
        "decimal": repr(decimal.getcontext()),
        "random": random.getstate(),
        "hooks": (sys.excepthook, sys.displayhook, threading.excepthook),
        "recursion": sys.getrecursionlimit(),
        "collector": (gc.isenabled(), gc.get_threshold()),
        "signals": [signal.getsignal(one) for one in sorted(signal.valid_signals())],
        "streams": (sys.stdout, sys.stderr, sys.stdin),
        "threads": threading.enumerate(),
    }

import attrs, cattrs, numpy, pint
numpy.random.seed(1)
pint.get_application_registry()
before, drawn, rounding = state(), repr(numpy.random.get_state()), numpy.geterr()

import barwright as bw
registry = bw.Registry.discover()
job = bw.load_job(sys.argv[1], registry=registry)
for corner in job.corners:
    for asked in (bw.length_fit, bw.rates, bw.strength, bw.nut_table):
        bw.text(asked(corner.setup))
bw.to_json(bw.reindex_job(job)[0])
bw.sheet_html(bw.bench_sheet(job))

after = state()
changed = [name for name in before if before[name] != after[name]]
changed += ["numpy"] * (repr(numpy.random.get_state()) != drawn or numpy.geterr() != rounding)
print("changed:", *changed)
"""


@pytest.mark.slow
def test_questions_change_nothing_of_the_process_that_asks() -> None:
    done = subprocess.run(
        [sys.executable, "-c", HOST, str(JOB)], capture_output=True, text=True, check=True
    )

    assert done.stderr == ""
    assert done.stdout.splitlines()[-1].strip() == "changed:"


READER = """
import pickle, sys
import barwright as bw
for found in pickle.load(sys.stdin.buffer):
    print(bw.to_json(found))
"""


@pytest.mark.slow
def test_answers_and_records_go_to_another_process_as_pickles() -> None:
    job = bw.load_job(JOB, registry=discovered_once())
    setup = job.corners[0].setup
    answers = [
        *(asked(setup) for asked in (bw.length_fit, bw.rates, bw.ride, bw.strength, bw.needs)),
        *bw.reindex_job(job),
        bw.nut_table(setup),
        bw.trail(setup),
        bw.tolerance(bw.rates, setup),
        bw.check_job(JOB, registry=discovered_once()),
        bw.bench_sheet(job),
        setup.bar,
        setup.chassis,
        job,
    ]

    done = subprocess.run(
        [sys.executable, "-c", READER], input=pickle.dumps(answers), capture_output=True, check=True
    )

    assert done.stdout.decode().splitlines() == [bw.to_json(found) for found in answers]
