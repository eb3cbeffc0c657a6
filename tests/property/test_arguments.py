"""Whatever a public function is given, only errors of the library's own tree come back."""

from __future__ import annotations

import atexit
import functools
import inspect
import shutil
import tempfile
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import attrs
import numpy as np
import pyarrow as pa
import pytest
from pyarrow import parquet

import barwright as bw
from barwright.parts.common import arguments
from barwright.parts.common.arguments import checks_arguments
from each_case import each_case
from printed_pages import demo_sheet
from sample_packs import GOOD_PACK, SPECIMENS, discovered_once
from sample_records import make_bar, make_setup, tube_of
from weighed_vans import fronts, van

JOB = SPECIMENS / "jobs" / "least.toml"
SETUP = make_setup()
WORKING = bw.working(SETUP, asked="fit")

# What is asked to write does so here, again and again.
OUTPUT = Path(tempfile.mkdtemp()) / "family.parquet"
atexit.register(shutil.rmtree, OUTPUT.parent)


def loads() -> Path:
    """A file of two loads."""
    path = OUTPUT.with_name("loads.parquet")
    parquet.write_table(pa.table({"load.mass [kg]": [280.0, 291.0]}), path)
    return path


def lock() -> bw.answers.Lock:
    return bw.lock_of(discovered_once())


SHEET = {"vehicle": "A van", "order": bw.WorkOrder(), "rests_on": "", "paper": "a4"}


