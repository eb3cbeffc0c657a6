"""Tests of `barwright.errors`: how errors read, and that something real raises every code."""

from __future__ import annotations

import copy
import io
import itertools
import json
import os
import pickle
import re
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

import attrs
import numpy as np
import pint
import pytest

import barwright as bw
from barwright import cli, errors
from barwright.analysis.across import check
from barwright.cli.command import barwright
from barwright.errors import CODES, BarwrightError, DocumentError, PackError, QuantityError
from barwright.family import family
from barwright.family.family_file import FamilyWork
from barwright.family.vehicle import FamilyQuestion
from barwright.mechanics.common.bar_axes import bar_plane
from barwright.mechanics.corner.statics import settle
from barwright.mechanics.linkage.arm_and_strut import Motion
from barwright.mechanics.linkage.arm_and_strut import Path as PointPath
from barwright.registry.files.document import read_toml
from barwright.registry.files.whole_file import write_whole
from barwright.registry.importing.import_table import import_table
from barwright.report.explain import explanation
from each_case import each_case
from parted.client_here import Client, KilledWorker, work_here
from sample_packs import GOOD_PACK, SPECIMENS, changed_pack, discovered_once, distribution
from sample_records import (
    double_wishbone_mounting,
    make_bar,
    make_end,
    make_parts,
    make_setup,
    strut_mounting,
)

EVERY_ERROR = [getattr(errors, name) for name in errors.__all__ if name.endswith("Error")]
BUILTINS = {
    bw.QuantityError: ValueError,
    bw.GeometryError: ValueError,
    bw.NotConvergedError: ArithmeticError,
    bw.ClusterError: RuntimeError,
    bw.FileError: OSError,
    bw.SchemaError: ValueError,
    bw.UnknownNameError: LookupError,
    bw.NeedsError: LookupError,
    bw.NoFigureError: LookupError,
    bw.JobError: ValueError,
    bw.LockError: ValueError,
    bw.TableError: ValueError,
    bw.MissingExtraError: ImportError,
    bw.DocumentError: ValueError,
    bw.PackError: ValueError,
}
FIELDS: dict[str, Any] = {
    "value": "25",
    "expected": "a length",
    "remedy": "write '25 mm'",
    "key": "diameter",
    "file": "bars.toml",
    "line": 3,
}


def made(cls: type[BarwrightError]) -> BarwrightError:
    """One error of a class."""
    if issubclass(cls, DocumentError):
        problems = (QuantityError("Q105", **FIELDS), QuantityError("Q104", **FIELDS))
        return cls("D101", problems=problems, file="job.toml")
    return cls("Q105", **FIELDS)


# -- How an error reads ----------------------------------------------------------


def test_every_error_is_also_a_builtin() -> None:
    assert set(EVERY_ERROR) == {*BUILTINS, BarwrightError}
    for cls, builtin in BUILTINS.items():
        assert issubclass(cls, BarwrightError)
        assert issubclass(cls, builtin)


@each_case(
    "cls, again",
    itertools.product(EVERY_ERROR, [lambda e: pickle.loads(pickle.dumps(e)), copy.deepcopy]),  # noqa: S301
)
def test_every_error_survives_pickling_and_copying(
    cls: type[BarwrightError], again: Callable[[BarwrightError], BarwrightError]
) -> None:
    one = made(cls)

    other = again(one)

    assert type(other) is cls
    assert (str(other), other.fields, other.exit_code) == (str(one), one.fields, one.exit_code)


def test_an_error_says_code_place_value_expectation_and_remedy() -> None:
    error = made(QuantityError)

    assert str(error) == ("Q105: bars.toml:3: diameter: got '25', expected a length; write '25 mm'")
    assert error.fields == {"code": "Q105"} | FIELDS
    assert error.where == "bars.toml:3: diameter"


@pytest.mark.parametrize(
    ("place", "where"),
    [
        ({}, ""),
        ({"key": "a"}, "a"),
        ({"file": "f"}, "f"),
        ({"file": "f", "line": 2}, "f:2"),
        ({"file": "f", "key": "a"}, "f: a"),
    ],
)
def test_a_place_is_what_is_known_of_it(place: dict[str, Any], where: str) -> None:
    error = QuantityError("Q105", value=1, expected="x", remedy="y", **place)

    assert error.where == where
    assert str(error) == f"Q105: {where}{': ' if where else ''}got '1', expected x; y"


