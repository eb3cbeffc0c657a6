"""Tests of the command `barwright`: what it prints, where, and with which exit code."""

from __future__ import annotations

import gc
import importlib
import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click
import pint
import pytest
from pint.registry import LazyRegistry

import barwright as bw
from aftermarket_packs import FITS, aftermarket_pack
from barwright import cli
from barwright.cli import command
from barwright.cli import jobs as asking
from barwright.cli.command import run
from barwright.registry.discovery.entry_points import LocatedPack
from sample_packs import GOOD_PACK, SPECIMENS, changed_pack, discovered_once

JOBS = SPECIMENS / "jobs"
LEAST = str(JOBS / "least.toml")
OUT_OF_REACH = str(JOBS / "out-of-reach.toml")
BAD = sorted((JOBS / "bad").glob("*.toml"))
QUESTIONS = ["fit", "nut", "rates", "reindex", "strength", "tolerance"]
PACKS = ["explain", "lint", "new-pack", "schema"]
ALL = [
    *(
        "batch",
        "calibrate",
        "chart",
        "check",
        "choose",
        "compare",
        "completion",
        "balance",
        "diagnose",
        "family",
        "identify",
        "spline",
        "import-table",
        "lock",
        "matrix",
        "needs",
        "packs",
        "parts",
        "rate",
        "sheet",
        "trail",
        "vehicles",
        "working",
    ),
    *PACKS,
    *QUESTIONS,
]


@pytest.fixture
def printed(capsys: pytest.CaptureFixture[str]) -> Any:
    """A function that runs the command: exit code, standard output, standard error."""

    def execute(*arguments: str) -> tuple[int, str, str]:
        code = run(list(arguments))
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return execute


def registry_of(monkeypatch: pytest.MonkeyPatch, *folders: Path) -> None:
    """Let the command find the packs in some folders."""
    registry = bw.Registry.from_folders(*folders)
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


def fells() -> Path:
    """Folder of the demo pack."""
    return next(pack.folder for pack in bw.Registry.discover().packs if pack.id == "fells")


# -- Answers -----------------------------------------------------------------------------


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_is_answered_for_each_corner_as_text(question: str, printed: Any) -> None:
    code, out, err = printed(question, LEAST)

    assert (code, err) == (0, "")
    assert out.startswith("Front left and right: ")
    assert "\nFells carrier, short wheelbase\n" in out
    assert all(line == line.rstrip() for line in out.splitlines())
    assert "\x1b" not in out


ANSWERS: dict[str, Callable[[bw.Setup], object]] = {
    "fit": bw.length_fit,
    "nut": lambda setup: bw.nut_table(bw.carry_out(setup, bw.reindex(setup).preferred)),
    "rates": lambda setup: bw.rates(setup, wanted=bw.Wanted()),
    "reindex": lambda setup: bw.reindex(setup, wanted=bw.Wanted()),
    "strength": lambda setup: bw.strength(setup, wanted=bw.Wanted()),
    "tolerance": lambda setup: bw.tolerance(lambda s: bw.rates(s, wanted=bw.Wanted()), setup),
}


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_is_answered_as_json_that_reads_back(question: str, printed: Any) -> None:
    code, out, err = printed(question, LEAST, "--json")

    assert (code, err) == (0, "")
    answers = json.loads(out)["answers"]
    assert [answer["corner"] for answer in answers] == ["front left", "front right"]
    for answer in answers:
        setup = bw.Registry.discover().setup(answer["vehicle"], corner=answer["corner"])
        read = bw.from_json(json.dumps(answer["answer"]))
        assert read == ANSWERS[question](setup)


def test_a_sheet_is_printed_as_text_and_as_json(printed: Any) -> None:
    code, out, err = printed("sheet", LEAST)
    assert (code, err) == (0, "")
    assert out.startswith("Front left and right: remove no tooth")

    code, out, err = printed("sheet", LEAST, "--json")
    assert (code, err) == (0, "")
    sheet = bw.from_json(out)
    job = bw.load_job(LEAST, bw.Registry.discover())
    assert sheet == bw.bench_sheet(job)


def test_vehicles_are_listed(printed: Any) -> None:
    ids = [chassis.id for chassis in bw.Registry.discover().vehicles()]

    code, out, err = printed("vehicles")
    assert (code, err) == (0, "")
    assert all(name in out for name in ids)

    code, out, err = printed("vehicles", "--json")
    assert (code, err) == (0, "")
    read = [bw.from_json(json.dumps(table)) for table in json.loads(out)["vehicles"]]
    assert read == list(bw.Registry.discover().vehicles())


