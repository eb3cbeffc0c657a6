"""Tests of `barwright.report.forms.json`: nothing is lost on the way out and back."""

from __future__ import annotations

import enum
import functools
import json
import tempfile
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

import barwright as bw
from anchored_corners import fixed_socket, key_lever, on_fixed, on_key_lever
from barwright.report.drawing.adjuster import adjuster_view
from barwright.report.drawing.bar_axis_view import bar_axis_view
from barwright.report.drawing.bar_end_view import bar_end_views
from barwright.report.drawing.load_curve import load_curve_view
from barwright.report.drawing.template import template_views
from barwright.report.forms.documents import class_of
from barwright.report.forms.documents import documents as words
from barwright.report.unit_system import in_units
from each_case import each_case
from flawed_packs import POOR_PACK
from sample_packs import SPECIMENS, discovered_once
from sample_records import (
    double_wishbone_mounting,
    make_bar,
    make_end,
    make_parts,
    make_setup,
    swing_arm_mounting,
    tube_of,
)
from weighed_vans import fronts, van

SETUP = make_setup()
NOTHING = make_setup(bar=make_bar(length="1500 mm"))
JOBS = SPECIMENS / "jobs"


def demo(name: str = "fells:chassis/short") -> bw.Setup:
    """A corner of the demo pack, whose figures have sources and tolerances."""
    return discovered_once().setup(name, corner="front left")


def plan() -> bw.answers.Plan:
    """The first plan of an answer."""
    return bw.reindex(demo()).plans[0]


def worked_on() -> bw.answers.BarEndView:
    """An end of a bar with a tooth to remove."""
    view = bar_end_views(demo(), plan(), present=demo())[0]
    work = attrs.evolve(
        view.work,
        action=bw.answers.EndAction.REMOVE_TOOTH,
        tooth=2,
        direction=bw.answers.TurningSense.CLOCKWISE,
    )
    return attrs.evolve(view, work=work)


def job(name: str = "every-key") -> bw.Job:
    """A job with everything in it."""
    return bw.load_job(JOBS / f"{name}.toml", discovered_once())


def clocked() -> bw.answers.Reindex:
    """An answer that gives clockings, since a plan needs more figures."""
    setup = make_setup(nut_turns="-8 turn", axle={"droop_stop": "unknown"})
    return bw.reindex(setup, wanted=bw.Wanted(same_height=True))


ROAD = ("0 mm", "45 mm", "-30 mm", "10 mm")
LIMITS = bw.StrengthLimits(
    permissible_shear="900 MPa",
    shear_yield=bw.answers.StressLimit(stress="800 MPa", source="tests"),
    ultimate_shear="1005 MPa",
    endurance="300 MPa",
    woehler_line=bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5),
)


def corrected() -> bw.Setup:
    """The demo corner with a figure of its bar corrected."""
    bar = demo().bar
    figure = bw.parts.Figure(value=bar.diameter, why="Measured.", replaces=bar.about["length"])
    end = bar.arm_end.about["teeth"]
    fact = attrs.evolve(end, why="Counted.", replaces=end)
    told = bar.arm_end.described({"teeth": fact})
    return demo().with_parts(bar=attrs.evolve(bar.described({"diameter": figure}), arm_end=told))


def permitting() -> bw.parts.Bar:
    """A bar whose steel permits a stress."""
    steel = bw.parts.Material(
        id="t:material/s", title="S", shear_modulus="77 GPa", permissible_shear="700 MPa"
    )
    return make_bar(material=steel)


def bump() -> bw.answers.CornerState:
    """The demo corner at full bump."""
    figures = bw.rates(demo()).figures
    assert figures is not None
    return figures.bump


def family_file() -> bw.answers.FamilyFile:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "family.parquet"
        return bw.write_family_matrix(discovered_once(), path, vehicles="fells short", processes=1)


