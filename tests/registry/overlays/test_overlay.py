"""Tests of overlays: corrections and records of one's own on top of packs."""

from __future__ import annotations

import pickle
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.overlays.overlay import _Records, load_overlay
from barwright.registry.overlays.store import OverlaidStore
from each_case import each_case
from index_packs import answers, small_packs
from sample_packs import GOOD_PACK, changed_pack

HEADER = """\
schema = 2
id = "{}"
title = "Our shop"
licence = "CC0-1.0"

[[source]]
id = "gauge"
kind = "measured"
note = "Our own gauge."
"""
CORRECTION = """\
[[correction]]
of = "tiny:bar/one"
figure = "diameter"
is = "23.6 mm ± 0.02 mm"
source = "gauge"
at = "three places"
why = "Measured."
"""
MASS = """\
[[correction]]
of = "tiny:chassis/one"
figure = "axles.front.standard_mass"
is = "301 kg"
source = "gauge"
why = "With the shelves."
"""
BAR = """\
[[bar]]
id = "ours"
title = "Our bar"
source = "gauge"
material = "tiny:material/steel"
diameter = "24.4 mm"
length = "904 mm"

[bar.arm_end]
teeth = 39
form = "involute"
length = "37 mm"
major_diameter = "30 mm"
root_diameter = "28.1 mm"
taper = "22 mm"

[bar.anchor_end]
teeth = 42
form = "involute"
length = "37 mm"
major_diameter = "32.2 mm"
root_diameter = "30.4 mm"
taper = "26 mm"
"""


def overlay(folder: Path, *records: str, pack_id: str = "shop") -> Path:
    """An overlay of some records and corrections."""
    made = folder / pack_id
    made.mkdir()
    (made / "pack.toml").write_text(HEADER.format(pack_id), encoding="utf-8")
    (made / "ours.toml").write_text("\n".join(records), encoding="utf-8")
    return made


def under(*overlays: Path) -> bw.Registry:
    """The good pack with overlays on top."""
    return bw.Registry.from_folders(GOOD_PACK, overlays=overlays)


def good(*overlays: Path) -> bw.Registry:
    registry = under(*overlays)
    assert registry.problems == ()
    return registry


def bar_of(registry: bw.Registry, name: str = "tiny:bar/one") -> bw.parts.Bar:
    part = registry.part(name)
    assert isinstance(part, bw.parts.Bar)
    return part


def problems(*overlays: Path) -> list[tuple[str, str, int]]:
    """Code, key and line of each problem."""
    registry = under(*overlays)
    return [(p.code, p.key, p.line) for error in registry.problems for p in error.problems]


# -- Corrections ---------------------------------------------------------------------


def test_a_correction_that_is_estimated_needs_its_range(tmp_path: Path) -> None:
    guess = CORRECTION.replace('"gauge"', '"guess"')
    source = '\n[[source]]\nid = "guess"\nkind = "estimated"\nnote = "Seen on others."\n'
    made = overlay(tmp_path, guess.replace(" ± 0.02 mm", ""))
    header = made / "pack.toml"
    header.write_text(header.read_text(encoding="utf-8") + source, encoding="utf-8")

    assert problems(made) == [("Q304", "correction[0].is", 4)]
    (made / "ours.toml").write_text(guess, encoding="utf-8")
    known = bar_of(good(made)).about["diameter"]
    assert known.source_kind is bw.parts.SourceKind.ESTIMATED


def test_a_corrected_figure_keeps_what_it_replaces(tmp_path: Path) -> None:
    figure = bar_of(good(overlay(tmp_path, CORRECTION))).about["diameter"]

    assert (figure.value.m_as("mm"), figure.source, figure.at, figure.why) == (
        23.6,
        "shop:gauge",
        "three places",
        "Measured.",
    )
    assert figure.tolerance is not None
    assert figure.tolerance.m_as("mm") == pytest.approx(0.02)
    assert (figure.source_kind, figure.file, figure.key) == (
        bw.parts.SourceKind.MEASURED,
        "ours.toml",
        "correction[0].is",
    )
    assert figure.replaces == bar_of(good()).about["diameter"]


