"""The measuring sheet: one letter for each figure, and keys that read as what was measured."""

from __future__ import annotations

import base64
import collections
import functools
import sys
import tomllib
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.answers import FigureState, Needs
from barwright.report.page.measuring import MeasuringAxle, MeasuringRow, measuring_page
from barwright.report.page.paper import Paper
from barwright.report.safe_text import one_line
from drawn import Drawn
from gaps import without
from hostile_texts import TEXTS
from printed_pages import DEMO_JOBS, pdf_texts, read_html, said
from rare_cases import rarely_after
from sample_packs import discovered_once

ROOT = Path(__file__).parents[3]
TRUCK = ROOT / "plugins/barwright-pack-hodmule/src/barwright_pack_hodmule"
# What a shop does not know of a truck that it has never had before.
GAPS = (
    *("bar.diameter", "bar.arm_end.teeth", "bar.anchor_end.teeth", "bar.arm_end.length"),
    *("arm.radius", "anchor.face_start", "anchor.face_end", "anchor.face_offset"),
    *("anchor.socket.teeth", "adjuster.thread_pitch", "adjuster.mounting.line_distance"),
    *("damper.closed_length", "axle.droop_stop", "axle.bump_stop", "axle.space_behind"),
)


def demo_corners(name: str) -> list[bw.Setup]:
    job = bw.load_job(ROOT / "docs" / "examples" / f"{name}.toml", discovered_once())
    return [corner.setup for corner in job.corners]


@functools.cache
def demo_needs(name: str) -> list[Needs]:
    """What is to be measured for a demo job, in which nothing is missing."""
    return [bw.needs(setup) for setup in demo_corners(name)]


def half_known(setup: bw.Setup) -> bw.Setup:
    for path in GAPS:
        part, _, figure = path.partition(".")
        setup = attrs.evolve(setup, **{part: without(getattr(setup, part), figure)})
    return setup


@pytest.fixture(scope="module")
def truck() -> list[Needs]:
    return [bw.needs(half_known(setup)) for setup in demo_corners("firmer-bars")]


@pytest.fixture(scope="module", params=DEMO_JOBS)
def answers(request: pytest.FixtureRequest) -> list[Needs]:
    return demo_needs(request.param)


def rows_of(answers: list[Needs], **options: Any) -> list[MeasuringRow]:
    return [row for axle in measuring_page(answers, **options).axles for row in rows_on(axle)]


def rows_on(axle: MeasuringAxle) -> list[MeasuringRow]:
    return [row for table in axle.tables for row in table.rows]


# -- Letters -----------------------------------------------------------------------------


@pytest.mark.parametrize("every", rarely_after(1, [False, True]))
def test_each_figure_has_one_letter_in_the_table_and_on_one_drawing(
    answers: list[Needs], *, every: bool
) -> None:
    (axle,) = measuring_page(answers, every=every).axles
    letters = [row.letter for row in rows_on(axle)]
    assert len(set(letters)) == len(letters)
    drawn = collections.Counter(
        word
        for row in axle.drawings
        for drawing in row
        for word in Drawn(drawing.svg).words
        if word in letters
    )
    assert drawn == collections.Counter(letters)
    assert not {"I", "O"} & set(letters)


def test_a_heading_says_on_which_drawings_its_letters_are(truck: list[Needs]) -> None:
    (axle,) = measuring_page(truck).axles
    drawings = [Drawn(drawing.svg).words for row in axle.drawings for drawing in row]
    for table in axle.tables:
        for row in table.rows:
            number = next(n for n, words in enumerate(drawings, 1) if row.letter in words)
            assert str(number) in table.title.partition("(drawing")[2]


def test_all_that_is_missing_assumed_or_unsure_is_asked_for_and_what_is_read(
    truck: list[Needs],
) -> None:
    keys = {row.key for row in rows_of(truck)}
    asked = {row.key for one in truck for row in one.rows if row.state is not FigureState.KNOWN}
    readings = {"[measured] height", "[present] pin_distance", "[load] scale_reading"}
    assert keys == asked | readings
    every = {row.key for row in rows_of(truck, every=True)}
    assert every == readings | {row.key for row in truck[0].rows} - {
        "[present] nut_turns",
        "[load] mass",
    }