@pytest.mark.parametrize(
    ("words", "names"),
    [
        (["FELLS", "van"], ["long", "middle", "short"]),
        (["flv-21", "2014"], ["middle", "short"]),
        (["flv-21 2014-06"], ["middle"]),
        (["fells:chassis/short"], ["short"]),
        (["heavy-duty"], ["long"]),
        (["shor"], []),
        (["***"], []),
    ],
)
def test_vehicles_are_listed_by_words(words: list[str], names: list[str], printed: Any) -> None:
    code, out, _ = printed("vehicles", *words, "--json")

    assert code == (0 if names else 1)
    ids = [table["id"] for table in json.loads(out)["vehicles"]]
    assert ids == [f"fells:chassis/{name}" for name in names]


@pytest.mark.parametrize(
    ("words", "remedy"),
    [
        (["fells", "shrot"], "did you mean 'short'?"),
        (["short", "2016"], "leave out 'short' or '2016'"),
        (["fells:chassis/shrt"], "did you mean 'fells:chassis/short'?"),
    ],
)
def test_why_no_vehicle_is_found_is_told(words: list[str], remedy: str, printed: Any) -> None:
    code, out, err = printed("vehicles", *words)

    assert (code, out) == (1, "")
    assert err.startswith(f"nothing found: {remedy}")


def test_one_vehicle_is_found_or_refused(printed: Any) -> None:
    code, out, err = printed("vehicles", "--one", "fells", "short", "2014")
    assert (code, err) == (0, "")
    assert "fells:chassis/short" in out

    code, out, err = printed("vehicles", "--one", "fells")
    assert (code, out) == (2, "")
    assert err.startswith("error L104: got 'fells', expected one vehicle, but 3 match")

    code, out, _ = printed("vehicles", "--one", "fels", "--json")
    assert code == 2
    assert [problem["code"] for problem in json.loads(out)["problems"]] == ["L101"]

    code, out, err = printed("vehicles", "--one")
    assert (code, out) == (2, "")
    assert "error L101" in err


def test_parts_are_listed_by_words_and_kind(printed: Any) -> None:
    registry = bw.Registry.discover()

    code, out, _ = printed("parts", "short", "--kind", "bar", "--json")
    assert code == 0
    read = [bw.from_json(json.dumps(table)) for table in json.loads(out)["parts"]]
    assert read == [
        part
        for part in registry.parts()
        if isinstance(part, bw.parts.Bar) and "short" in f"{part.id} {part.title}".lower()
    ]

    code, out, _ = printed("parts")
    assert code == 0
    assert all(part.id in out for part in registry.parts())


def test_parts_that_are_offered_for_a_vehicle_are_listed_with_what_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    both = FITS + FITS.replace('as = "fits"', 'as = "fits with changes"').replace("one", "other")
    registry_of(monkeypatch, aftermarket_pack(tmp_path, both), GOOD_PACK)

    code, out, _ = printed("parts", "--for", "chassis/one")
    assert code == 0
    assert "1 part." in out
    assert "said to fit" in out
    assert "tiny:chassis/other with changes" in " ".join(out.split())
    assert "tiny:bar/one" not in out

    code, out, _ = printed("parts", "--for", "tiny:chassis/one", "--json")
    found = json.loads(out)
    assert [part["id"] for part in found["parts"]] == ["extra:bar/two"]
    assert [claim["on"] for claim in found["claims"]] == [
        ["tiny:chassis/one"],
        ["tiny:chassis/other"],
    ]

    code, out, _ = printed("parts", "--kind", "bar")
    assert "said to fit" in out