def test_whatever_refers_to_a_record_has_the_corrected_one(tmp_path: Path) -> None:
    registry = good(overlay(tmp_path, CORRECTION, MASS))

    setup = registry.setup("tiny:chassis/one", corner="front left")

    assert setup.bar.diameter.m_as("mm") == 23.6
    assert setup.axle.standard_mass.m_as("kg") == 301.0
    assert setup.load.mass.m_as("kg") == 301.0
    line = {line.figure: line for line in bw.trail(setup).lines}["bar.diameter"]
    assert (line.source, line.why) == ("shop:gauge", "Measured.")
    assert line.replaces is not None
    assert line.replaces.value.m_as("mm") == 23.3


def test_what_is_not_corrected_stays(tmp_path: Path) -> None:
    one, other = bar_of(good(overlay(tmp_path, CORRECTION))), bar_of(good())

    assert one.length == other.length
    assert one.about["length"] == other.about["length"]
    assert one.arm_end == other.arm_end
    assert good().part("tiny:arm/one") == good(overlay(tmp_path, pack_id="b")).part("tiny:arm/one")


def test_a_figure_of_a_table_in_a_record_can_be_corrected(tmp_path: Path) -> None:
    text = CORRECTION.replace('"diameter"', '"arm_end.length"').replace("23.6 mm", "36 mm")

    end = bar_of(good(overlay(tmp_path, text))).arm_end

    assert end.length.m_as("mm") == 36.0
    assert end.about["length"].replaces is not None


def test_a_figure_that_is_left_out_can_be_added(tmp_path: Path) -> None:
    text = CORRECTION.replace('"diameter"', '"bore"').replace("23.6 mm", "8 mm")

    bar = bar_of(good(overlay(tmp_path, text)))

    assert bar.bore is not None
    assert bar.bore.m_as("mm") == 8.0


def test_the_standards_can_be_corrected(tmp_path: Path) -> None:
    text = """\
[[correction]]
of = "standards:material/51crv4"
figure = "shear_modulus"
is = "79 GPa"
source = "gauge"
why = "Measured."
"""

    steel: Any = good(overlay(tmp_path, text)).part("standards:material/51crv4")

    assert steel.shear_modulus.m_as("GPa") == 79.0


def test_the_uppermost_of_several_overlays_counts_and_the_others_are_seen(tmp_path: Path) -> None:
    low = overlay(tmp_path, CORRECTION, pack_id="low")
    high = overlay(tmp_path, CORRECTION.replace("23.6", "23.7"), pack_id="high")

    figure = bar_of(good(low, high)).about["diameter"]

    values = []
    known: bw.parts.Figure | None = figure
    while known is not None:
        values.append((known.source.partition(":")[0], known.value.m_as("mm")))
        known = known.replaces
    assert values == [("high", 23.7), ("low", 23.6), ("tiny", 23.3)]
    assert bar_of(good(high, low)).diameter.m_as("mm") == 23.6


@pytest.mark.parametrize(
    ("text", "value", "tolerance"),
    [("23.6 mm +0.02 mm 0", 23.61, 0.01), ("23.6 mm +0.02 mm", 23.6, None)],
)
def test_a_correction_may_have_limits(
    tmp_path: Path, text: str, value: float, tolerance: float | None
) -> None:
    made = overlay(tmp_path, CORRECTION.replace("23.6 mm ± 0.02 mm", text))

    known = bar_of(good(made)).about["diameter"]

    expected = None if tolerance is None else bw.Quantity(tolerance, "mm")
    assert (known.value, known.tolerance) == (bw.Quantity(value, "mm"), expected)
    assert known.written == text
    setup = good(made).setup("tiny:chassis/one", corner="front left")
    line = {line.figure: line for line in bw.trail(setup).lines}["bar.diameter"]
    assert line.written == text


# -- Facts ---------------------------------------------------------------------------


def fact(figure: str, value: str, *, of: str = "tiny:bar/one") -> str:
    """A correction of a count, a word or a list."""
    return (
        CORRECTION.replace('"diameter"', f'"{figure}"')
        .replace('"23.6 mm ± 0.02 mm"', value)
        .replace("tiny:bar/one", of)
    )