ANSWERS: dict[str, Callable[[], object]] = {
    "PackLint": lambda: bw.lint_pack(POOR_PACK),
    "LengthFit": lambda: bw.length_fit(demo()),
    "BarRate": lambda: bw.bar_rate(demo().bar, tube=tube_of(demo())),
    "Rates": lambda: bw.rates(demo()),
    "Reindex": lambda: bw.reindex(demo()),
    "Plan": plan,
    "Assembly": lambda: bw.reindex(demo()).removal[0],
    "Ride": lambda: bw.ride(demo()),
    "NutTable": lambda: bw.nut_table(demo(), measured="398 mm"),
    "CalibratedCorner": lambda: bw.calibrate(job("weighed-four-times").corners[0].present),
    "FamilyChart": lambda: bw.family_chart(discovered_once(), "fells short", processes=1),
    "FamilyFile": family_file,
    "FamilyMatrix": lambda: bw.family_matrix(discovered_once(), vehicles="fells short"),
    "Identification": lambda: bw.identify(
        bw.parts.MeasuredBar(length="874 mm", diameter="25 mm"), registry=discovered_once()
    ),
    "SplineIdentification": lambda: bw.identify_spline(
        bw.parts.MeasuredSpline(teeth=39, major_diameter="30 mm")
    ),
    "Selection": lambda: bw.choose(
        demo(), bw.Goal(rate_change=1.0), parts=[make_bar(material=demo().bar.material)]
    ),
    "Balance": lambda: bw.balance(fronts(), vehicle=van()),
    "Diagnosis": lambda: bw.diagnose(
        [attrs.evolve(demo(), reading=bw.parts.measured(demo(), height="357 mm"))],
        registry=discovered_once(),
    ),
    "Donors": lambda: bw.donors(demo(), parts=discovered_once().parts()),
    "Comparison": lambda: bw.compare(demo(), demo().with_parts(bar=make_bar(diameter="25 mm"))),
    "Tolerance": lambda: bw.tolerance(bw.rates, demo(), draws=100),
    "Needs": lambda: bw.needs(demo()),
    "Trail": lambda: bw.trail(corrected(), figure="bar_rate"),
    "Strength": lambda: bw.strength(demo(), limits=LIMITS, travel="40 mm", history=ROAD),
    "JobCheck": lambda: bw.check_job(JOBS / "bad" / "many.toml", discovered_once()),
    "BenchSheet": lambda: bw.bench_sheet(job()),
    "Job": job,
    "BarEndView": lambda: bar_end_views(demo(), plan(), present=demo())[0],
    "AdjusterView": lambda: adjuster_view(demo(), plan()),
    "BarAxisView": lambda: bar_axis_view(demo(), bw.length_fit(demo())),
    "LoadCurveView": lambda: load_curve_view(bw.rates(demo()), corner="front left"),
    "TemplateView": lambda: template_views([worked_on()], title="A job")[0],
    "CornerState": bump,
    "Overstress": lambda: bw.overstress(demo().bar, droop=bump(), bump=bump(), limits=LIMITS),
    "StressLimit": lambda: bw.answers.StressLimit(stress="800 MPa", source="tests"),
    "StrengthLimits": lambda: LIMITS,
    "TravelSpectrum": bw.usual_travel,
    "Goal": lambda: bw.Goal(ride_frequency="1.4 Hz"),
    "MeasuredBar": lambda: bw.parts.MeasuredBar(length="874 mm ± 1 mm"),
    "Reading": lambda: bw.parts.measured(demo(), height="391 mm ± 2 mm"),
    "Setup": demo,
    "Wanted": lambda: bw.Wanted(height="349 mm", cuts=0),
    "WholeVehicle": lambda: job("corner-weights").vehicle,
    "JobCorner": lambda: job().corners[0],
    "WorkOrder": lambda: bw.WorkOrder(customer="Kirkstone Mill", notes="Clunk."),
    "Material": lambda: demo().bar.material,
    "Arm": lambda: demo().arm,
    "Bar": lambda: demo().bar,
    "Tube": lambda: demo().anchor,
    "KeyLever": key_lever,
    "FixedSocket": fixed_socket,
    "Adjuster": lambda: demo().adjuster,
    "Damper": lambda: demo().damper,
    "Chassis": lambda: demo().chassis,
    "Working": lambda: bw.working(demo(), asked="reindex", source=discovered_once().source),
    "Lock": lambda: bw.lock_of(discovered_once()),
    "BatchFile": lambda: bw.answers.BatchFile(
        file="answers.parquet", row_count=9, errors=1, pieces=2, earlier=1
    ),
    "BatchSummary": lambda: bw.answers.BatchSummary(
        asked="fit",
        verdict_counts={bw.Verdict.FITS: 7, bw.Verdict.DOES_NOT_FIT: 1},
        error_counts={"Q101": 1},
        first_errors=(bw.answers.RowError(row=4, code="Q101", text="load.mass: got '320,5 kg'"),),
    ),
    "MeasuredSpline": lambda: bw.parts.MeasuredSpline(teeth=39, root_diameter="28 mm ± 0.1 mm"),
    "Claim": lambda: bw.parts.Claim(
        pack="fells",
        parts=("fells:bar/short-firm",),
        on=("fells:chassis/short",),
        axle=None,
        side=bw.parts.Side.LEFT,
        claimed=bw.parts.Claimed.FITS,
        source="",
        at="",
        file="bars.toml",
        key="fits[0]",
    ),
    "Source": lambda: bw.parts.Source(id="a", kind=bw.parts.SourceKind.MEASURED, note="A list."),
}