@functools.cache
def good_of_all() -> dict[str, dict[str, Any]]:
    """Arguments that each public function takes, by its name."""
    registry = discovered_once()
    files = {"path": JOB, "registry": registry}
    figures = bw.rates(SETUP).figures
    assert figures is not None
    chart = bw.family_chart(registry, "fells short", bars="short-firm", processes=1)
    return {
        "answer_schema": {},
        "bar_rate": {"bar": SETUP.bar, "tube": tube_of(SETUP), "torque": "500 N*m"},
        "batch": {
            "setup": SETUP,
            "table": {"load.mass [kg]": [291.0]},
            "asked": "strength",
            "limits": bw.StrengthLimits(permissible_shear="700 MPa"),
            "travel": "40 mm",
            "history": ["0 mm", "12 mm", "-8 mm"],
        },
        "batch_file": {
            "setup": SETUP,
            "path": JOB.with_name("none.csv"),
            "output": JOB.with_name("none.parquet"),
            "asked": "rates",
            "keep": [],
            "system": "metric",
            "progress": None,
            "limits": None,
            "travel": None,
            "history": None,
        },
        "batch_jobs": {
            "paths": [JOB],
            "registry": registry,
            "asked": "fit",
            "system": "inch",
            "progress": None,
            "limits": None,
            "travel": None,
            "history": None,
        },
        "batch_vehicles": {
            "registry": registry,
            "words": "short",
            "asked": "fit",
            "system": "inch",
            "progress": None,
            "limits": None,
            "travel": None,
            "history": None,
        },
        "batch_table": {
            "setup": SETUP,
            "table": pa.table({"load.mass [kg]": [291.0], "id": ["a"]}),
            "asked": "rates",
            "keep": ["id"],
            "system": "metric",
            "limits": None,
            "travel": None,
            "history": None,
        },
        "bench_sheet": {"job": bw.load_job(JOB, registry), "plan": 1, "system": "metric"},
        "check_job": files
        | {"require_strength": False, "require_no_cuts": False, "max_stress": "900 MPa"},
        "check_jobs": {
            "paths": [JOB],
            "registry": registry,
            "require_strength": False,
            "require_no_cuts": False,
            "max_stress": "900 MPa",
            "processes": 1,
        },
        "choose": {
            "setup": SETUP,
            "goal": bw.Goal(rate_change=10.0),
            "parts": [SETUP.bar],
            "wanted": None,
            "most_miss": 10.0,
            "with_dampers": False,
        },
        "compare": {"setup": SETUP, "other": SETUP, "wanted": None, "other_wanted": None},
        "balance": {
            "setups": fronts(),
            "vehicle": van(),
            "wanted": [bw.Wanted(height="395 mm")] * 2,
            "aim": None,
        },
        "balance_html": {"answer": bw.balance(fronts(), vehicle=van())} | SHEET,
        "balance_pdf": {"answer": bw.balance(fronts(), vehicle=van())} | SHEET,
        "diagnose": {
            "setups": [attrs.evolve(SETUP, reading=bw.parts.measured(SETUP, height="390 mm"))],
            "registry": registry,
            "wanted": [bw.Wanted()],
        },
        "din_2091": {"bar": SETUP.bar},
        "donors": {"setup": SETUP, "parts": [SETUP.arm]},
        "carry_out": {"setup": SETUP, "plan": bw.reindex(SETUP).plans[0], "clear_keys": False},
        "family_chart": {
            "registry": registry,
            "vehicles": "fells short",
            "bars": "short-firm",
            "height": "395 mm",
            "axle": None,
            "unchanged": False,
            "least_change": None,
            "most_change": None,
            "sort": "rate",
            "descending": False,
            "group": "wheelbase",
            "processes": 1,
            "progress": None,
        },
        "family_csv": {"chart": chart},
        "family_html": {"chart": chart, "rests_on": ""},
        "family_pdf": {"chart": chart, "rests_on": "", "paper": "a4"},
        "family_svg": {"chart": chart},
        "family_matrix": {
            "registry": registry,
            "bars": "short-firm",
            "vehicles": "fells short",
            "height": "395 mm",
            "clocking": False,
            "pruned": False,
            "processes": 1,
            "progress": None,
        },
        "write_batch": {
            "setup": SETUP,
            "source": loads(),
            "output": OUTPUT.with_name("answers.parquet"),
            "asked": "fit",
            "keep": (),
            "system": "metric",
            "limits": None,
            "travel": None,
            "history": None,
            "processes": 1,
            "client": None,
            "progress": None,
        },
        "write_family_matrix": {
            "registry": registry,
            "output": OUTPUT,
            "bars": "short-firm",
            "vehicles": "fells short",
            "height": "395 mm",
            "clocking": False,
            "pruned": False,
            "processes": 1,
            "client": None,
            "progress": None,
        },
        "from_json": {"text": bw.to_json(SETUP.bar)},
        "html": {"answer": SETUP.bar},
        "identify": {"measured": bw.parts.MeasuredBar(length="904 mm"), "registry": registry},
        "identify_spline": {"measured": bw.parts.MeasuredSpline(teeth=39, major_diameter="30 mm")},
        "job_of": {"told": JOB.read_text("utf-8"), "registry": registry, "name": "job"},
        "jobs_of": {
            "told": tomllib.loads(JOB.read_text("utf-8")),
            "registry": registry,
            "name": "job",
        },
        "in_units": {"answer": SETUP.bar, "system": "inch"},
        "length_fit": {"setup": SETUP},
        "lint_pack": {"folder": GOOD_PACK, "over": None, "progress": None},
        "job_schema": {},
        "load_history": {"path": SPECIMENS / "none.txt"},
        "load_job": files,
        "load_jobs": files,
        "lock_of": {"registry": registry},
        "lock_text": {"lock": lock()},
        "markdown": {"answer": SETUP.bar},
        "nut_table": {"setup": SETUP, "measured": "400 mm", "wanted": bw.Wanted(height="410 mm")},
        "overstress": {
            "bar": SETUP.bar,
            "droop": figures.droop,
            "bump": figures.bump,
            "ride": figures.ride,
            "limits": None,
        },
        "rates": {"setup": SETUP, "wanted": None},
        "read_lock": {"path": JOB},
        "check_lock": {"registry": registry, "lock": lock(), "file": "barwright.lock"},
        "reindex": {"setup": SETUP, "wanted": None, "present": None},
        "reindex_job": {"job": bw.load_job(JOB, registry)},
        "rests_on": {"questions": ()},
        "ride": {"setup": SETUP},
        "strength": {
            "setup": SETUP,
            "limits": None,
            "travel": "40 mm",
            "history": ["0 mm", "9 mm"],
            "history_covers": "12 km",
            "wanted": None,
        },
        "usual_travel": {},
        "sheet_html": {
            "sheet": demo_sheet("firmer-bars"),
            "template": False,
            "whole_thread": False,
            "paper": "a4",
        },
        "sheet_markdown": {"sheet": demo_sheet("firmer-bars")},
        "sheet_pdf": {
            "sheet": demo_sheet("firmer-bars"),
            "template": True,
            "whole_thread": True,
            "paper": "letter",
        },
        "svg_chart": {"figures": figures, "title": "t", "note": ""},
        "text": {"answer": SETUP.bar, "width": 80},
        "to_json": {"answer": SETUP.bar, "indent": None},
        "tolerance": {
            "question": bw.length_fit,
            "setup": SETUP,
            "half_widths": {"bar.length": "1 mm"},
            "coverage_factor": 2.0,
            "draws": 0,
            "seed": 0,
            "progress": None,
        },
        "with_usual": {"record": SETUP},
        "needs": {"setup": SETUP},
        "needs_html": {
            "answers": [bw.needs(SETUP)],
            "every": False,
            "paper": "a4",
            "system": "metric",
        },
        "needs_markdown": {"answers": [bw.needs(SETUP)], "every": True, "system": "inch"},
        "needs_pdf": {
            "answers": [bw.needs(SETUP)],
            "every": False,
            "paper": "letter",
            "system": "metric",
        },
        "working_html": {"answers": [WORKING], "paper": "a4"},
        "working_pdf": {"answers": [WORKING], "paper": "letter"},
        "calibrate": {"setup": SETUP, "readings": [bw.parts.measured(SETUP, height="391 mm")]},
        "trail": {
            "setup": SETUP,
            "figure": "",
            "question": bw.length_fit,
            "source": None,
            "preferences": (),
        },
        "working": {
            "setup": SETUP,
            "asked": "rates",
            "figure": "",
            "wanted": None,
            "present": None,
            "system": "metric",
            "source": None,
        },
        "Registry.adjuster": {"name": "fells:adjuster/standard"},
        "Registry.arm": {"name": "fells:arm/standard"},
        "Registry.bar": {"name": "fells:bar/short-firm"},
        "Registry.chassis": {"name": "fells:chassis/short"},
        "Registry.claims": {"on": "fells:chassis/short", "part": ""},
        "Registry.damper": {"name": "fells:damper/short"},
        "Registry.fixed_socket": {"name": "trundlet:fixed-socket/beam"},
        "Registry.key_lever": {"name": "hodmule:key-lever/standard"},
        "Registry.material": {"name": "standards:material/51crv4"},
        "Registry.tube": {"name": "fells:tube/short"},
        "Registry.demo": {"overlays": (), "cache": True},
        "Registry.discover": {"overlays": (), "prefer": None, "cache": True, "progress": None},
        "Registry.from_folders": {
            "overlays": (),
            "prefer": None,
            "cache": False,
            "progress": None,
        },
        "Registry.ids": {"kind": "bar"},
        "Registry.offered": {"name": "fells:chassis/short"},
        "Registry.part": {"name": "fells:bar/short-firm"},
        "Registry.parts": {"words": ""},
        "Registry.shared_numbers": {},
        "Registry.resolve": {
            **dict.fromkeys(("maker", "model", "year", "built", "body", "trim", "drive")),
            "words": "fells short 2014",
            "market": None,
            "code": None,
        },
        "Registry.setup": {
            "name": "fells:chassis/short",
            "corner": "front left",
            "assume": "usual",
        },
        "Registry.source": {"name": "fells:moduli"},
        "Registry.vehicles": {"words": ""},
        "Setup.standard": {"chassis": SETUP.chassis, "axle": SETUP.axle, "side": SETUP.side},
        "Setup.with_load": {"kind": bw.parts.LoadKind.SPRUNG, "mass": "291 kg"},
        "Setup.with_reading": {"height": "391 mm", "tolerance": "2 mm"},
        "Setup.with_readings": {"readings": [bw.parts.measured(SETUP, height="391 mm")]},
        "Setup.with_parts": {
            "arm": SETUP.arm,
            "bar": SETUP.bar,
            "anchor": SETUP.anchor,
            "adjuster": SETUP.adjuster,
            "damper": SETUP.damper,
        },
        "Setup.described": {"known": {}},
    }