@pytest.mark.parametrize(
    ("key", "outer", "joined"),
    [
        ("teeth", "arm_end", "arm_end.teeth"),
        ("[0].teeth", "bar", "bar[0].teeth"),
        ("teeth", "[0]", "[0].teeth"),
        ("teeth", "", "teeth"),
        ("", "arm_end", "arm_end"),
        ("", "", ""),
    ],
)
def test_within_joins_keys(key: str, outer: str, joined: str) -> None:
    error = QuantityError("Q105", value=1, expected="x", remedy="y", key=key)

    assert error.within(key=outer).key == joined
    assert error.key == key


def test_within_keeps_the_innermost_file() -> None:
    error = QuantityError("Q105", value=1, expected="x", remedy="y")

    inner = error.within(file="inner.toml")

    assert inner.file == "inner.toml"
    assert inner.within(file="outer.toml").file == "inner.toml"


@pytest.mark.parametrize("cls", [DocumentError, PackError])
def test_a_document_says_each_problem_on_a_line(cls: type[DocumentError]) -> None:
    error = made(cls)
    assert isinstance(error, DocumentError)

    assert str(error).splitlines() == [str(problem) for problem in error.problems]
    assert (error.value, error.file) == ("2 problem(s)", "job.toml")
    assert [p.code for p in pickle.loads(pickle.dumps(error)).problems] == ["Q105", "Q104"]  # noqa: S301


def test_a_document_within_another_hands_the_place_to_its_problems() -> None:
    problem = QuantityError("Q105", value=1, expected="x", remedy="y", key="a")
    outer = DocumentError("D101", problems=(problem,), file="").within(key="b", file="f.toml")

    assert (outer.problems[0].where, outer.file) == ("f.toml: b.a", "f.toml")


def test_a_fault_of_program_or_pack_has_another_exit_code_than_bad_input() -> None:
    faults = {cls for cls in EVERY_ERROR if cls.exit_code == 3}

    assert faults == {bw.ClusterError, bw.NotConvergedError, bw.PackError}
    assert {cls.exit_code for cls in EVERY_ERROR} == {1, 2, 3}
    assert [c for c in EVERY_ERROR if c.exit_code == 1] == [bw.NeedsError]


def nested(depth: int) -> list[Any]:
    """Lists in lists."""
    value: list[Any] = []
    for _ in range(depth):
        value = [value]
    return value


@pytest.mark.parametrize(
    "value",
    ["x" * 10_000, 10**10_000, -(16**5000), nested(100_000)],
    ids=["text", "int", "negative int", "list"],
)
def test_a_value_is_cut_to_what_fits_a_terminal(value: object) -> None:
    error = QuantityError("Q105", value=value, expected="x", remedy="y")

    assert 1 <= len(error.value) <= 80


@each_case(
    "field, text",
    itertools.product(
        ["value", "expected", "remedy", "key", "file"],
        ["ta\nble", "\x1b[31m", "\u202egnp", "\x9b", "\udc80"],
    ),
)
def test_nothing_that_an_error_names_can_break_the_line_or_hide(field: str, text: str) -> None:
    said: dict[str, Any] = {"value": 1, "expected": "text", "remedy": "quote it", field: text}
    shown = str(bw.SchemaError("S201", **said))
    assert shown.isprintable()
    assert text.encode("unicode_escape").decode() in shown


def test_letters_of_any_alphabet_stay_as_they_are() -> None:
    error = bw.SchemaError(
        "S201", value="Bär", expected="±1 °", remedy="ώ", key="棒", file="é.toml"
    )
    assert str(error) == "S201: é.toml: 棒: got 'Bär', expected ±1 °; ώ"


def test_a_hostile_value_cannot_break_the_line() -> None:
    error = QuantityError("Q105", value="a\nb\x1b[31m", expected="x", remedy="y")

    assert str(error) == r"Q105: got 'a\nb\x1b[31m', expected x; y"


# -- Every code is raised by something real ----------------------------------------


@attrs.frozen
class Box:
    """A folder for packs and jobs, and what a test needs to replace parts of the program."""

    folder: Path
    patch: pytest.MonkeyPatch

    def job(self, name: str) -> object:
        """Read a job that is bad on purpose."""
        return bw.load_job(SPECIMENS / "jobs" / "bad" / f"{name}.toml", discovered_once())

    def pack(self, file: str, old: str, new: str) -> bw.Registry:
        """Load the good pack with one thing changed in it."""
        folder = changed_pack(self.folder, file, old, new)
        registry = bw.Registry.from_folders(folder)
        for problem in registry.problems:
            raise problem
        return registry