# Parts of answers that none of these has.
PARTS: dict[str, Callable[[], object]] = {
    "BarOption": lambda: bw.answers.BarOption(
        bar_id="t:bar/b",
        bar_title="B",
        arm_id="t:arm/a",
        anchor_id="t:tube/t",
        damper_id="t:damper/d",
        swapped=("bar",),
        swapped_titles=("B",),
        changes=(),
        wheel_rate=bw.Quantity(21.0, "N/mm"),
        rate_change=0.1,
        ride_frequency=None,
        miss=0.02,
        bump_stress=bw.Quantity(600.0, "MPa"),
        limit=bw.answers.StressLimit(stress="800 MPa", source="tests"),
        factor=1.3,
        damper_rate=None,
        bump_left=bw.Quantity(40.0, "mm"),
        plan=plan(),
    ),
    "Donor": lambda: bw.answers.Donor(
        arm_id="t:arm/a",
        anchor_id="t:tube/t",
        arm_title="A",
        anchor_title="T",
        swapped=(),
        fit=bw.length_fit(demo()),
        system_rate=bw.Quantity(43.0, "N*m/deg"),
        tube_rate=None,
        free_angle_change=bw.Quantity(-1.0, "deg"),
    ),
    "EnduranceFactors": lambda: bw.EnduranceFactors(
        surface_factor=0.8,
        size_factor=0.86,
        loading_factor=0.59,
        temperature_factor=1.0,
        reliability_factor=0.9,
        notch_factor=0.8,
    ),
    "EstimatedFigure": lambda: bw.answers.EstimatedFigure(
        figure="damper.closed_length",
        value=bw.Quantity(429.0, "mm"),
        tolerance=bw.Quantity(51.0, "mm"),
    ),
    "FilletStress": lambda: bw.answers.FilletStress(
        end=bw.parts.BarEndName.ARM,
        concentration=1.3,
        greatest=bw.Quantity(700.0, "MPa"),
        amplitude=None,
    ),
    "FixedLineMounting": lambda: bw.parts.FixedLineMounting(
        line_distance="60 mm", foot_angle="20 deg", foot_position="80 mm"
    ),
    "JointParting": lambda: bw.answers.JointParting(
        torque=bw.Quantity(20.0, "N*m"),
        energy=bw.Quantity(2.0, "J"),
        downward_force=bw.Quantity(60.0, "N"),
        drop=bw.Quantity(4.0, "mm"),
    ),
    "MeasuredEnd": lambda: bw.parts.MeasuredEnd(teeth=36, major_diameter="30 mm ± 0.1 mm"),
    "PartRates": lambda: bw.answers.PartRates(
        bar_rate=bw.Quantity(48.0, "N*m/deg"),
        tube_rate=None,
        system_rate=bw.Quantity(48.0, "N*m/deg"),
    ),
    "UncutTrial": lambda: bw.answers.UncutTrial(
        plan=plan(),
        wanted_height=bw.Quantity(349.0, "mm"),
        close_enough=bw.Quantity(3.0, "mm"),
    ),
}

