"""Tests of the catalogue of usual ranges: every entry is one of a figure that there is."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.lint.rules.records.plausible import RANGES as PLAUSIBLE
from barwright.parts.common.fields import figure_fields
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.measuring.catalogue import figures_of
from barwright.registry.packs.load import standards
from barwright.registry.usual import catalogue
from barwright.registry.usual.catalogue import (
    UsualRange,
    usual_errors,
    usual_ranges,
    usual_source,
)
from barwright.units import si, to_kind
from each_case import each_case
from sample_packs import discovered_once
from sample_records import make_bar, make_parts

# What is counted or looked up has no such error.
NOT_MEASURED = {"count", "data-sheet", "test-bench", "thread-gauge"}

EACH = [pytest.param(one, id=one.source.id.rpartition("/")[2]) for one in usual_ranges()]


def ends(one: UsualRange) -> tuple[float, float]:
    """Both ends of a range as it is written, in the SI unit of its kind."""
    kind, _ = figure_fields(one.holder)[one.field]
    assert one.usual.tolerance is not None
    middle, half = (si(figure, kind) for figure in (one.usual.value, one.usual.tolerance))
    return middle - half, middle + half


@pytest.mark.parametrize("one", EACH)
def test_an_entry_is_an_estimate_of_a_figure_that_there_is(one: UsualRange) -> None:
    assert one.field in figure_fields(one.holder)
    assert one.usual.source_kind is one.source.kind is bw.parts.SourceKind.ESTIMATED
    assert one.usual.source == one.source.id
    assert ends(one)[0] > 0.0


def test_no_figure_has_two_ranges() -> None:
    figures = [(one.holder, one.field) for one in usual_ranges()]
    names = [one.source.id for one in usual_ranges()]
    names += [one.source.id for one in usual_errors()]

    assert len(set(figures)) == len(figures)
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("one", EACH)
def test_an_entry_grows_with_a_figure_that_must_be_known_and_measured(one: UsualRange) -> None:
    if not one.base:
        assert one.base_value is None
        return
    field = attrs.fields_dict(one.holder)[one.base]
    assert field.default is attrs.NOTHING
    assert figure_fields(one.holder)[one.base][1] == "positive"
    # Estimates that rest on estimates would each look surer than they are.
    assert (one.holder, one.base) not in {(o.holder, o.field) for o in usual_ranges()}


@pytest.mark.parametrize("one", EACH)
def test_an_entry_says_what_it_rests_on(one: UsualRange) -> None:
    said = ("Common practice, no source.", "from memory.", "Machinery's Handbook")
    assert any(words in one.source.note for words in said)


@each_case("one", usual_errors())
def test_a_tool_says_so_too(one: catalogue.UsualError) -> None:
    assert one.source.note.endswith("Common practice, no source.")
    assert si(one.within, one.kind) > 0.0


@pytest.mark.parametrize("name", ["fells:chassis/short", "hodmule:chassis/long"])
def test_every_tool_that_a_figure_is_measured_with_has_its_usual_error(name: str) -> None:
    errors = {one.source.id.rpartition("/")[2]: one for one in usual_errors()}
    setup = discovered_once().setup(name, corner="front left")
    tools = {one.tool.replace(" ", "-") for one in figures_of(setup)} - NOT_MEASURED

    assert tools
    assert tools <= errors.keys()


def test_the_words_for_classes_are_those_of_the_schema() -> None:
    words = {cls: DEFINITION_NAMES[cls] for cls in catalogue._HOLDERS.values()}  # noqa: SLF001 - the list itself

    assert {word: cls for cls, word in words.items()} == catalogue._HOLDERS  # noqa: SLF001


@pytest.mark.parametrize("one", [one for one in usual_ranges() if not one.base])
def test_a_range_lies_within_what_the_lint_calls_plausible(one: UsualRange) -> None:
    limits = PLAUSIBLE[one.holder].get(one.field)
    if limits:
        kind, _ = figure_fields(one.holder)[one.field]
        low, high = (si(to_kind(limit, kind, key=""), kind) for limit in limits)
        assert low <= ends(one)[0] < ends(one)[1] <= high


def test_the_shear_modulus_covers_every_steel_that_ships_with_the_library() -> None:
    (one,) = [one for one in usual_ranges() if one.field == "shear_modulus"]
    low, high = ends(one)
    steels = [p for p in standards().parts.values() if isinstance(p, bw.parts.Material)]

    found = [float(steel.shear_modulus.m_as("Pa")) for steel in steels]
    assert (min(found), max(found)) == (72.4e9, 80e9)
    assert (low, high) == pytest.approx((72.4e9, 80e9))


@pytest.mark.parametrize(
    ("thread", "nut"), [(10, 8.4), (12, 10.8), (14, 12.8), (16, 14.8), (20, 18.0), (24, 21.5)]
)
def test_the_height_of_nuts_covers_those_of_the_standard(thread: int, nut: float) -> None:
    """ISO 4032, style 1, greatest heights; recalled."""
    (one,) = [one for one in usual_ranges() if one.field == "nut_height"]
    made = make_parts(
        make_bar(), adjuster={"thread_diameter": f"{thread} mm", "nut_height": "8 mm"}
    )
    assert made.adjuster is not None
    figure = one.figure_of(made.adjuster)

    assert figure is not None
    assert figure.tolerance is not None
    assert abs(figure.value.m_as("mm") - nut) <= figure.tolerance.m_as("mm")


# -- Taking from it ------------------------------------------------------------------


@given(length=st.floats(150.0, 900.0))
def test_a_range_in_proportion_keeps_its_share(length: float) -> None:
    """Rounding moves neither end by more than a twentieth of the range."""
    (one,) = [one for one in usual_ranges() if one.field == "closed_length"]
    damper = bw.parts.Damper(
        id="t:damper/d", title="D", open_length=f"{length} mm", closed_length="100 mm"
    )
    figure = one.figure_of(damper)

    assert figure is not None
    assert figure.tolerance is not None
    half = 0.08 * length
    assert figure.tolerance.m_as("mm") == pytest.approx(half, abs=0.05 * half)
    assert figure.value.m_as("mm") == pytest.approx(0.67 * length, abs=0.05 * half)


def test_the_source_of_a_figure_is_found_by_its_name() -> None:
    source = usual_source("standards:usual/tyre-rate")

    assert source is not None
    assert "Tyres" in source.note
    assert usual_source("standards:usual/none") is None
    assert usual_source("fells:tyre-rate") is None


# -- Reading it ----------------------------------------------------------------------


def bad(folder: Path, patch: pytest.MonkeyPatch, old: str, new: str) -> None:
    """Read the catalogue with one thing changed in it."""
    text = catalogue.RANGES.read_text(encoding="utf-8")
    assert old in text
    file = folder / "ranges.toml"
    file.write_text(text.replace(old, new, 1), encoding="utf-8")
    patch.setattr(catalogue, "RANGES", file)
    patch.setattr(catalogue, "_catalogue", catalogue._catalogue.__wrapped__)  # noqa: SLF001
    catalogue.usual_ranges.__wrapped__()


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("210 N/mm ± 90 N/mm", "210 N/mm", "Q304"),
        ("210 N/mm ± 90 N/mm", "210 N/mm ± 210 N/mm", "Q303"),
        ("210 N/mm ± 90 N/mm", "210 kg ± 90 kg", "Q202"),
        ('is = "100 kg"', 'is = "100 mm"', "Q202"),
    ],
)
def test_it_is_read_as_strictly_as_any_pack(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, old: str, new: str, code: str
) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        bad(tmp_path, monkeypatch, old, new)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("old", "new"), [('id = "tyre-rate"', 'name = "tyre-rate"'), ("[[tool]]", "[[tools]]")]
)
def test_it_has_no_other_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, old: str, new: str
) -> None:
    with pytest.raises(ExceptionGroup):
        bad(tmp_path, monkeypatch, old, new)