@functools.cache
def verbs() -> dict[str, Callable[..., Any]]:
    """All that is public and can be called: functions, and methods of registries and setups."""
    found: dict[str, Any] = {name: getattr(bw, name) for name in bw.__all__}
    functions: dict[str, Callable[..., Any]] = {
        name: verb for name, verb in found.items() if inspect.isfunction(verb)
    }
    for cls, one in ((bw.Registry, discovered_once()), (bw.Setup, SETUP)):
        for name, _ in inspect.getmembers(cls, inspect.isroutine):
            if not name.startswith("_"):
                functions[f"{cls.__name__}.{name}"] = getattr(one, name)
    return functions


class Thing:
    """Nothing that any function takes."""


WRONG: dict[str, Any] = {
    "none": None,
    "whole number": 5,
    "negative number": -1,
    "number": 1.5,
    "nan": float("nan"),
    "complex": 1j,
    "truth": True,
    "text": "imperial",
    "no text": "",
    "text with a zero": "a\0b",
    "half a letter": "\udc80",
    "bytes": b"349 mm",
    "path": Path("x.toml"),
    "list": [],
    "list of numbers": [5],
    "tuple of none": (None,),
    "table": {},
    "table of numbers": {5: 5},
    "set": {1},
    "array": np.array([1.0, 2.0]),
    "complex array with a unit": bw.QuantityArray(np.array([1j]), "mm"),
    "mass": bw.Quantity(5, "kg"),
    "class": Thing,
    "thing": Thing(),
    "function": Thing.__init__,
    "bar": make_bar(),
    "setup": SETUP,
    "wish": bw.Wanted(),
}
VERBS = sorted(verbs())


