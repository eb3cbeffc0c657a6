"""Tests of `registry.jobs.inline`: parts that a job describes itself."""

from __future__ import annotations

import functools
from collections.abc import Callable
from pathlib import Path
from typing import Any
from unittest import mock

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.errors import BarwrightError
from barwright.parts.common.source import JOB_SOURCES
from barwright.units import is_unknown
from draws import draws
from gaps import without
from inline_jobs import as_known, described, figures_of
from sample_packs import SPECIMENS, discovered_once
from sample_records import adjuster_of, tube_of

ALONE = (SPECIMENS / "jobs" / "measured-alone.toml").read_text(encoding="utf-8")
SAME = bw.Wanted(same_height=True)


def loaded(folder: Path, text: str) -> bw.Job:
    """The job that a text holds."""
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return bw.load_job(path, discovered_once())


def problems(folder: Path, text: str) -> dict[str, Any]:
    """What is wrong with the job of a text, by key."""
    with pytest.raises(bw.DocumentError) as caught:
        loaded(folder, text)
    return {problem.key: problem for problem in caught.value.problems}


# -- A vehicle that no pack knows --------------------------------------------------------


@functools.cache
def corners() -> tuple[bw.Setup, ...]:
    """A corner of each demo vehicle, its nut away from the middle."""
    found = []
    for vehicle, corner in (
        ("fells:chassis/short", "front right"),
        ("hodmule:chassis/short", "front left"),
        ("trundlet:chassis/open", "rear left"),
    ):
        setup = discovered_once().setup(vehicle, corner=corner)
        turned = "0 turn" if setup.adjuster is None else "-2 turn"
        found.append(attrs.evolve(setup, nut_turns=turned))
    return tuple(found)


def answered(question: Callable[[bw.Setup], Any], setup: bw.Setup) -> object:
    try:
        return question(setup)
    except BarwrightError as error:
        return str(error)


@settings(max_examples=draws(25))
@given(st.data())
def test_figures_of_a_job_answer_like_the_same_figures_of_a_pack(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    setup = data.draw(st.sampled_from(corners()))
    paths = figures_of(setup)
    missing = data.draw(
        st.sets(st.sampled_from(paths), max_size=3) | st.sets(st.sampled_from(paths))
    )
    keep = set(paths) - missing
    nut = "" if setup.adjuster is None else "-2 turn"
    text = described(setup, keep, nut=nut)

    own = loaded(tmp_path_factory.mktemp("job"), text).corners[0].setup
    known = as_known(setup, keep)
    for question in (bw.length_fit, bw.rates, functools.partial(bw.reindex, wanted=SAME)):
        assert answered(question, own) == answered(question, known)


def test_nine_measured_figures_bring_the_nut_to_the_middle(tmp_path: Path) -> None:
    job = loaded(tmp_path, ALONE)
    corner = job.corners[0]
    answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    first = answer.clockings[0]
    assert (first.cuts, [end.value for end in first.disturbed]) == (1, ["anchor end"])
    assert first.pin_distance == bw.Quantity(149.5, "mm")
    # Most of it is that of the place of the nut now.
    assert 0.5 < first.pin_uncertainty.m_as("mm") < 0.6
    rough = loaded(tmp_path, ALONE.replace("138 mm ± 0.5 mm", "138 mm"))
    exact = bw.reindex(rough.corners[0].setup, wanted=corner.wanted).clockings[0]
    assert exact.pin_uncertainty.m_as("mm") < 0.1


def test_what_a_job_does_not_say_is_unknown(tmp_path: Path) -> None:
    setup = loaded(tmp_path, ALONE.replace('spacer = "5 mm"\n', "")).corners[0].setup

    assert setup.adjuster is not None
    assert is_unknown(setup.adjuster.spacer)
    assert is_unknown(setup.bar.blank_angle)
    assert setup.damper.gas is not None
    assert is_unknown(setup.damper.gas.force)
    (needed, *_) = bw.reindex(setup, wanted=SAME).findings
    assert "adjuster spacer" in needed.text


MEASURED = ALONE.replace("[present]", '[measured]\nheight = "371 mm ± 2 mm"')


def test_the_nut_is_where_the_height_was_measured(tmp_path: Path) -> None:
    corner = loaded(tmp_path, MEASURED).corners[0]
    plain = loaded(tmp_path, ALONE).corners[0].present
    assert corner.present.pin_distance == plain.pin_distance == bw.Quantity(138.0, "mm")
    assert corner.present.nut_turns == bw.Quantity(0.0, "turn")

    clocking = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present).clockings[0]
    assert clocking.pin_distance == bw.Quantity(149.5, "mm")
    assert 0.5 < clocking.pin_uncertainty.m_as("mm") < 0.6