class Adrift:
    """A linkage whose motion is not a number."""

    def motion(self, angle: Any) -> Motion:
        """State at an arm angle."""
        nan = np.asarray(angle) * np.nan
        point = PointPath(nan, nan, slope=nan, curvature=nan)
        return Motion(angle, point, point, nan, nan, nan, nan)

    def angle_at_damper_length(self, length: Any) -> Any:
        """Not asked for."""
        raise NotImplementedError


def import_of(box: Box, table: str) -> Any:
    """Import a table with a map that names its one column."""
    names = '[[chassis]]\nid = "{code}"\ntitle = "{code}"\naxles = []\n'
    source = '[[source]]\nid = "list"\nkind = "published"\nnote = "List of 2031."\n'
    header = 'id = "moor"\ntitle = "Moor"\nlicence = "CC0-1.0"\n'
    mapping = box.folder.with_name("map.toml")
    mapping.write_text(header + source + names, encoding="utf-8")
    file = box.folder.with_name("vans.csv")
    file.write_text(table, encoding="utf-8")
    return import_table(file, mapping, box.folder.with_name("made"))


def family_of(
    box: Box, *, killing: bool = False, beside: dict[str, str] | None = None
) -> bw.answers.FamilyFile:
    """Write a matrix on a cluster that may lose its workers, or beside the parts of another."""
    demo, output = bw.Registry.demo(), box.folder / "family.parquet"
    if beside is not None:
        folder = box.folder / "family.parquet.parts"
        folder.mkdir()
        asked = FamilyWork(demo, FamilyQuestion(), bars="", vehicles="").question
        (folder / "manifest.json").write_text(json.dumps({**asked, **beside}))
    work_here(box.patch)
    # Workers of this process, who see the same number.
    box.patch.setattr(family, "_LEAST", 1)
    client = Client(KilledWorker("out of memory") if killing else None)
    return bw.write_family_matrix(demo, output, client=client)


def console_without_click(box: Box) -> None:
    """Run the console script where click is not installed, and raise what it prints."""
    box.patch.setitem(sys.modules, "click", None)
    for name in [name for name in sys.modules if name.startswith("barwright.cli.")]:
        box.patch.delitem(sys.modules, name)
    printed = io.StringIO()
    box.patch.setattr(sys, "stderr", printed)
    with pytest.raises(SystemExit) as caught:
        cli.main()
    assert caught.value.code == 2
    code, _, text = printed.getvalue().partition(": ")
    raise bw.MissingExtraError(code, value=text, expected="what was printed", remedy="read it")


def zipped_pack(box: Box) -> None:
    """Discover a pack whose package lies in a zip file."""
    archive = box.folder / "gone-1.0.zip"
    distribution(box.folder, "gone", "gone = gone_pack")
    with zipfile.ZipFile(archive, "w") as zipped:
        for path in GOOD_PACK.iterdir():
            zipped.write(path, f"gone_pack/{path.name}")
        zipped.writestr("gone_pack/__init__.py", "")
    box.patch.syspath_prepend(box.folder)
    box.patch.syspath_prepend(archive)
    for problem in bw.Registry.discover().problems:
        raise problem


def stale_entry_point(box: Box) -> None:
    """Discover a pack whose package is gone."""
    distribution(box.folder, "gone", "gone = gone_pack")
    box.patch.syspath_prepend(box.folder)
    for problem in bw.Registry.discover().problems:
        raise problem


def two_packs_of_one_id(box: Box) -> None:
    """Load a pack and a copy that is not the same."""
    other = changed_pack(box.folder, "more.toml", "", "# More.").rename(box.folder / "copy")
    for problem in bw.Registry.from_folders(GOOD_PACK, other).problems:
        raise problem


def changed_since_it_was_locked(box: Box) -> None:
    """Lock a pack, and open it with a file more."""
    lock = bw.lock_of(bw.Registry.from_folders(GOOD_PACK))
    changed = changed_pack(box.folder, "more.toml", "", "# More.")
    bw.check_lock(bw.Registry.from_folders(changed), lock)


def too_many_variants(box: Box) -> None:
    """Read a job that names two bars as one job."""
    path = box.folder / "job.toml"
    path.write_text(
        'vehicle = "fells:chassis/short"\ncorners = ["front left"]\n'
        '[parts]\nbar = ["fells:bar/short-firm", "fells:bar/short-soft"]\n'
        "[wanted]\nkeep_standard = true\n"
    )
    bw.load_job(path, discovered_once())


def no_corner_in_common(box: Box) -> None:
    """Compare a job for the left corner with one for the right."""
    text = (SPECIMENS / "jobs" / "least.toml").read_text(encoding="utf-8")
    for side in ("left", "right"):
        corners = text.replace('"front left", "front right"', f'"front {side}"')
        (box.folder / f"{side}.toml").write_text(corners, encoding="utf-8")
    paths = [str(box.folder / f"{side}.toml") for side in ("left", "right")]
    barwright.main(args=["compare", *paths], standalone_mode=False)