def test_a_vehicle_for_which_nothing_is_offered_is_an_answer_that_is_no(
    monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    registry_of(monkeypatch, GOOD_PACK)

    assert printed("parts", "--for", "chassis/one") == (
        1,
        "",
        "no installed pack says that its parts fit chassis/one\n",
    )
    code, _, err = printed("parts", "--for", "chassis/two")
    assert code == 2
    assert "L101" in err


def test_nothing_that_is_found_is_an_answer_that_is_no(printed: Any) -> None:
    assert printed("parts", "no such words")[0] == 1


@pytest.mark.parametrize(
    ("words", "remedy"),
    [
        (["golden"], "leave 'golden' out"),
        (["Bar", "shrt"], "did you mean 'short'?"),
        (["firm", "soft"], "leave out 'firm' or 'soft'"),
        (["firm", "soft", "short"], "leave out 'firm' or 'soft'"),
        (["firm", "soft", "stiff-tube"], "leave 'stiff-tube' out"),
        (["arm", "tube", "damper"], "use fewer words"),
    ],
)
def test_why_no_part_is_found_is_told(words: list[str], remedy: str, printed: Any) -> None:
    code, out, err = printed("parts", *words)

    assert (code, out) == (1, "")
    assert err == f"nothing found: {remedy}\n"


def test_a_kind_without_parts_needs_no_reason(
    monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    registry_of(monkeypatch, GOOD_PACK)

    code, _, err = printed("parts", "--kind", "fixed-socket")

    assert (code, err) == (1, "")


@pytest.mark.parametrize("listing", ["vehicles", "parts"])
def test_a_listing_says_which_packs_hold_invented_figures(
    listing: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    assert printed(listing, "long")[1].splitlines()[1] == (
        "Packs with invented figures: fells, hodmule"
    )
    registry_of(monkeypatch, GOOD_PACK)
    assert printed(listing)[1].splitlines()[1] == "Packs with invented figures: tiny"
    registry_of(monkeypatch, changed_pack(tmp_path, "pack.toml", '"invented"', '"measured"'))
    assert "invented figures" not in printed(listing)[1]


@pytest.mark.parametrize("question", ["rates", "reindex", "sheet", "strength", "tolerance"])
@pytest.mark.parametrize("form", [[], ["--json"]])
def test_an_answer_that_is_no_has_exit_code_1(question: str, form: list[str], printed: Any) -> None:
    code, out, err = printed(question, OUT_OF_REACH, *form)

    assert (code, err) == (1, "")
    assert "cannot be reached" in out.lower()


def test_units_of_the_output_can_be_chosen(printed: Any) -> None:
    _, metric, _ = printed("rates", LEAST)
    _, inch, _ = printed("rates", LEAST, "--units", "inch")

    assert "N/mm" in metric
    assert "N/mm" not in inch
    assert "lbf/in" in inch


SEVERAL = '["fells:bar/short-firm", "fells:bar/short-soft"]'


def several(tmp_path: Path) -> str:
    """A job that names two bars."""
    path = tmp_path / "several.toml"
    text = Path(LEAST).read_text(encoding="utf-8")
    path.write_text(f"{text}\n[parts]\nbar = {SEVERAL}\n", encoding="utf-8")
    return str(path)


@pytest.mark.parametrize("question", QUESTIONS)
def test_several_variants_are_a_row_each(question: str, tmp_path: Path, printed: Any) -> None:
    code, out, err = printed(question, several(tmp_path))

    assert (code, err) == (0, "")
    for bar in ("firm", "soft"):
        for side in ("left", "right"):
            rows = [line for line in out.splitlines() if f"short-{bar}, front {side}" in line]
            assert len(rows) == 1


def test_one_variant_only_where_a_command_takes_one(tmp_path: Path, printed: Any) -> None:
    code, out, err = printed("sheet", several(tmp_path))

    assert (code, out) == (2, "")
    assert err.startswith("error J102")
    assert "write a separate job for each" in err


def test_parts_that_would_make_a_bar_fit_are_searched(tmp_path: Path, printed: Any) -> None:
    path = tmp_path / "long.toml"
    text = Path(LEAST).read_text(encoding="utf-8")
    path.write_text(f'{text}\n[parts]\nbar = "fells:bar/middle-firm"\n', encoding="utf-8")

    assert printed("fit", str(path))[0] == 1
    code, out, _ = printed("fit", str(path), "--donors", "--json")
    answers = [bw.from_json(json.dumps(a["answer"])) for a in json.loads(out)["answers"]]
    assert code == 1
    assert {type(answer) for answer in answers} == {bw.answers.Donors}
    assert printed("fit", str(path), "--donors")[1]


LIMITS = ["--ultimate-shear", "1005 MPa", "--endurance", "300 MPa", "--shear-yield", "110 ksi"]


def test_strength_is_asked_with_limits_travel_and_a_history(tmp_path: Path, printed: Any) -> None:
    road = tmp_path / "road.txt"
    road.write_text("0 mm\n45 mm # a hole\n\n-30 mm\n", encoding="utf-8")
    line = ["--woehler-line", "400 MPa", "1e6", "5"]
    asked = ["--travel", "40 mm", "--history", str(road), "--permissible-shear", "900 MPa"]

    code, out, err = printed("strength", LEAST, *asked, *LIMITS, *line, "--json")

    assert (code, err) == (0, "")
    reported = json.loads(out)["answers"][0]
    setup = bw.Registry.discover().setup(reported["vehicle"], corner=reported["corner"])
    limits = {
        name: bw.answers.StressLimit(stress=stress, source="the command line")
        for name, stress in {
            "permissible_shear": "900 MPa",
            "ultimate_shear": "1005 MPa",
            "endurance": "300 MPa",
            "shear_yield": "110 ksi",
        }.items()
    }
    woehler = bw.WoehlerLine(
        at_stress="400 MPa", at_life=1e6, exponent=5.0, source="the command line"
    )
    wanted = bw.strength(
        setup,
        limits=bw.StrengthLimits(**limits, woehler_line=woehler),  # type: ignore[arg-type]
        travel="40 mm",
        history=["0 mm", "45 mm", "-30 mm"],
        wanted=bw.Wanted(),
    )
    assert bw.from_json(json.dumps(reported["answer"])) == bw.in_units(wanted, "metric")


@pytest.mark.parametrize(
    ("options", "asked"),
    [
        (
            ["--history", "usual", "--surface", "ground"],
            {"limits": bw.StrengthLimits(surface=bw.BarSurface.GROUND)},
        ),
        (
            ["--history", "usual", "--woehler-band", "300 MPa", "400 MPa", "1e6", "5"],
            {
                "limits": bw.StrengthLimits(
                    woehler_band=bw.WoehlerBand(
                        lowest=bw.WoehlerLine(
                            at_stress="300 MPa", at_life=1e6, exponent=5, source="the command line"
                        ),
                        highest=bw.WoehlerLine(
                            at_stress="400 MPa", at_life=1e6, exponent=5, source="the command line"
                        ),
                    )
                )
            },
        ),
    ],
)
def test_a_usual_road_and_a_band_of_lives_are_asked_for_by_name(
    options: list[str], asked: dict[str, Any], printed: Any
) -> None:
    _, out, _ = printed("strength", LEAST, *options, "--json")
    reported = json.loads(out)["answers"][0]
    setup = bw.Registry.discover().setup(reported["vehicle"], corner=reported["corner"])
    wanted = bw.strength(setup, history=bw.usual_travel(), wanted=bw.Wanted(), **asked)
    assert bw.from_json(json.dumps(reported["answer"])) == wanted


def test_a_history_of_a_file_may_say_what_it_covers(tmp_path: Path, printed: Any) -> None:
    road = tmp_path / "road.txt"
    road.write_text("0 mm\n45 mm\n-30 mm\n", encoding="utf-8")
    asked = ["--history", str(road), "--history-covers", "12 km", "--json"]
    _, out, _ = printed("strength", LEAST, *asked)
    answer = bw.from_json(json.dumps(json.loads(out)["answers"][0]["answer"]))
    assert answer.life.covers == bw.Quantity(12.0, "km")


def test_a_share_of_the_tensile_strength_needs_a_steel_whose_strength_is_known(
    printed: Any,
) -> None:
    _, out, _ = printed("strength", LEAST, "--travel", "40 mm", "--shear-ratio", "0.67", "--json")
    reported = json.loads(out)["answers"][0]
    setup = bw.Registry.discover().setup(reported["vehicle"], corner=reported["corner"])
    assert bw.from_json(json.dumps(reported["answer"])) == bw.strength(
        setup, limits=bw.StrengthLimits(shear_ratio=0.67), travel="40 mm", wanted=bw.Wanted()
    )


def test_a_bar_is_held_against_a_standard_by_its_name(printed: Any) -> None:
    code, out, err = printed("strength", LEAST, "--permissible-shear", "din-2091", "--json")

    assert (code, err) == (1, "")
    answer = bw.from_json(json.dumps(json.loads(out)["answers"][0]["answer"]))
    assert answer.verdict is bw.Verdict.OVERSTRESSED
    assert answer.figures.bump.limit.source.startswith("DIN 2091")


@pytest.mark.parametrize(
    ("option", "value", "reported"),
    [
        ("--travel", "40", "error Q105: --travel: got '40'"),
        ("--endurance", "300 mm", "error Q202: --endurance: got '300 mm'"),
        ("--permissible-shear", "din", "error Q104: --permissible-shear: got 'din'"),
        ("--shear-ratio", "0", "0.0 is not in the range 0.0<x<=1.0"),
        ("--history", "no-such-road.txt", "error F101: no-such-road.txt: got"),
    ],
)
def test_an_option_that_is_wrong_is_named(
    option: str, value: str, reported: str, printed: Any
) -> None:
    code, out, err = printed("strength", LEAST, option, value)

    assert (code, out) == (2, "")
    assert reported in err


def test_every_line_of_a_history_that_is_wrong_is_named(tmp_path: Path, printed: Any) -> None:
    road = tmp_path / "road.txt"
    road.write_text("0 mm\n45\n-30 kg\n", encoding="utf-8")
    code, out, err = printed("strength", LEAST, "--history", str(road))

    assert (code, out) == (2, "")
    assert [line.split(": travel")[0] for line in err.splitlines()] == [
        f"error Q105: {road}:2",
        f"error Q202: {road}:3",
        "for more: barwright explain Q105 Q202",
    ]


@pytest.mark.rare
def test_how_sure_the_rates_are_may_be_drawn(printed: Any) -> None:
    code, out, err = printed("tolerance", LEAST, "--draws", "100", "--seed", "3", "--json")

    assert (code, err) == (0, "")
    reported = json.loads(out)["answers"][0]
    setup = bw.Registry.discover().setup(reported["vehicle"], corner=reported["corner"])
    assert bw.from_json(json.dumps(reported["answer"])) == bw.tolerance(
        lambda s: bw.rates(s, wanted=bw.Wanted()), setup, draws=100, seed=3
    )


def test_a_handful_of_draws_is_refused(printed: Any) -> None:
    code, out, err = printed("tolerance", LEAST, "--draws", "5")

    assert (code, out) == (2, "")
    assert "Q302" in err
    assert err.startswith("error Q302: --draws: got '5', expected 0, or 100 to 100000 draws")


@pytest.mark.parametrize("given", [("--draws", "1000000000"), ("--draws", "100", "--seed", "-1")])
def test_draws_beyond_all_bounds_are_refused(printed: Any, given: tuple[str, ...]) -> None:
    code, out, err = printed("tolerance", LEAST, *given)

    assert (code, out) == (2, "")
    assert err.startswith(f"error Q302: {given[-2]}: got '{given[-1]}'")


def test_two_jobs_are_compared_where_they_share_a_corner(printed: Any) -> None:
    code, out, err = printed("compare", LEAST, str(JOBS / "every-key.toml"), "--json")

    assert (code, err) == (0, "")
    assert len(json.loads(out)["answers"]) == 2
    assert "Firm bar" in printed("compare", LEAST, str(JOBS / "every-key.toml"))[1]


def test_a_chart_is_drawn(tmp_path: Path, printed: Any) -> None:
    assert len(printed("chart", LEAST)[1].splitlines()) > 10

    code, out, err = printed("chart", LEAST, "--svg", str(tmp_path / "chart.svg"))
    assert (code, out, err) == (0, "", "")
    assert "<svg" in (tmp_path / "chart.svg").read_text(encoding="utf-8")
    assert printed("chart", LEAST, "--svg", str(tmp_path / "no" / "chart.svg"))[0] == 2


def test_a_bar_that_does_not_fit_is_drawn_and_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    registry_of(monkeypatch, changed_pack(tmp_path, "parts.toml", '"904 mm"', '"870 mm"'))
    job = tmp_path / "job.toml"
    text = 'vehicle = "tiny:chassis/one"\ncorners = ["front left"]\n[wanted]\nheight = "400 mm"\n'
    job.write_text(text, encoding="utf-8")

    code, out, err = printed("chart", str(job))

    assert code == 1
    assert "load at the wheel" in out
    assert err.startswith("Does not fit: ")


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_completion_script_is_printed(shell: str, printed: Any) -> None:
    code, out, err = printed("completion", shell)

    assert (code, err) == (0, "")
    assert "_BARWRIGHT_COMPLETE" in out


# -- Bad input -----------------------------------------------------------------------------


def codes_in(path: Path) -> list[str]:
    """Codes that a file says of itself."""
    lines = path.read_bytes().decode("latin-1").splitlines()
    return sorted(line.split()[2] for line in lines if line.startswith("# expect: "))


@pytest.mark.parametrize("path", BAD, ids=[path.stem for path in BAD])
def test_a_bad_job_is_told_on_standard_error(path: Path, printed: Any) -> None:
    code, out, err = printed("fit", str(path))

    assert (code, out) == (2, "")
    *lines, hint = err.splitlines()
    reported = [line.split(":")[0] for line in lines]
    assert sorted(reported) == [f"error {problem}" for problem in codes_in(path)]
    assert all(path.name in line for line in lines)
    named = hint.removeprefix("for more: barwright explain ").split()
    assert set(named) in ({*codes_in(path)}, {"CODE"})
    assert len(named) <= 8


@pytest.mark.parametrize("path", BAD, ids=[path.stem for path in BAD])
def test_a_bad_job_is_told_as_json_on_standard_output(path: Path, printed: Any) -> None:
    code, out, _ = printed("sheet", str(path), "--json")

    assert code == 2
    problems = json.loads(out)["problems"]
    assert sorted(problem["code"] for problem in problems) == codes_in(path)
    fields = {"code", "value", "expected", "remedy", "key", "file", "line"}
    assert all(set(problem) == fields for problem in problems)


@pytest.mark.parametrize("question", [*QUESTIONS, "sheet", "chart"])
def test_a_job_that_is_not_there(question: str, printed: Any) -> None:
    code, out, err = printed(question, "no-such-job.toml")

    assert (code, out) == (2, "")
    assert err.startswith("error F101: no-such-job.toml: got 'No such file or directory'")


def test_a_job_without_end(printed: Any) -> None:
    if not Path("/dev/zero").exists():
        pytest.skip("a system without such a device")

    assert printed("fit", "/dev/zero")[2].startswith("error F104")


@pytest.mark.parametrize(
    ("arguments", "reported"),
    [
        ([], "Usage: barwright"),
        (["fti", LEAST], "No such command 'fti': did you mean 'fit'?"),
        (["strngth", LEAST], "No such command 'strngth': did you mean 'strength'?"),
        (["fit"], "Missing argument 'JOB.toml'"),
        (["fit", LEAST, "more"], "unexpected extra argument"),
        (["fit", LEAST, "--jsn"], "No such option"),
        (["fit", LEAST, "--units", "cubits"], "'cubits' is not one of"),
        (["chart", LEAST, "--corner", "rear left"], "the job has no corner 'rear left'"),
        (["completion", "abacus"], "'abacus' is not one of"),
        (["parts", "--kind", "wheel"], "'wheel' is not one of"),
    ],
)
def test_a_wrong_call_says_so(arguments: list[str], reported: str, printed: Any) -> None:
    code, out, err = printed(*arguments)

    assert (code, out) == (2, "")
    assert reported in err


# -- Faults --------------------------------------------------------------------------------


def test_a_broken_pack_beside_a_good_one_is_a_warning(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 3")
    registry_of(monkeypatch, broken, fells())

    code, out, err = printed("fit", LEAST)

    assert code == 0
    assert "Front left" in out
    (line,) = err.splitlines()
    assert line.startswith(f"warning: pack {str(broken)!r} is left out: P401: pack.toml")


def test_every_problem_of_a_broken_pack_is_a_line_of_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "title", "name")
    registry_of(monkeypatch, broken, GOOD_PACK)

    code, _, err = printed("vehicles")

    assert code == 0
    assert [line.partition("left out: ")[2][:4] for line in err.splitlines()] == ["S202", "S201"]


@pytest.mark.parametrize("name", ["unknown-vehicle", "unknown-part"])
def test_an_unknown_name_is_the_fault_of_a_broken_pack(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 3")
    registry_of(monkeypatch, broken, fells())

    code, _, err = printed("fit", str(JOBS / "bad" / f"{name}.toml"))

    assert code == 3
    assert "warning: pack" in err
    assert "error L10" in err


def test_other_bad_input_is_not_the_fault_of_a_broken_pack(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 3")
    registry_of(monkeypatch, broken, fells())

    assert printed("fit", str(JOBS / "bad" / "comma.toml"))[0] == 2


def test_no_pack_that_loads_is_a_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    registry_of(monkeypatch, changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 3"))

    assert printed("vehicles")[0] == 3


@pytest.mark.parametrize("fault", [RuntimeError("so it is"), KeyError("so it is")])
@pytest.mark.parametrize("form", [[], ["--json"]])
def test_a_fault_of_the_program_is_told_without_a_traceback(
    fault: Exception, form: list[str], monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    def broken(*_: object) -> None:
        raise fault

    monkeypatch.setattr(asking, "load_jobs", broken)

    code, _, err = printed("fit", LEAST, *form)

    assert code == 3
    assert type(fault).__name__ in err


def test_too_little_memory_is_told_as_such(monkeypatch: pytest.MonkeyPatch, printed: Any) -> None:
    def broken(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr(asking, "load_jobs", broken)

    code, _, err = printed("fit", LEAST)

    assert (code, err.split(".")[0]) == (3, "barwright: too little memory is free")


def test_an_iteration_that_does_not_settle_is_a_fault(
    monkeypatch: pytest.MonkeyPatch, printed: Any
) -> None:
    def broken(*_: object) -> None:
        raise bw.NotConvergedError("N101", value="1", expected="a root", remedy="report it")

    monkeypatch.setattr(asking, "load_jobs", broken)

    code, _, err = printed("fit", LEAST)

    assert (code, err.splitlines()) == (
        3,
        [
            "error N101: got '1', expected a root; report it",
            "for more: barwright explain N101",
        ],
    )


def test_an_interrupt_ends_it_quietly(monkeypatch: pytest.MonkeyPatch, printed: Any) -> None:
    def broken(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(asking, "load_jobs", broken)

    assert printed("fit", LEAST)[0] == 130


# -- Help, version and start ------------------------------------------------------------------


def test_help_lists_every_command(printed: Any) -> None:
    code, out, err = printed("--help")

    assert (code, err) == (0, "")
    assert sorted(command._ROOM_OF) == sorted(ALL)  # noqa: SLF001
    assert all(f"\n  {name} " in out for name in ALL)
    assert "Exit codes: 0" in out


@pytest.mark.parametrize("name", ALL)
def test_every_command_has_help(name: str, printed: Any) -> None:
    code, out, err = printed(name, "--help")

    assert (code, err) == (0, "")
    assert out.startswith(f"Usage: barwright {name}")


def test_the_version_is_that_of_the_distribution(printed: Any) -> None:
    code, out, _ = printed("--version")

    assert (code, out.split()[0]) == (0, "barwright,")


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["no-such-command"]])
def test_help_loads_nothing_heavy(arguments: list[str]) -> None:
    code = (
        "import sys; from barwright.cli.command import run; "
        f"run({arguments!r}); print(*{{m.partition('.')[0] for m in sys.modules}})"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )

    loaded = set(done.stdout.splitlines()[-1].split())
    assert "click" in loaded
    assert not loaded & {"numpy", "pint", "attrs", "cattrs", "rich", "importlib_metadata"}


def test_the_console_script_ends_with_the_exit_code(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", ["barwright", "fit", "no-such-job.toml"])

    with pytest.raises(SystemExit) as caught:
        cli.main()

    assert caught.value.code == 2


def test_only_a_process_of_its_own_keeps_for_good_what_it_loads(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    call, looked_for_garbage = ["fit", "no-such-job.toml"], list[bool]()
    monkeypatch.setattr(gc, "freeze", lambda: looked_for_garbage.append(gc.isenabled()))
    monkeypatch.setattr(sys, "argv", ["barwright", *call])

    assert command.run(call) == 2
    assert looked_for_garbage == []
    assert command.run() == 2
    assert looked_for_garbage == [False]
    assert gc.isenabled()


@pytest.mark.slow
def test_the_installed_script_works_from_anywhere(tmp_path: Path) -> None:
    script = Path(sys.executable).with_name("barwright")
    done = subprocess.run(
        [script, "fit", JOBS.resolve() / "least.toml"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )

    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("call", "name", "encoding"),
    [
        (["fit"], b"\xff.toml", "utf-8"),
        (["fit", "--json"], b"\xff.toml", "utf-8"),
        (["check"], b"\xff.toml", "utf-8"),
        (["check", "--form", "json-lines"], b"\xff.toml", "utf-8"),
        (["fit", "--json"], "µ.toml".encode(), "ascii"),
    ],
)
def test_a_file_name_of_any_bytes_is_told(call: list[str], name: bytes, encoding: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from barwright.cli import main; main()", *call, name],
        capture_output=True,
        check=False,
        timeout=60,
        env={"PYTHONIOENCODING": encoding, "PATH": "", "BARWRIGHT_CACHE": "off"},
    )

    assert b"Traceback" not in done.stderr
    assert done.returncode == 2
    assert b"F101" in (done.stdout if "check" in call else done.stderr)
    if len(call) > 1:
        assert json.loads(done.stdout.decode("utf-8"))["problems"][0]["code"] == "F101"


def test_discovery_is_what_the_command_uses(monkeypatch: pytest.MonkeyPatch, printed: Any) -> None:
    monkeypatch.undo()
    found = [LocatedPack("tiny 1.0", folder=GOOD_PACK)]
    monkeypatch.setattr("barwright.registry.registry.installed_packs", lambda **_: found)

    _, out, _ = printed("vehicles", "--json")

    assert [vehicle["id"] for vehicle in json.loads(out)["vehicles"]] == ["tiny:chassis/one"]


@pytest.mark.parametrize(
    "given", [["left=2", "left=1"], ["2", "left=1"], ["=2"], ["two"], ["left="], ["9" * 9], ["٢"]]
)
def test_a_plan_is_chosen_by_number_or_by_side_and_number(given: list[str], printed: Any) -> None:
    options = [part for one in given for part in ("--plan", one)]
    code, out, err = printed("sheet", LEAST, *options)
    assert (code, out) == (2, "")
    assert "--plan takes" in err


def test_no_cut_spares_the_teeth_of_every_corner(printed: Any) -> None:
    job = "docs/examples/shorter-dampers.toml"
    code, out, _ = printed("reindex", job, "--no-cut", "--json")
    answers = [bw.from_json(json.dumps(a["answer"])) for a in json.loads(out)["answers"]]
    assert code == 1
    assert all(answer.uncut_height is not None for answer in answers)
    assert printed("sheet", job, "--no-cut")[0] == 1
    assert printed("sheet", job, "--plan", "left=2", "--plan", "right=1")[0] == 0


def test_the_package_can_be_run_as_a_module(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    # By its dotted name: a file that was once run as "__main__" is counted no more.
    monkeypatch.setattr(sys, "argv", ["barwright", "--version"])
    monkeypatch.delitem(sys.modules, "barwright.__main__", raising=False)
    with pytest.raises(SystemExit) as ended:
        importlib.import_module("barwright.__main__")

    assert not ended.value.code
    assert "version" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "is_short"), [(None, True), (["fit", LEAST], False)], ids=["process", "guest"]
)
def test_only_a_process_of_its_own_has_a_registry_of_our_units_alone(
    arguments: list[str] | None, *, is_short: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    application: Any = pint.get_application_registry()  # type: ignore[no-untyped-call]
    first = application.get()
    pint.set_application_registry(LazyRegistry())  # type: ignore[no-untyped-call]
    monkeypatch.setattr(sys, "argv", ["barwright", "fit", LEAST])
    try:
        assert run(arguments) == 0
        assert ("furlong" not in application.get()) is is_short
    finally:
        pint.set_application_registry(first)  # type: ignore[no-untyped-call]


# -- The height that stays -------------------------------------------------------------------

STAYS = """vehicle = "fells:chassis/short"
corners = ["front left"]
parts.damper = "fells:damper/no-gas"
present.nut_turns = "-8 turn"
wanted.same_height = true
"""


@pytest.mark.parametrize("question", ["chart", "rates", "reindex", "strength", "tolerance"])
def test_the_same_height_is_that_of_the_parts_that_are_on_the_car(
    question: str, printed: Any, tmp_path: Path
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(STAYS, encoding="utf-8")
    now = bw.ride(bw.load_job(job, bw.Registry.discover()).corners[0].present).height
    same = printed(question, str(job))
    job.write_text(
        STAYS.replace("same_height = true", f'height = "{now.magnitude!r} mm"'), encoding="utf-8"
    )

    assert same == printed(question, str(job))
    assert same[0] == 0


def test_jobs_are_compared_at_the_same_height(printed: Any, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(STAYS, encoding="utf-8")

    assert printed("compare", str(job), str(job))[0] == 0


def test_a_nut_beyond_its_thread_is_told_where_it_stands(printed: Any, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(STAYS.replace("-8 turn", "-80 turn"), encoding="utf-8")

    code, _, err = printed("rates", str(job))
    assert code == 2
    assert "job.toml:4: present.nut_turns: got '-80 turn'" in err


def test_no_command_is_got_by_a_name_that_none_has() -> None:
    group = command.barwright
    context = click.Context(group)

    assert group.get_command(context, "none") is None
    assert group.get_command(context, "fit") is not None