def test_a_tooth_count_is_corrected_and_keeps_what_it_replaces(tmp_path: Path) -> None:
    registry = good(overlay(tmp_path, fact("arm_end.teeth", "40")))

    end = bar_of(registry).arm_end

    known = end.about["teeth"]
    assert isinstance(known, bw.parts.Fact)
    assert (end.teeth, known.value, known.source, known.at, known.why, known.key) == (
        *(40, 40, "shop:gauge", "three places", "Measured.", "correction[0].is"),
    )
    before = known.replaces
    assert isinstance(before, bw.parts.Fact)
    assert (before.value, before.source, before.at) == (39, "tiny:desk", "page 3")
    told = bw.trail(registry.setup("tiny:chassis/one", corner="front left"), figure="bar_rate")
    (line,) = told.facts
    assert (line.fact, line.value, line.source) == ("bar.arm_end.teeth", "40", "shop:gauge")
    assert (line.file, line.key, line.replaces) == ("ours.toml", "correction[0].is", before)


@pytest.mark.parametrize(
    ("of", "figure", "value", "expected"),
    [
        ("bar/one", "arm_end.blanks", "[0, 3]", (0, 3)),
        ("bar/one", "arm_end.form", '"square"', "square"),
        ("bar/one", "made_for", '"left"', bw.parts.Side.LEFT),
        ("arm/one", "socket.keyed", "false", False),
        ("chassis/one", "axles.front.entry", '"anchor end"', bw.parts.BarEndName.ANCHOR),
        ("chassis/one", "axles.front.load_at", '"hub"', bw.parts.LoadPoint.HUB),
        ("chassis/one", "axles.front.arm_direction", "[0, 1, 0.1]", (0.0, 1.0, 0.1)),
    ],
)
def test_any_fact_can_be_corrected(
    tmp_path: Path, of: str, figure: str, value: str, expected: object
) -> None:
    registry = good(overlay(tmp_path, fact(figure, value, of=f"tiny:{of}")))

    held: Any = registry.store.part(f"tiny:{of}")
    for step in figure.replace("axles.front", "axles").split("."):
        held = held[0] if isinstance(held, tuple) else held
        holder, held = held, getattr(held, step)
    assert held == expected
    assert holder.about[step].source == "shop:gauge"


def test_an_unknown_tooth_count_is_filled(tmp_path: Path) -> None:
    own = 'teeth = { is = "unknown", source = "bench" }, form'
    pack = changed_pack(tmp_path, "parts.toml", "teeth = 39, form", own)
    made = overlay(tmp_path, fact("socket.teeth", "39", of="tiny:arm/one"))

    registry = bw.Registry.from_folders(pack, overlays=[made])

    assert registry.problems == ()
    arm: Any = registry.part("tiny:arm/one")
    known = arm.socket.about["teeth"]
    assert known.value == arm.socket.teeth == 39
    assert (known.replaces.value, known.replaces.source) == ("unknown", "tiny:bench")


@each_case(
    "figure, value, problem",
    [
        ("arm_end.teeth", '"39"', "S203"),
        ("arm_end.teeth", "39.0", "S203"),
        ("arm_end.teeth", "true", "S203"),
        ("arm_end.teeth", "0", "S203"),
        ("arm_end.teeth", "10000", "S203"),
        ("arm_end.teeth", '"unknown"', "S203"),
        ("arm_end.blanks", "[0, 0]", "S203"),
        ("arm_end.blanks", "[0, 39]", "S207"),
        ("arm_end.blanks", "0", "S203"),
        ("arm_end.form", '" "', "S203"),
        ("made_for", '"middle"', "S204"),
        ("preset", '"true"', "S203"),
        ("preset", "true", "S207"),
        ("diameter", "23", "Q105"),
    ],
)
def test_a_fact_of_another_type_or_range_is_told(
    tmp_path: Path, figure: str, value: str, problem: str
) -> None:
    ((code, key, line),) = problems(overlay(tmp_path, fact(figure, value)))

    assert code == problem
    assert (key, line) == ("correction[0].is", 4) or figure == "preset"