def test_what_the_vehicle_shows_is_called_by_its_own_name_and_read_anew(
    truck: list[Needs],
) -> None:
    """The tolerance of a figure tells nothing of where a nut stands today."""
    known = [bw.needs(setup) for setup in demo_corners("firmer-bars")]
    for answers in (truck, known):
        shown = {row.key: row for row in rows_of(answers, every=True)}
        called = {
            "[measured] height": "height, hub to arch",
            "[present] pin_distance": "place of the nut or bolt",
            "[load] scale_reading": "load on the scales",
        }
        assert {key: shown[key].figure for key in called} == called
        assert all(not any(shown[key].known) for key in called)


def test_a_trailer_with_a_fixed_socket_has_no_nut_to_read() -> None:
    (first, *_) = answers = demo_needs("loaded-trailer")
    assert [row.figure for row in first.as_it_stands] == ["reading.height", "load.mass"]
    assert "[present] pin_distance" not in {row.key for row in rows_of(answers)}


def test_the_usual_error_of_the_tool_stands_beside_it(truck: list[Needs]) -> None:
    tools = {row.key: row.tool for row in rows_of(truck)}
    assert tools["[measured] height"] == "tape ±\N{NO-BREAK SPACE}2\N{NO-BREAK SPACE}mm"
    assert said(tools["[present] pin_distance"]) == said("calliper ± 0.5 mm")
    assert tools["[bar.arm_end] teeth"] == "count"
    assert said(tools["[axle] droop_stop"]) == said("protractor ± 0.5°")
    tools = {row.key: row.tool for row in rows_of(truck, every=True)}
    assert said(tools["[arm.socket] key_angle"]) == said("protractor ± 1°")


def test_inches_are_written_in_where_they_are_wanted(truck: list[Needs]) -> None:
    rows = {row.key: row for row in rows_of(truck, system="inch")}
    assert rows["[arm] radius"].written_in == "in"
    assert said(rows["[arm] radius"].tool) == said("tape ± 0.079 in")
    assert rows["[load] scale_reading"].written_in == "lb"
    assert rows["[axle] droop_stop"].written_in == "deg"


def test_each_axle_has_its_own_drawings_and_tables(truck: list[Needs]) -> None:
    rear = demo_needs("loaded-trailer")
    page = measuring_page([*truck, *rear])
    assert [axle.corners for axle in page.axles] == [
        ("front left", "front right"),
        ("rear left", "rear right"),
    ]
    assert [rows_on(axle)[0].letter for axle in page.axles] == ["A", "A"]


def test_what_one_corner_lacks_has_an_empty_line_for_it() -> None:
    left, right = demo_needs("firmer-bars")
    bare = attrs.evolve(right, rows=())
    row = next(row for row in rows_of([left, bare]) if row.key == "[axle] measured_height")
    assert [bool(known) for known in row.known] == [True, False]


# -- Typed back --------------------------------------------------------------------------


def place_of(key: str, tables: dict[str, Any]) -> tuple[dict[str, Any], str]:
    """Table of a pack that a key of the sheet stands in, and the key there."""
    table, _, figure = key.partition("] ")
    place: dict[str, Any] = tables
    for step in table.removeprefix("[").split("."):
        place = place[step]
    return place, figure


def truck_tables(bar: str) -> tuple[dict[str, Any], dict[str, dict[str, Any]]]:
    """Tables of the truck's parts by the names that the sheet has for them, and the files."""
    files = {p.name: tomllib.loads(p.read_text("utf-8")) for p in sorted(TRUCK.glob("*.toml"))}
    parts, axle = files["parts.toml"], files["trucks.toml"]["chassis"][0]["axles"][0]
    own = {kind: parts[kind][0] for kind in ("arm", "adjuster", "damper")}
    bars = {one["id"]: one for one in files["bars.toml"]["bar"]}
    return {**own, "bar": bars[bar], "anchor": parts["key-lever"][0], "axle": axle}, files