def test_a_nut_that_is_nowhere_known_is_needed(tmp_path: Path) -> None:
    corner = loaded(tmp_path, ALONE.replace('"138 mm ± 0.5 mm"', '"unknown"')).corners[0]
    answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)

    assert answer.clockings == ()
    assert any("alone: pin distance" in finding.text for finding in answer.findings)


def test_of_several_readings_none_says_where_the_nut_is_now(tmp_path: Path) -> None:
    start, rest = ALONE.split("[present]")
    readings = "".join(
        f'[[measured.left]]\nheight = "{height} mm"\npin_distance = "{pin} mm"\n'
        for height, pin in ((371, 138), (375, 140))
    )
    text = start + readings + rest[rest.index("[wanted]") :]
    present = loaded(tmp_path, text).corners[0].present

    assert len(present.readings) == 2
    assert present.pin_distance is None
    assert is_unknown(present.nut_turns)


def test_a_damper_that_a_job_describes_has_the_gas_that_it_says(tmp_path: Path) -> None:
    text = f'{ALONE}\n[damper]\nopen_length = "600 mm"\n'

    assert loaded(tmp_path, text).corners[0].setup.damper.gas is None


def test_a_figure_of_a_job_was_measured_on_the_vehicle(tmp_path: Path) -> None:
    setup = loaded(tmp_path, ALONE).corners[0].setup
    figure = setup.anchor.about["lever_radius"]

    assert (figure.source, figure.source_kind) == ("job:measured", bw.parts.SourceKind.MEASURED)
    assert figure.tolerance == bw.Quantity(0.5, "mm")
    assert figure.file == str(tmp_path / "job.toml")
    source = discovered_once().source(figure.source)
    assert source is not None
    assert source.note == "measured on this vehicle"


def test_a_figure_of_a_job_may_have_another_source(tmp_path: Path) -> None:
    ranged = '{ is = "90 mm ± 4 mm", source = "estimated" }'
    setup = loaded(tmp_path, ALONE.replace('"90 mm ± 0.5 mm"', ranged)).corners[0].setup
    assert setup.anchor.about["lever_radius"].source_kind is bw.parts.SourceKind.ESTIMATED

    found = problems(tmp_path, ALONE.replace('"90 mm ± 0.5 mm"', ranged.replace(" ± 4 mm", "")))
    assert found["anchor.lever_radius"].code == "Q304"
    assert {source.id for source in JOB_SOURCES} >= {"measured", "estimated", "published"}


def test_a_steel_is_named_by_its_id(tmp_path: Path) -> None:
    text = ALONE.replace("[bar]\n", '[bar]\nmaterial = "standards:material/51crv4"\n')
    assert loaded(tmp_path, text).corners[0].setup.bar.material.title.startswith("51CrV4")
    assert is_unknown(loaded(tmp_path, ALONE).corners[0].setup.bar.material.shear_modulus)

    found = problems(tmp_path, text.replace('"standards:material/51crv4"', "51"))
    assert found["bar.material"].code == "S203"
    found = problems(tmp_path, text.replace("51crv4", "51crv"))
    assert "51crv4" in found["bar.material"].remedy