# What no document is made of, and why.
NOT_WRITTEN = {
    "Registry": "it reads packs; their records can be written, and the lock of it",
    "Batch": "it has arrays of any length; batch_file writes them as a table",
    "Answer": "the base of all answers",
    "Part": "the base of all records with an id",
    "About": "it belongs to a record, and is written with it",
    "Month": "a text in every document",
    "Quantity": "a figure of a document, and not one by itself",
    "QuantityArray": "as a quantity",
}


@functools.cache
def answered(name: str) -> Any:
    return (ANSWERS | ODD)[name]()


ODD: dict[str, Callable[[], object]] = {
    "all figures": lambda: bw.trail(demo(), source=discovered_once().source),
    "a bar that does not fit": lambda: bw.rates(NOTHING),
    "a strength without limits": lambda: bw.strength(demo(), travel="40 mm", history=ROAD),
    "tolerances with gaps": lambda: bw.tolerance(
        bw.ride, demo(), half_widths={"anchor.bore": "9 mm", "nut_turns": "90 turn"}
    ),
    "tolerances that know nothing, in inch units": lambda: in_units(
        bw.tolerance(bw.ride, SETUP, half_widths={"nut_turns": "90 turn"}), "inch"
    ),
    "a strength in inch units": lambda: in_units(answered("Strength"), "inch"),
    "a bar without stresses": lambda: bw.strength(NOTHING),
    "a rest without a state": lambda: bw.ride(NOTHING),
    "no plan": lambda: bw.reindex(NOTHING),
    "clockings": clocked,
    "clockings in inch units": lambda: in_units(clocked(), "inch"),
    "a table with a key lever, in inch units": lambda: in_units(
        bw.nut_table(on_key_lever()), "inch"
    ),
    "a calibration of nothing": lambda: bw.calibrate(demo()),
    "a calibration in inch units": lambda: in_units(answered("CalibratedCorner"), "inch"),
    "nothing to turn": lambda: bw.nut_table(on_fixed()),
    "a wish out of reach": lambda: bw.reindex(demo(), wanted=bw.Wanted(height="900 mm")),
    "inch units": lambda: in_units(bw.rates(demo()), "inch"),
    "a drawing of an axis without a tube": lambda: bar_axis_view(
        on_fixed(), bw.length_fit(on_fixed())
    ),
    "a drawing of an adjuster in inch units": lambda: in_units(answered("AdjusterView"), "inch"),
    "a drawing of an end after a swap": lambda: attrs.evolve(worked_on(), key_before=None),
    "a sheet in inch units": lambda: bw.bench_sheet(job(), system="inch"),
    "a good job that was checked": lambda: bw.check_job(JOBS / "least.toml", discovered_once()),
    "a damper without gas": lambda: make_parts(make_bar()).damper,
    "a hollow bar with teeth removed": lambda: make_bar(
        bore="10 mm", arm_end=make_end(39, blanks=(0, -3))
    ),
    "a chassis with swing arms": lambda: (
        make_setup(axle={"suspension": swing_arm_mounting()}).chassis
    ),
    "a chassis with wishbones, and all that may stand beside a bar": lambda: (
        make_setup(
            axle={
                "suspension": double_wishbone_mounting(),
                "arm_axis": (-1.0, 0.0, 0.0),
                "bump_rubber": bw.parts.BumpRubber(
                    curve=(bw.parts.BumpRubberForce(compression="10 mm", force="300 N"),),
                    contact_height="350 mm",
                ),
                "bushing": bw.parts.ArmBushing(rate="2 N*m/deg"),
                "helper_coil": bw.parts.HelperCoil(rate="8 N/mm", free_length="300 mm"),
            }
        ).chassis
    ),
    "the rate of a bar that permits a stress, in inch units": lambda: in_units(
        bw.bar_rate(permitting()), "inch"
    ),
    "rates with a damping ratio": lambda: bw.rates(
        make_setup(damper={"damping_rate": "1.8 N*s/mm"})
    ),
    "a chassis with key levers": lambda: on_key_lever().chassis,
    "a chassis with fixed sockets": lambda: on_fixed().chassis,
    "rates on a key lever": lambda: bw.rates(on_key_lever()),
    "rates on a fixed socket": lambda: bw.rates(on_fixed()),
    "plans on a key lever": lambda: bw.reindex(on_key_lever()),
    "plans on a fixed socket": lambda: bw.reindex(on_fixed()),
    "a job with inches": lambda: job("out-of-reach"),
}