def test_an_item_of_a_list_is_told_with_its_number(tmp_path: Path) -> None:
    made = overlay(tmp_path, fact("arm_end.blanks", '[0, "3"]'))

    assert [(code, key) for code, key, _ in problems(made)] == [("S203", "correction[0].is[1]")]


def test_what_a_vehicle_is_found_by_is_not_corrected(tmp_path: Path) -> None:
    made = overlay(tmp_path, fact("maker", '"Gnu"', of="tiny:chassis/one"))

    assert [(code, key) for code, key, _ in problems(made)] == [("S206", "correction[0].figure")]


def test_a_figure_takes_no_place_of_the_pack(tmp_path: Path) -> None:
    made = overlay(tmp_path, CORRECTION.replace('at = "three places"\n', ""))

    known = bar_of(good(made)).about["diameter"]

    assert (known.source, known.at) == ("shop:gauge", "")
    line = bw.trail(good(made).setup("tiny:chassis/one", corner="front left"), figure="bar_rate")
    assert [(one.at, one.source) for one in line.lines if one.why] == [("", "shop:gauge")]


# -- Records of its own ----------------------------------------------------------------


def test_a_record_of_its_own_may_refer_to_any_pack(tmp_path: Path) -> None:
    steel = CORRECTION.replace("bar/one", "material/steel").replace('"diameter"', '"shear_modulus"')
    steel = steel.replace("23.6 mm ± 0.02 mm", "78 GPa")
    registry = good(overlay(tmp_path, BAR, steel))

    bar = bar_of(registry, "shop:bar/ours")

    assert bar.material.id == "tiny:material/steel"
    assert bar.material.shear_modulus.m_as("GPa") == 78.0
    assert registry.part("bar/ours") == bar
    assert "shop:bar/ours" in registry.ids("bar")
    assert "shop:bar/ours" in [part.id for part in registry.parts()]


def with_vehicle(folder: Path, title: str) -> bw.Registry:
    """The good pack under an overlay with the same vehicle, of another title."""
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    for kind in ("arm", "bar", "tube", "adjuster", "damper"):
        text = text.replace(f'"{kind}/one"', f'"tiny:{kind}/one"')
    text = text.replace('source = "desk"', 'source = "gauge"').replace('"Vehicle"', f'"{title}"')
    return good(overlay(folder, text))


def test_a_vehicle_of_its_own_is_found_by_words(tmp_path: Path) -> None:
    registry = with_vehicle(tmp_path, "Gnu Vehicle")

    assert registry.resolve("gnu").id == "shop:chassis/one"
    assert len(registry.vehicles()) == 2
    with pytest.raises(bw.UnknownNameError, match="'gnu'"):
        registry.resolve("gnuu")


def test_words_of_the_packs_and_of_an_overlay_are_known_and_no_vehicle_has_both(
    tmp_path: Path,
) -> None:
    registry = with_vehicle(tmp_path, "Gnu")

    with pytest.raises(bw.UnknownNameError) as caught:
        registry.resolve("gnu vehicle")
    assert caught.value.expected == "a vehicle with all of these words"
    assert caught.value.remedy == "leave out 'gnu' or 'vehicle'"
    with pytest.raises(bw.UnknownNameError, match="none has 'yak'"):
        registry.resolve("gnu yak")


def test_an_overlay_is_one_of_the_packs_and_can_be_locked(tmp_path: Path) -> None:
    registry = good(overlay(tmp_path, CORRECTION))

    assert [pack.id for pack in registry.packs] == ["tiny", "shop"]
    assert list(bw.lock_of(registry).by_id) == ["shop", "standards", "tiny"]
    source = registry.source("shop:gauge")
    assert source is not None
    assert source.note == "Our own gauge."


def test_a_registry_with_overlays_survives_pickling(tmp_path: Path) -> None:
    registry = good(overlay(tmp_path, CORRECTION, BAR))

    other = pickle.loads(pickle.dumps(registry))  # noqa: S301

    assert bar_of(other) == bar_of(registry)
    assert bar_of(other).about["diameter"] == bar_of(registry).about["diameter"]