@pytest.mark.parametrize("name", VERBS)
def test_the_arguments_here_are_good(name: str) -> None:
    """Otherwise a test of wrong ones would test nothing."""
    verb, arguments = verbs()[name], good_of_all()[name]
    taken = inspect.signature(verb).parameters.values()
    assert {p.name for p in taken if p.kind is not p.VAR_POSITIONAL} == set(arguments)
    if name in {"batch_file", "load_history", "read_lock"}:
        with pytest.raises((bw.FileError, bw.LockError)):
            verb(**arguments)
    else:
        verb(**arguments)


@pytest.mark.parametrize("name", VERBS)
@each_case("wrong", WRONG)
def test_a_wrong_argument_is_refused_by_an_error_of_the_tree(name: str, wrong: str) -> None:
    verb, arguments = verbs()[name], good_of_all()[name]
    # What the caller's own function makes of a setup is the caller's matter.
    own = {"question", "source", "progress"} if callable(WRONG[wrong]) else set()
    for key in arguments.keys() - own:
        try:
            verb(**(arguments | {key: WRONG[wrong]}))
        except bw.BarwrightError as error:
            assert error.remedy  # noqa: PT017 - what is no error is an answer
    if name in {"Registry.from_folders", "rests_on"}:
        with pytest.raises(bw.BarwrightError):
            verb(5)


BW: Any = bw
"""The library, as one that no type checker looks after sees it."""