def figures(value: Any) -> list[object]:
    """All that is known of the figures of an answer and of all records in it."""
    if isinstance(value, tuple):
        return [known for item in value for known in figures(item)]
    if not attrs.has(type(value)):
        return []
    inner = [getattr(value, field.name) for field in attrs.fields(type(value))]
    own = [dict(item) for item in inner if isinstance(item, bw.parts.About)]
    return own + [known for item in inner for known in figures(item)]


def arrays(value: Any) -> list[Any]:
    """All arrays of an answer."""
    if isinstance(value, bw.Quantity):
        return [value.magnitude] if np.ndim(value.magnitude) else []
    if isinstance(value, tuple):
        return [array for item in value for array in arrays(item)]
    if not attrs.has(type(value)):
        return []
    return [a for field in attrs.fields(type(value)) for a in arrays(getattr(value, field.name))]


def held(value: Any) -> Iterator[Any]:
    """All objects that one is made of, itself too."""
    if isinstance(value, tuple | Mapping):
        for inner in value.values() if isinstance(value, Mapping) else value:
            yield from held(inner)
    elif attrs.has(type(value)):
        yield value
        for field in attrs.fields(type(value)):
            yield from held(getattr(value, field.name))


@functools.cache
def parts_of_answers() -> dict[str, Any]:
    """An object of every class that can be written, by the word of its document."""
    reached = {type(one).__name__: one for name in ANSWERS | ODD for one in held(answered(name))}
    return reached | {name: make() for name, make in PARTS.items()}


@functools.cache
def schema_of_answers() -> dict[str, Any]:
    return bw.answer_schema()


@functools.cache
def held_by_schema(word: str) -> Draft202012Validator:
    """What holds a document of one answer to the published schema."""
    schema = schema_of_answers()
    (one,) = (found for found in schema["oneOf"] if found["$ref"] == f"#/$defs/{word}")
    return Draft202012Validator(one | {"$schema": schema["$schema"], "$defs": schema["$defs"]})


def public_classes() -> dict[str, type[Any]]:
    """Every class that a program meets, without errors and words."""
    found = {
        name: getattr(room, name) for room in (bw, bw.parts, bw.answers) for name in room.__all__
    }
    return {
        name: one
        for name, one in found.items()
        if isinstance(one, type) and not issubclass(one, BaseException | enum.Enum)
    }


def test_every_public_class_can_be_written_or_there_is_a_reason() -> None:
    classes = public_classes()

    assert classes.keys() - set(words()) == NOT_WRITTEN.keys()
    assert set(words()) <= classes.keys()
    assert [word for word in words() if class_of(word) is not classes[word]] == []


@pytest.mark.rare
@each_case("word", words())
def test_every_part_of_an_answer_reads_back_equal(word: str) -> None:
    part = parts_of_answers()[word]

    text = bw.to_json(part)
    again = bw.from_json(text)

    assert type(again) is type(part)
    assert again == part
    assert figures(again) == figures(part)
    assert bw.to_json(again) == text
    held_by_schema(word).validate(json.loads(text))


def test_a_lock_says_its_own_version_beside_that_of_the_document() -> None:
    lock = bw.lock_of(discovered_once())
    table = json.loads(bw.to_json(lock))

    assert (table["schema"], table["schema_"]) == (4, lock.schema)


def test_an_equation_is_a_tree() -> None:
    last = bw.working(demo(), figure="bar_rate").sections[-1].lines[-1]
    tree = json.loads(bw.to_json(last))["equation"]

    assert isinstance(last, bw.answers.WorkingStep)
    assert set(tree) & {"terms", "factors", "top", "arguments"}
    assert bw.from_json(bw.to_json(last)).equation == last.equation


@pytest.mark.parametrize("name", [*ANSWERS, *ODD])
def test_what_is_written_reads_back_equal(name: str) -> None:
    answer = answered(name)

    text = bw.to_json(answer)
    again = bw.from_json(text)

    assert type(again) is type(answer)
    assert again == answer
    assert figures(again) == figures(answer)
    assert bw.to_json(again) == text
    held_by_schema(type(answer).__name__).validate(json.loads(text))