def toml(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{key} = {toml(inner)}' for key, inner in value.items())} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(toml, value))}]"
    return f"{value}" if isinstance(value, int | float) else f'"{value}"'


def written(files: dict[str, dict[str, Any]], folder: Path) -> bw.Registry:
    """A registry of the truck's pack, its files as tables."""
    folder.mkdir()
    for name, tables in files.items():
        lines: list[str] = []
        for key, value in tables.items():
            if isinstance(value, list):
                for record in value:
                    lines += [f"[[{key}]]", *(f"{k} = {toml(v)}" for k, v in record.items())]
            else:
                lines.append(f"{key} = {toml(value)}")
        (folder / name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    return bw.Registry.from_folders(folder)


def taken_out(tables: dict[str, Any]) -> dict[str, str]:
    """What nobody knows of the truck, by the keys of the sheet."""
    keys = {row.figure: row.key for row in demo_needs("firmer-bars")[0].rows}
    filled = {}
    for path in GAPS:
        place, key = place_of(keys[path], tables)
        filled[keys[path]] = place.pop(key)
    return filled


def test_the_truck_s_sheet_filled_in_and_typed_into_its_pack_gives_the_same_plan(
    tmp_path: Path,
) -> None:
    job = ROOT / "docs" / "examples" / "firmer-bars.toml"
    tables, files = truck_tables("firm")
    filled = taken_out(tables)
    corners = bw.load_job(job, written(files, tmp_path / "gaps")).corners
    lacking = [bw.needs(corner.setup) for corner in corners]
    assert {row.key for row in lacking[0].missing} == filled.keys()
    assert filled.keys() <= {row.key for row in rows_of(lacking)}

    for typed, value in filled.items():
        place, key = place_of(typed, tables)
        place[key] = value
    found = bw.reindex_job(bw.load_job(job, written(files, tmp_path / "again")))
    expected = bw.reindex_job(bw.load_job(job, discovered_once()))
    assert [one.plans for one in found] == [one.plans for one in expected]


@pytest.mark.rare
def test_the_truck_s_sheet_filled_in_and_typed_into_the_job_gives_the_same_plan(
    tmp_path: Path,
) -> None:
    job = tmp_path / "standard-bars.toml"
    example = (ROOT / "docs" / "examples" / "firmer-bars.toml").read_text("utf-8")
    job.write_text(example.replace('bar = "hodmule:bar/firm"', ""), encoding="utf-8")
    tables, files = truck_tables("standard")
    filled = taken_out(tables)
    gaps = written(files, tmp_path / "gaps")
    assert filled.keys() <= {
        row.key for row in rows_of([bw.needs(one.setup) for one in bw.load_job(job, gaps).corners])
    }

    typed: dict[str, list[str]] = {}
    for written_key, value in filled.items():
        table, _, key = written_key.partition("] ")
        typed.setdefault(f"{table}]", []).append(f"{key} = {toml(value)}")
    lines = [line for table, keys in typed.items() for line in (table, *keys)]
    filled_in = tmp_path / "filled-in.toml"
    filled_in.write_text("\n".join([job.read_text("utf-8"), *lines]), encoding="utf-8")
    found = bw.reindex_job(bw.load_job(filled_in, gaps))
    expected = bw.reindex_job(bw.load_job(job, discovered_once()))
    assert [one.plans for one in found] == [one.plans for one in expected]
    assert any(one.plans for one in found)


def test_every_key_of_the_truck_s_parts_is_that_of_the_pack() -> None:
    tables, _ = truck_tables("firm")
    read = 0
    for row in demo_needs("firmer-bars")[0].rows:
        if row.value is None or ".material." in row.figure or row.figure.startswith("load"):
            continue
        place, key = place_of(row.key, tables | {"present": {"nut_turns": "0 turn"}})
        # What is left out has a value all the same, and none that somebody wrote.
        if key in place:
            number = float(str(place[key]).split()[0])
            assert float(row.value.magnitude) == pytest.approx(number)
            read += 1
    assert read > 60


def test_readings_typed_into_a_job_are_read(tmp_path: Path) -> None:
    text = (ROOT / "docs" / "examples" / "firmer-bars.toml").read_text("utf-8")
    text = text.replace("sprung_mass", "scale_reading").replace("541 kg ± 4 kg", "601 kg ± 3 kg")
    typed = "\n".join(
        [
            *(text, "[measured]", 'height = "488 mm ± 2 mm"'),
            *("[present]", 'pin_distance = "47.5 mm ± 2 mm"'),
        ]
    )
    (tmp_path / "job.toml").write_text(typed, encoding="utf-8")
    (corner, _) = bw.load_job(tmp_path / "job.toml", discovered_once()).corners
    found = {row.key: row for row in bw.needs(corner.present).as_it_stands}
    assert {key: f"{row.value:g~P}" for key, row in found.items()} == {
        "[measured] height": "488 mm",
        "[present] pin_distance": "47.5 mm",
        "[load] scale_reading": "601 kg",
    }


# -- On paper and on a screen ------------------------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_half_known_truck_takes_two_pages(truck: list[Needs], paper: Paper) -> None:
    first, second = pdf_texts(bw.needs_pdf(truck, paper=paper))
    assert "15missingfigures" in first.replace("\u200b", "")
    for row in rows_of(truck):
        assert said(row.figure) in second
        assert said(row.key) in second


def test_the_pdf_is_the_same_twice_and_has_the_paper_s_size(truck: list[Needs]) -> None:
    assert bw.needs_pdf(truck) == bw.needs_pdf(truck)
    assert bw.needs_pdf(truck) != bw.needs_pdf(truck, paper="letter")


def test_the_page_of_html_says_all_and_stands_alone(truck: list[Needs]) -> None:
    html = bw.needs_html(truck)
    assert html == bw.needs_html(truck)
    found = read_html(html)
    for row in rows_of(truck):
        assert row.figure in found.texts
        assert row.key in found.texts
        assert row.where in found.texts
    assert "http" not in html
    assert "<script" not in html
    for source, alt in zip(
        found.attributes("img", "src"), found.attributes("img", "alt"), strict=True
    ):
        assert source
        assert base64.b64decode(source.partition(",")[2]).startswith(b"<svg")
        assert alt
        assert "Letters on it" in alt


def test_markdown_has_a_line_to_write_on_for_each_side(truck: list[Needs]) -> None:
    text = bw.needs_markdown(truck)
    line = next(line for line in text.splitlines() if r"\[arm\] radius" in line)
    assert line.count(r"\_\_\_\_\_\_ mm ± \_\_\_\_ mm") == 2
    text = bw.needs_markdown(demo_needs("firmer-bars"))
    line = next(line for line in text.splitlines() if r"\[axle\] measured\_height" in line)
    assert "(so far 492 mm ± 3 mm)" in line.replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize("text", rarely_after(2, TEXTS.values()), ids=TEXTS)
def test_no_text_of_a_pack_is_read_as_a_page(truck: list[Needs], text: str) -> None:
    spoiled = [attrs.evolve(one, vehicle=f"Of {text}") for one in truck]
    plain = read_html(bw.needs_html(truck))
    found = read_html(bw.needs_html(spoiled))
    assert [tag for tag, _ in found.tags] == [tag for tag, _ in plain.tags]
    assert any(one_line(text).strip() in shown for shown in found.texts)
    assert len(pdf_texts(bw.needs_pdf(spoiled))) >= 2
    markdown = bw.needs_markdown(spoiled)
    assert len(markdown.splitlines()) == len(bw.needs_markdown(truck).splitlines())
    assert "<script" not in markdown.replace(r"\<", "")


def test_no_answer_makes_no_page() -> None:
    with pytest.raises(bw.SchemaError, match="at least one"):
        bw.needs_html([])


@pytest.mark.parametrize(("package", "write"), [("jinja2", "html"), ("typst", "pdf")])
def test_a_missing_extra_is_named(
    truck: list[Needs], package: str, write: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, package, None)
    with pytest.raises(bw.MissingExtraError, match=r"pip install 'barwright\[report\]'"):
        getattr(bw, f"needs_{write}")(truck)