def readings_without_a_rate(box: Box) -> None:
    """Keep the rate of a job with one reading of a corner."""
    text = (SPECIMENS / "jobs" / "least.toml").read_text(encoding="utf-8")
    path = box.folder / "job.toml"
    path.write_text(f'{text}\n[measured]\nheight = "401 mm"\n', encoding="utf-8")
    arguments = ["calibrate", str(path), "--output", str(box.folder / "kept")]
    barwright.main(args=arguments, standalone_mode=False)


def linked_file(box: Box) -> object:
    """Load the good pack with a link to one of its own files."""
    pack = changed_pack(box.folder, "pack.toml", "", "")
    (pack / "more.toml").symlink_to(pack / "parts.toml")
    (problem,) = bw.Registry.from_folders(pack).problems
    raise problem


def bar_axis_without_direction() -> None:
    """Ask for the rates of a corner whose bar points nowhere."""
    bw.ride(make_setup(axle={"bar_axis": (0.0, 0.0, 0.0)}))


def arm_out_of_reach() -> None:
    """Ask for the rates of a corner whose strut's top mount lies on the arm."""
    low = strut_mounting(top_up="20 mm", top_outboard="338 mm", offset="60 mm")
    bw.ride(make_setup(axle={"suspension": low}))


def fault_of_the_program(box: Box) -> object:
    """Check a job while a question is broken."""
    box.patch.setattr(check, "plans_together", lambda *_, **__: 1 / 0)
    return bw.check_job(SPECIMENS / "jobs" / "least.toml", discovered_once())


def estimated_without_range(box: Box) -> object:
    """Load the good pack with a damper's length that is estimated as if it were exact."""
    header = changed_pack(box.folder, "pack.toml", 'kind = "measured"', 'kind = "estimated"')
    parts = header / "parts.toml"
    text = parts.read_text(encoding="utf-8")
    exact, source = 'closed_length = "486 mm"', ', source = "bench"'
    assert exact in text
    estimate = exact.replace('"486 mm"', f'{{ is = "486 mm"{source} }}')
    parts.write_text(text.replace(exact, estimate), encoding="utf-8")
    (problem,) = bw.Registry.from_folders(header).problems
    raise problem


def in_another_registry(box: Box) -> bw.Quantity:
    """A figure of a program whose registry knows no unit."""
    box.patch.setattr(pint.application_registry, "_registry", pint.UnitRegistry(None))
    return make_bar().diameter