def test_an_empty_overlay_changes_no_answer(tmp_path: Path) -> None:
    packs = small_packs(tmp_path)
    empty = overlay(tmp_path)
    for cache in (True, False):
        plain = bw.Registry.from_folders(*packs, cache=cache)
        open_with_overlays = bw.Registry.from_folders(*packs, overlays=[empty], cache=cache)
        assert open_with_overlays.ids() == plain.ids()
        assert open_with_overlays.parts() == plain.parts()
        assert open_with_overlays.vehicles("van") == plain.vehicles("van")


def test_an_overlay_gives_the_same_with_and_without_an_index(tmp_path: Path) -> None:
    packs = small_packs(tmp_path)
    steel = next(name for name in bw.Registry.from_folders(*packs).ids("bar"))
    ours = overlay(tmp_path, CORRECTION.replace("tiny:bar/one", steel))

    one, other = (
        bw.Registry.from_folders(*packs, overlays=[ours], cache=cache) for cache in (True, False)
    )

    assert one.problems == other.problems == ()
    assert bar_of(one, steel).about["diameter"].why == "Measured."
    assert answers(one) == answers(other)


# -- What is wrong with one ------------------------------------------------------------


@each_case(
    "old, new, problem, remedy",
    [
        ("tiny:bar/one", "tiny:bar/onee", ("S206", "correction[0].of", 2), "'tiny:bar/one'"),
        ('"diameter"', '"diametre"', ("S206", "correction[0].figure", 3), "'diameter'"),
        ('"diameter"', '"material.shear_modulus"', ("S206", "correction[0].figure", 3), ""),
        ('"diameter"', '"title"', ("S206", "correction[0].figure", 3), ""),
        ('"gauge"', '"gage"', ("S206", "correction[0].source", 5), "'gauge'"),
        ("23.6 mm ±", "23.6 kg ±", ("Q202", "correction[0].is", 4), ""),
        ('"23.6 mm ± 0.02 mm"', '"23,6 mm"', ("Q101", "correction[0].is", 4), ""),
        ('"23.6 mm ± 0.02 mm"', '"-1 mm"', ("Q302", "correction[0].is", 4), ""),
        ('why = "Measured."', "", ("S202", "correction[0].why", 1), ""),
        ('why = "Measured."', 'wy = "Measured."', ("S201", "correction[0].wy", 7), "'why'"),
        ("[[correction]]", "[correction]", ("S203", "correction", 1), ""),
        ("[[correction]]", "[[corection]]", ("S201", "corection", 1), "'correction'"),
    ],
)
def test_a_slip_is_told_with_its_place(
    tmp_path: Path, old: str, new: str, problem: tuple[str, str, int], remedy: str
) -> None:
    assert old in CORRECTION
    made = overlay(tmp_path, CORRECTION.replace(old, new, 1))

    registry = under(made)

    assert problem in problems(made)
    assert [error.file for error in registry.problems] == [str(made)]
    assert remedy in " ".join(p.remedy for p in registry.problems[0].problems)
    assert [pack.id for pack in registry.packs] == ["tiny"]
    assert bar_of(registry).diameter.m_as("mm") == 23.3


def test_a_table_in_place_of_a_list_is_told_with_what_to_write(tmp_path: Path) -> None:
    made = overlay(tmp_path, CORRECTION.replace("[[correction]]", "[correction]"))

    (error,) = under(made).problems
    (problem,) = error.problems
    assert (problem.value, problem.remedy) == ("[correction]", "use double brackets")
    assert problem.expected == "a list of tables, [[correction]]"


def test_all_slips_are_told_at_once(tmp_path: Path) -> None:
    made = overlay(
        tmp_path,
        CORRECTION.replace("bar/one", "bar/none"),
        CORRECTION.replace('"diameter"', '"size"'),
        BAR.replace("24.4 mm", "24.4"),
    )

    assert sorted(code for code, *_ in problems(made)) == ["Q105", "S206", "S206"]


def test_all_slips_of_one_correction_are_told_at_once(tmp_path: Path) -> None:
    slips = CORRECTION.replace('"diameter"', '"size"').replace('"gauge"', '"gage"')

    assert sorted(problems(overlay(tmp_path, slips))) == [
        ("S206", "correction[0].figure", 3),
        ("S206", "correction[0].source", 5),
    ]