@pytest.mark.parametrize(
    ("words", "axis", "arm"),
    [
        ('anchor_lies = "behind"', (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        ('anchor_lies = "ahead"', (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        ('anchor_lies = "inboard"\nwheel_lies = "behind"', (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)),
        ('anchor_lies = "outboard"\nwheel_lies = "ahead"', (0.0, -1.0, 0.0), (1.0, 0.0, 0.0)),
        (
            "bar_axis = [0.0, 1.0, 0.1]\narm_direction = [-1.0, 0.0, 0.0]",
            (0.0, 1.0, 0.1),
            (-1.0, 0.0, 0.0),
        ),
    ],
)
def test_words_say_how_the_bar_lies(
    tmp_path: Path, words: str, axis: tuple[float, ...], arm: tuple[float, ...]
) -> None:
    text = ALONE.replace('anchor_lies = "inboard"\nwheel_lies = "behind"', words)
    axle = loaded(tmp_path, text).corners[0].setup.axle

    assert (axle.bar_axis, axle.arm_direction) == (axis, arm)


def test_one_side_may_have_other_figures(tmp_path: Path) -> None:
    text = ALONE.replace('["rear left"]', '["rear left", "rear right"]')
    text += '\n[anchor.right]\nlever_radius = "91 mm"\n'
    left, right = loaded(tmp_path, text).corners

    radii = [tube_of(one.setup).lever_radius.magnitude for one in (left, right)]
    assert radii == [90.0, 91.0]


def test_one_side_may_have_other_figures_in_a_table_in_a_table(tmp_path: Path) -> None:
    text = ALONE.replace('["rear left"]', '["rear left", "rear right"]')
    angle = 'pivot_angle = { is = "5 deg", at = "jig" }, '
    text = text.replace("pivot_distance =", f"{angle}pivot_distance =")
    text += """
    [bar.right.arm_end]
    teeth = 37
    [adjuster.left.mounting]
    pivot_angle = { is = "6 deg", source = "published" }
    [adjuster.right.mounting]
    pivot_distance = "121 mm"
    """
    left, right = (corner.setup for corner in loaded(tmp_path, text).corners)

    ends = [(one.bar.arm_end.teeth, one.bar.arm_end.blanks) for one in (left, right)]
    assert ends == [(36, (0,)), (37, (0,))]
    known = [adjuster_of(one).mounting.about["pivot_angle"] for one in (left, right)]
    assert [(one.value.magnitude, one.at) for one in known] == [(6.0, ""), (5.0, "jig")]
    distances = [adjuster_of(one).mounting.about["pivot_distance"].value for one in (left, right)]
    assert [one.magnitude for one in distances] == [120.0, 121.0]


def test_a_fixed_socket_has_no_adjuster_and_no_nut(tmp_path: Path) -> None:
    start, rest = ALONE.split("[adjuster]")
    wanted = rest[rest.index("[wanted]") :]
    text = start.replace('"tube"\nlever_radius = "90 mm ± 0.5 mm"', '"fixed-socket"') + wanted
    assert loaded(tmp_path, text).corners[0].setup.adjuster is None

    found = problems(tmp_path, f'{text}\n[adjuster]\nspacer = "5 mm"\n')
    assert [(key, one.code) for key, one in found.items()] == [("axle.left.adjuster", "S207")]


def test_another_part_of_a_pack_goes_on_if_its_teeth_are_said(tmp_path: Path) -> None:
    bar, rest = ALONE.split("[arm]")
    form = discovered_once().bar("fells:bar/short-firm").arm_end.form
    text = f"{bar[: bar.index('[bar]')]}[arm]{rest}\n[parts]\nbar = 'fells:bar/short-firm'\n"
    assert {key for key, one in problems(tmp_path, text).items() if one.code == "S202"} == {
        "arm.socket.form",
        "anchor.socket.form",
    }

    said = text.replace("keyed = true", f'keyed = true, form = "{form}"')
    corner = loaded(tmp_path, said).corners[0]
    assert corner.setup.bar.id == "fells:bar/short-firm"
    assert is_unknown(corner.present.bar.diameter)


def test_of_parts_of_a_pack_nothing_is_asked(tmp_path: Path) -> None:
    text = """
    corners = ["rear left"]
    wanted.same_height = true
    present.pin_distance = "150 mm"
    axle.anchor_lies = "behind"
    anchor.kind = "tube"
    [parts]
    arm = "fells:arm/standard"
    bar = "fells:bar/short-standard"
    adjuster = "fells:adjuster/standard"
    """
    asked = {"anchor.socket.keyed", "anchor.socket.form"}
    assert problems(tmp_path, text).keys() == asked

    ends = {f"bar.{end}.{what}" for end in ("arm_end", "anchor_end") for what in ("blanks", "form")}
    text = text.replace('bar = "fells:bar/short-standard"', "")
    assert problems(tmp_path, text).keys() == asked | ends


# -- A vehicle of a pack -----------------------------------------------------------------

VAN = 'vehicle = "fells:chassis/short"\ncorners = ["front left"]\nwanted.same_height = true\n'


@pytest.fixture
def make_gaps(monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    """Make figures of every vehicle unknown."""
    plain = bw.Registry.setup

    def make(*paths: str) -> None:
        def setup(registry: bw.Registry, name: str, *, corner: str) -> bw.Setup:
            return functools.reduce(without, paths, plain(registry, name, corner=corner))

        monkeypatch.setattr(bw.Registry, "setup", setup)

    return make


@pytest.mark.rare
@settings(max_examples=draws(40))
@given(st.data())
def test_a_pack_with_any_gaps_filled_is_the_pack_without(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    whole = data.draw(st.sampled_from(corners()))
    paths = [path for path in figures_of(whole) if ".material." not in path]
    gaps = data.draw(st.sets(st.sampled_from(paths)))
    gapped = functools.reduce(without, sorted(gaps), whole)
    text = described(whole, gaps, vehicle=whole.chassis.id)
    with mock.patch.object(bw.Registry, "setup", return_value=gapped):
        setup = loaded(tmp_path_factory.mktemp("job"), text).corners[0].setup

    assert setup.parts == whole.parts
    standard = setup.axle.standard(setup.side)
    assert {name: getattr(standard, name) for name in whole.parts} == whole.parts
    assert attrs.evolve(setup.axle, left=whole.axle.left, right=whole.axle.right) == whole.axle
    filled = {path.partition(".")[0] for path in gaps}
    for name in filled - {"axle"}:
        assert getattr(setup, name) is not getattr(gapped, name)


GIVEN = """
[adjuster]
spacer = "0 mm"
mounting = { pivot_distance = "122 mm ± 1 mm" }
[anchor]
kind = "tube"
socket = { key_angle = "3 deg" }
[damper]
damping_rate = "1.9 N*s/mm"
[axle]
unsprung_mass = "33 kg"
suspension = { top_up = "600 mm" }
"""


def test_figures_of_a_job_fill_the_gaps_of_a_pack(
    tmp_path: Path, make_gaps: Callable[..., None]
) -> None:
    gaps = (
        *("adjuster.mounting.pivot_distance", "anchor.socket.key_angle"),
        *("axle.unsprung_mass", "axle.suspension.top_up"),
    )
    make_gaps(*gaps)
    setup = loaded(tmp_path, VAN + GIVEN).corners[0].setup

    assert setup.adjuster is not None
    assert isinstance(setup.adjuster.mounting, bw.parts.SwivellingMounting)
    distance = setup.adjuster.mounting.about["pivot_distance"]
    assert (distance.value, distance.tolerance) == (
        bw.Quantity(122.0, "mm"),
        bw.Quantity(1.0, "mm"),
    )
    assert distance.source == "job:measured"
    assert setup.anchor.socket.key_angle == bw.Quantity(3.0, "deg")
    assert setup.axle.unsprung_mass == bw.Quantity(33.0, "kg")
    # A pack that leaves this out has not looked for it.
    assert setup.damper.damping_rate == bw.Quantity(1.9, "N*s/mm")
    assert setup.axle.about["standard_height"].source.startswith("fells:")
    assert setup.axle.left.anchor is setup.anchor
    assert setup.chassis.axles == (setup.axle,)


def test_a_job_that_says_nothing_new_changes_nothing(tmp_path: Path) -> None:
    standard = discovered_once().setup("fells:chassis/short", corner="front left")
    radius = f'\n[arm]\nradius = "{standard.arm.radius.m_as("cm")!r} cm"\nsocket = {{}}\n'

    assert loaded(tmp_path, VAN + radius).corners[0].setup.arm is standard.arm


def test_an_unknown_figure_of_a_job_says_nothing(
    tmp_path: Path, make_gaps: Callable[..., None]
) -> None:
    text = f'{VAN}\n[arm]\nradius = "unknown"\n'
    assert loaded(tmp_path, text).corners[0].setup.arm.radius.magnitude > 0.0

    make_gaps("arm.radius")
    assert is_unknown(loaded(tmp_path, text).corners[0].setup.arm.radius)


def test_a_figure_that_cannot_be_beside_those_of_the_pack_is_refused(
    tmp_path: Path, make_gaps: Callable[..., None]
) -> None:
    make_gaps("adjuster.thread_end")
    text = f'{VAN}\n[adjuster]\nthread_end = "50 mm"\n'

    found = problems(tmp_path, text)
    assert {key: one.code for key, one in found.items()} == {"adjuster.thread_end": "G102"}


def test_a_figure_that_the_pack_knows_is_refused_with_both_values(tmp_path: Path) -> None:
    found = problems(tmp_path, f'{VAN}\n[arm.left]\nradius = "300 mm"\n')

    problem = found["arm.left.radius"]
    assert (problem.code, problem.line, problem.value) == ("J105", 6, "300 mm")
    assert "338 mm" in problem.expected
    assert "overlay" in problem.remedy


def test_usual_figures_fill_only_what_neither_pack_nor_job_gives(
    tmp_path: Path, make_gaps: Callable[..., None]
) -> None:
    make_gaps("axle.unsprung_mass", "damper.closed_length")
    text = f'assume = "usual"\n{VAN}\n[axle]\nunsprung_mass = "33 kg"\n'
    setup = loaded(tmp_path, text).corners[0].setup

    assert setup.axle.about["unsprung_mass"].source == "job:measured"
    assert setup.damper.about["closed_length"].source == "standards:usual/closed-damper"