@pytest.mark.parametrize("name", ANSWERS)
def test_it_is_json_that_names_its_class_and_version(name: str) -> None:
    def refuse(constant: str) -> None:
        pytest.fail(f"{constant} is no JSON")

    table = json.loads(bw.to_json(answered(name)), parse_constant=refuse)

    assert (table["answer"], table["schema"]) == (name, 4)


def test_tolerances_and_sources_are_written() -> None:
    bar = demo().bar
    again = bw.from_json(bw.to_json(bar))

    assert again.about["diameter"].tolerance == bw.Quantity(0.05, "mm")
    assert again.about["diameter"].source == bar.about["diameter"].source
    assert again.about["diameter"].source_kind is bw.parts.SourceKind.INVENTED
    assert again.arm_end.about == bar.arm_end.about
    assert {name for name, known in bar.arm_end.about.items() if isinstance(known, bw.parts.Fact)}
    assert again.about["diameter"].file == "bars.toml"


def test_curves_come_back_as_read_only_arrays_with_every_digit() -> None:
    answer = bw.rates(demo())
    again = bw.from_json(bw.to_json(answer))

    assert len(arrays(again)) == len(arrays(answer)) >= 5
    for one, other in zip(arrays(again), arrays(answer), strict=True):
        assert one.tobytes() == other.tobytes()
        assert not one.flags.writeable


def test_quantities_come_back_in_the_units_that_they_were_in() -> None:
    bar = attrs.evolve(make_bar(), diameter="0.984 in")

    assert json.loads(bw.to_json(bar))["diameter"] == {"value": 0.984, "unit": "in"}
    assert str(bw.from_json(bw.to_json(bar)).diameter) == "0.984 inch"


def test_indentation_changes_nothing() -> None:
    bar = make_bar()

    assert bw.to_json(bar, indent=2).startswith('{\n  "answer"')
    assert bw.from_json(bw.to_json(bar, indent=2)) == bar
    assert "\n" not in bw.to_json(bar)


@pytest.mark.parametrize(
    "other",
    [None, 5, "x", {}, bw.Quantity(1, "mm"), bw.parts.Side.LEFT, bw.parts.Month(2014, 5)],
    ids=lambda value: type(value).__name__,
)
def test_anything_else_is_refused(other: object) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.to_json(other)

    assert (caught.value.code, caught.value.value) == ("S208", type(other).__name__)


def test_a_class_of_the_same_name_is_something_else() -> None:
    stranger = type("Bar", (), {})()

    with pytest.raises(bw.SchemaError, match="S208"):
        bw.to_json(stranger)


BAR = json.loads(bw.to_json(make_bar()))