@each_case(
    "ask, code, key, says",
    [
        (
            lambda: BW.rates("id"),
            "S203",
            "setup",
            "a Setup; get one with Registry.discover().setup(id, corner='front left')",
        ),
        (
            lambda: BW.reindex(SETUP, wanted="349 mm"),
            "S203",
            "wanted",
            "a Wanted; pass Wanted(height='349 mm')",
        ),
        (lambda: BW.Registry.part(discovered_once(), 5), "S203", "name", "text; pass one"),
        (
            lambda: BW.Registry.setup(discovered_once(), "fells:chassis/short", corner=None),
            "S203",
            "corner",
            "text; pass one",
        ),
        (
            lambda: BW.in_units(SETUP.bar, "imperial"),
            "S204",
            "system",
            "'metric' or 'inch'; pass one",
        ),
        (lambda: BW.in_units(SETUP.bar, 5), "S203", "system", "'metric' or 'inch'; pass one"),
        (
            lambda: BW.in_units(5, "inch"),
            "S203",
            "answer",
            (
                "an answer, a record, a quantity or a tuple of these; "
                "pass the answer of a question, like rates(setup)"
            ),
        ),
        (
            lambda: BW.bench_sheet(BW.load_job(JOB, discovered_once()), plan="1"),
            "S203",
            "plan",
            "a whole number or a mapping; pass one",
        ),
        (
            lambda: BW.donors(SETUP, parts=[5]),
            "S203",
            "parts",
            "a list, each a Part; get them with registry.parts()",
        ),
        (
            lambda: BW.Registry.discover(overlays="folder"),
            "S203",
            "overlays",
            "a list, each text or a path; pass one",
        ),
        (lambda: BW.load_job(5, discovered_once()), "S203", "path", "text or a path; pass one"),
    ],
)
def test_a_refusal_says_what_to_pass(
    ask: Callable[[], object], code: str, key: str, says: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        ask()

    assert (caught.value.code, caught.value.key) == (code, key)
    assert f"expected {says}" in str(caught.value)


def test_what_can_be_read_but_once_is_left_for_the_question_to_read() -> None:
    assert bw.donors(SETUP, parts=(part for part in (SETUP.arm,))) == bw.donors(
        SETUP, parts=[SETUP.arm]
    )


def test_a_path_may_be_text() -> None:
    assert bw.check_job(str(JOB), discovered_once()) == bw.check_job(JOB, discovered_once())


def test_a_function_keeps_its_name_its_docstring_and_its_annotations() -> None:
    assert bw.rates.__name__ == "rates"
    assert "Answer what rates" in (bw.rates.__doc__ or "")
    assert list(inspect.signature(bw.rates).parameters) == ["setup", "wanted"]


# -- Types -----------------------------------------------------------------------------


@checks_arguments
def asked(
    *many: str, pair: tuple[int, str] = (1, ""), turns: bool = False, table: Any = None
) -> object:
    """A function with types that no public one has."""
    return many, pair, turns, table


@pytest.mark.parametrize(
    ("given", "named"),
    [
        ((), {}),
        (("a", "b"), {"pair": (5, "x")}),
        ((), {"turns": True}),
        ((), {"table": object()}),
        ((), {"pair": (np.int64(5), "x")}),
    ],
)
def test_what_fits_is_taken(given: tuple[Any, ...], named: dict[str, Any]) -> None:
    asked(*given, **named)


@pytest.mark.parametrize(
    ("given", "named", "key"),
    [
        (("a", 5), {}, "many"),
        ((), {"pair": (5,)}, "pair"),
        ((), {"pair": (True, "x")}, "pair"),
        ((), {"pair": [5, "x"]}, "pair"),
        ((), {"turns": 1}, "turns"),
    ],
)
def test_what_does_not_fit_is_refused(
    given: tuple[Any, ...], named: dict[str, Any], key: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        asked(*given, **named)

    assert (caught.value.code, caught.value.key) == ("S203", key)


def test_what_a_function_does_not_take_is_told_by_python() -> None:
    unknown: dict[str, Any] = {"colour": "red"}
    with pytest.raises(TypeError):
        asked(**unknown)


@each_case("name", arguments._REMEDIES)  # noqa: SLF001 - what it says of each
def test_what_is_advised_for_a_class_is_for_one_that_there_is(name: str) -> None:
    homes = (bw, bw.parts, bw.answers)

    assert any(name in home.__all__ for home in homes)