def test_a_figure_is_corrected_once(tmp_path: Path) -> None:
    assert problems(overlay(tmp_path, CORRECTION, CORRECTION)) == [
        ("S207", "correction[1].figure", 11)
    ]


def test_a_correction_that_no_record_can_have_is_told(tmp_path: Path) -> None:
    made = overlay(tmp_path, CORRECTION.replace('"diameter"', '"length"').replace("23.6", "50"))

    ((code, key, _),) = problems(made)

    assert (code, key.partition(".")[0]) == ("G103", "correction[0]")


def test_corrections_are_for_overlays_only(tmp_path: Path) -> None:
    registry = bw.Registry.from_folders(GOOD_PACK, overlay(tmp_path, CORRECTION))

    (problem,) = registry.problems[0].problems
    assert (problem.code, problem.value) == ("S201", "correction")
    assert problem.remedy == "lay the folder on top, and say overlay = true in its pack.toml"


@pytest.mark.parametrize("pack_id", ["tiny", "standards"])
def test_an_overlay_has_an_id_of_its_own(tmp_path: Path, pack_id: str) -> None:
    assert [(code, key) for code, key, _ in problems(overlay(tmp_path, pack_id=pack_id))] == [
        ("P301", "id")
    ]


def test_a_folder_that_is_no_overlay_is_told(tmp_path: Path) -> None:
    assert [code for code, *_ in problems(tmp_path / "nowhere")] == ["F101"]


def test_a_bad_overlay_does_not_hide_a_good_one(tmp_path: Path) -> None:
    bad = overlay(tmp_path, CORRECTION.replace("bar/one", "bar/none"), pack_id="bad")
    well = overlay(tmp_path, CORRECTION)

    registry = under(bad, well)

    assert [error.file for error in registry.problems] == [str(bad)]
    assert bar_of(registry).diameter.m_as("mm") == 23.6


def test_the_records_below_an_overlay_are_a_mapping() -> None:
    store = bw.Registry.from_folders(GOOD_PACK).store
    bars = _Records(store, "bar")

    assert list(bars) == list(store.ids("bar"))
    assert len(bars) == len(list(bars)) > 0
    assert bars["tiny:bar/one"] is store.part("tiny:bar/one")
    for name in ("tiny:bar/none", "bar/one", "tiny:arm/one"):
        assert name not in bars
        with pytest.raises(KeyError):
            bars[name]
    no_name: Any = 5
    assert no_name not in bars


def test_a_correction_in_the_header_is_an_unknown_key_and_corrects_nothing(tmp_path: Path) -> None:
    made = overlay(tmp_path)
    with (made / "pack.toml").open("a", encoding="utf-8") as header:
        header.write(f"\n{CORRECTION}")

    assert [(code, key) for code, key, _ in problems(made)] == [("S201", "correction")]
    assert bar_of(under(made)).diameter.m_as("mm") == 23.3


def test_a_reference_to_nothing_names_the_nearest_of_all_packs(tmp_path: Path) -> None:
    made = overlay(tmp_path, BAR.replace("tiny:material/steel", "tiny:material/stel"))

    ((problem,),) = [error.problems for error in under(made).problems]

    assert (problem.code, problem.key) == ("S206", "bar[0].material")
    assert "'tiny:material/steel'" in problem.remedy


def test_a_record_that_a_correction_makes_impossible_is_told_when_it_is_made(
    tmp_path: Path,
) -> None:
    base = bw.Registry.from_folders(GOOD_PACK).store
    found = load_overlay(snapshot_of(overlay(tmp_path, CORRECTION)), base)
    (change,) = found.changes
    length = bar_of(bw.Registry.from_folders(GOOD_PACK)).length / 100.0
    short = attrs.evolve(change, figure="length", known=attrs.evolve(change.known, value=length))
    store = OverlaidStore(base, (attrs.evolve(found, changes=(short,)),))

    with pytest.raises(bw.PackError) as caught:
        store.part("tiny:bar/one")

    assert [problem.code for problem in caught.value.problems] == ["G103"]
    assert caught.value.code == "P101"
    assert caught.value.file == str(tmp_path / "shop")