RAISERS: dict[str, Callable[[Box], object]] = {
    **{
        code: lambda box, name=name: box.job(name)  # type: ignore[misc]
        for code, name in {
            "D101": "many",
            "Q101": "comma",
            "Q102": "fraction",
            "Q103": "quotation-mark",
            "Q104": "expression",
            "Q105": "bare-text",
            "Q201": "capital-unit",
            "Q202": "other-kind",
            "Q301": "not-finite",
            "Q302": "negative",
            "Q303": "no-tolerance",
            "F102": "not-utf-8",
            "F103": "not-toml",
            "F104": "deep",
            "S201": "unknown-key",
            "S202": "nothing",
            "S203": "tooth-as-float",
            "S207": "two-wishes",
            "L101": "unknown-vehicle",
            "L102": "unknown-part",
            "L103": "unknown-corner",
            "L104": "several-vehicles",
            "J101": "other-part",
            "J105": "inline-clash",
        }.items()
    },
    "Q304": estimated_without_range,
    "Q401": lambda _: make_bar().diameter.ito("in"),
    "L105": lambda _: explanation("Q999"),
    "Q402": lambda box: in_another_registry(box).to("in"),
    "G101": lambda _: arm_out_of_reach(),
    "G102": lambda _: make_parts(make_bar(), adjuster={"thread_end": "155 mm"}),
    "G103": lambda _: make_bar(length="100 mm"),
    "G104": lambda _: make_bar(bore="30 mm"),
    "G105": lambda _: bar_axis_without_direction(),
    "G106": lambda _: make_setup(axle={"droop_stop": "20 deg"}),
    "G107": lambda _: make_bar(arm_end=make_end(39, root_diameter="40 mm")),
    "G108": lambda _: bw.ride(
        make_setup(
            axle={
                "suspension": bw.parts.SwingArmMounting(
                    mount_outboard="700 mm", mount_up="100 mm", foot_along="290 mm"
                )
            }
        )
    ),
    "G109": lambda _: make_parts(make_bar(), anchor={"lever_position": "800 mm"}),
    "G110": lambda _: bar_plane(bar_axis=(1, 0, 0), arm_direction=(0, 1, 0), arm_axis=(1, 0.1, 0)),
    "G111": lambda _: bw.ride(
        make_setup(
            axle={"suspension": double_wishbone_mounting(upper_joint=bw.parts.JointSide.INBOARD)}
        )
    ),
    "N201": lambda _: bw.rates(make_setup(bar=make_bar(length="700 mm"))).wheel_rate,
    "N301": lambda _: make_bar(diameter="unknown").diameter.magnitude,
    "N101": lambda _: settle(
        cast("Any", Adrift()), free_angle=0.0, rate=1.0, load=1.0, droop=-0.1, bump=0.1
    ),
    "F101": lambda box: read_toml(box.folder / "none.toml"),
    "F106": lambda box: box.pack("pack.toml", '"tiny"', f'"{"x" * 4097}"'),
    "F107": lambda box: box.pack("more.toml", "", "[[chassis]]\n" * 10_001),
    "F108": lambda box: box.pack("More.toml", "", ""),
    "F109": linked_file,
    "F110": lambda box: import_of(box, "code\n"),
    "F105": lambda box: bw.check_job(box.folder, discovered_once()),
    "F201": lambda box: write_whole(box.folder / "none" / "sheet.txt", "text", inputs=[]),
    "F202": lambda _: write_whole(GOOD_PACK / "pack.toml", "text", inputs=[]),
    "F203": lambda box: family_of(box, beside={"registry": "another"}),
    "S204": lambda box: box.pack("vehicles.toml", '"front"', '"frnt"'),
    "S205": lambda box: box.pack("pack.toml", '"tiny"', '"Tiny One"'),
    "S206": lambda box: box.pack("parts.toml", '"material/steel"', '"material/stel"'),
    "S208": lambda _: bw.from_json("{}"),
    "J102": too_many_variants,
    "J103": no_corner_in_common,
    "J104": readings_without_a_rate,
    "P101": lambda box: box.pack("pack.toml", "licence", "license"),
    "P201": stale_entry_point,
    "P202": zipped_pack,
    "P301": two_packs_of_one_id,
    "P401": lambda box: box.pack("pack.toml", "schema = 2", "schema = 3"),
    "P402": lambda box: box.pack(
        "pack.toml", 'licence = "CC0-1.0"', 'licence = "CC0-1.0"\nrequires_barwright = ">=99"'
    ),
    "P501": changed_since_it_was_locked,
    "P502": lambda box: bw.read_lock(changed_pack(box.folder, "pack.toml", "", "") / "pack.toml"),
    "T101": lambda box: import_of(box, "code\nFC 1\nfc-1\n"),
    "U101": fault_of_the_program,
    "C101": lambda box: family_of(box, killing=True),
    "X101": console_without_click,
}


def reported_by(raiser: Callable[[Box], Any], box: Box) -> list[Any]:
    """The error that is raised, and its problems; or those of an answer that never raises."""
    try:
        return list(raiser(box).problems)
    except BarwrightError as error:
        return [error, *getattr(error, "problems", ())]


def test_every_code_has_something_that_raises_it() -> None:
    assert set(RAISERS) == set(CODES)


@each_case("code", CODES)
def test_every_code_is_raised_by_something_real(
    code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    reported = reported_by(RAISERS[code], Box(tmp_path, monkeypatch))

    assert code in {one.code for one in reported}
    assert all(one.expected and one.remedy for one in reported)


def test_the_catalogue_explains_every_code() -> None:
    page = (Path(__file__).parents[1] / "docs" / "errors.md").read_text(encoding="utf-8")

    titles = dict(re.findall(r"^## ([A-Z]\d{3}) — (.+)$", page, flags=re.MULTILINE))
    assert titles == CODES


def test_every_code_that_the_program_raises_is_in_the_catalogue() -> None:
    source = Path(errors.__file__).parent
    # What a rule of the lint finds has a code of its own, and a page of its own.
    named = {
        code
        for path in source.rglob("*.py")
        if source / "lint" / "rules" not in path.parents
        for code in re.findall(r'"([A-Z]\d{3})"', path.read_text(encoding="utf-8"))
    }

    assert named == set(CODES)


def test_the_file_error_of_this_library_carries_no_errno() -> None:
    """A caller that catches OSError sees the text, and no number that is not known."""
    with pytest.raises(OSError, match="F101") as caught:
        read_toml(Path(os.devnull) / "none.toml")

    assert caught.value.errno is None