@each_case(
    "text",
    [
        "",
        "nothing",
        "{}",
        "[]",
        "5",
        "null",
        '"Bar"',
        '{"answer": "Bar"}',
        '{"schema": 4}',
        '{"answer": "Bar", "schema": 4}',
        '{"answer": "Spoke", "schema": 4}',
        '{"answer": ["Bar"], "schema": 4}',
        '{"answer": {"a": 1}, "schema": 4}',
        "9" * 5000,
        '{"answer": "Bar", "schema": ' + "9" * 5000 + "}",
        '{"answer": "Bar", "schema": 4',
        "{" * 500,
    ],
)
def test_text_that_is_no_answer(text: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(text)

    assert caught.value.code == "S208"
    assert caught.value.remedy


@each_case(
    "change",
    [
        {"schema": 5},
        {"schema": "1"},
        {"schema": None},
        {"answer": "Tube"},
        {"colour": "red"},
        {"diameter": None},
        {"diameter": 23.3},
        {"diameter": {"value": 23.3}},
        {"diameter": {"unit": "mm"}},
        {"diameter": {"value": 23.3, "unit": "cubit"}},
        {"diameter": {"value": 23.3, "unit": "kg"}},
        {"diameter": {"value": 23.3, "unit": ["mm"]}},
        {"diameter": {"value": "23.3", "unit": "mm"}},
        {"diameter": {"value": "9**9**9", "unit": "mm"}},
        {"diameter": {"value": None, "unit": "mm"}},
        {"diameter": {"value": float("nan"), "unit": "mm"}},
        {"diameter": {"value": 10**400, "unit": "mm"}},
        {"diameter": {"value": -1, "unit": "mm"}},
        {"diameter": {"values": [1, 2], "unit": "mm"}},
        {"length": {"value": 1, "unit": "mm"}},
        {"arm_end": None},
        {"arm_end": []},
        {"arm_end": BAR["arm_end"] | {"teeth": 0}},
        {"arm_end": BAR["arm_end"] | {"blanks": [0, 0]}},
        {"made_for": "middle"},
        {"about": []},
        {"about": {"diameter": {}}},
        {"about": {"diameter": {"value": {"value": 1, "unit": "cubit"}}}},
    ],
)
def test_an_answer_that_was_tampered_with(change: dict[str, Any]) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(json.dumps(BAR | change))

    assert caught.value.code == "S208"


@each_case("name", BAR)
def test_an_answer_with_a_field_left_out(name: str) -> None:
    text = json.dumps({key: value for key, value in BAR.items() if key != name})
    optional = {
        "bore",
        "blank_angle",
        "made_for",
        "preset",
        "preset_twist",
        "measured_rate",
        "about",
        "numbers",
        "replaces",
        "paint",
        "remarks",
        "replaced_by",
        "pack_version",
    }

    if name in optional:
        assert bw.from_json(text) == make_bar()
    else:
        with pytest.raises(bw.SchemaError):
            bw.from_json(text)


def read_or_refused(text: str) -> object:
    """What a text is read as, or the error that it is refused with."""
    try:
        return bw.from_json(text)
    except bw.SchemaError as error:
        return error


JSONLIKE = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=8,
)


@given(text=st.text() | JSONLIKE.map(json.dumps))
def test_any_text_is_refused_with_its_code(text: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(text)

    assert caught.value.code == "S208"


@given(name=st.sampled_from(sorted(BAR)), value=JSONLIKE)
def test_any_value_of_a_field_is_read_or_refused(name: str, value: object) -> None:
    again = read_or_refused(json.dumps(BAR | {name: value}))

    if isinstance(again, bw.SchemaError):
        assert again.code == "S208"
    else:
        assert isinstance(again, bw.parts.Bar)
        assert bw.from_json(bw.to_json(again)) == again


def test_a_table_of_no_known_kind_is_refused() -> None:
    document = json.loads(bw.to_json(make_setup().adjuster))
    document["mounting"] = {"spring": 1}
    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(json.dumps(document))
    assert caught.value.code == "S208"


@pytest.mark.parametrize("text", ["[" * 100_000, '{"answer": 1}', "null", '"Bar"'])
def test_documents_that_are_none_are_refused(text: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(text)
    assert caught.value.code == "S208"


@pytest.mark.parametrize(
    ("field", "value"),
    [("teeth", 39.0), ("teeth", "39"), ("teeth", True), ("form", 5)],
)
def test_nothing_is_turned_into_what_it_is_not(field: str, value: object) -> None:
    document = json.loads(bw.to_json(make_setup().bar))
    document["arm_end"][field] = value
    with pytest.raises(bw.SchemaError):
        bw.from_json(json.dumps(document))
    document["arm_end"][field] = {"value": "9**9**9", "unit": "mm"}
    with pytest.raises(bw.SchemaError):
        bw.from_json(json.dumps(document))


@pytest.mark.parametrize("name", ["LengthFit", "Rates", "Reindex", "Strength", "JobCheck", "Trail"])
def test_what_an_answer_comes_to_is_written_before_its_fields(name: str) -> None:
    answer: Any = ANSWERS[name]()
    table = json.loads(bw.to_json(answer))
    assert list(table)[:4] == ["answer", "schema", "outcome", "headline"]
    assert (table["outcome"], table["headline"]) == (answer.outcome.value, answer.headline)


def test_what_is_unknown_is_written_as_a_word_and_read_back() -> None:
    bar = make_bar(length="unknown", arm_end=make_end(39, teeth="unknown"))
    table = json.loads(bw.to_json(bar))
    assert (table["length"], table["arm_end"]["teeth"]) == ("unknown", "unknown")
    assert "length" not in table["about"]
    assert bw.from_json(bw.to_json(bar)) == bar
