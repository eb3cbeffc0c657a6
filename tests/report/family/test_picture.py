"""The picture of a family chart: each bar in its row, black where it goes in as it is."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import attrs

import barwright as bw
from demo_charts import DEMO, TRUCKS, VANS


def texts(svg: str) -> list[str]:
    return [one.text or "" for one in ET.fromstring(svg).iter() if one.tag.endswith("text")]  # noqa: S314


def strips(svg: str, name: str) -> list[tuple[float, float]]:
    """From where to where the strips of a kind go, left to right."""
    found = re.findall(rf'd="M([^"]+)Z"[^>]*data-name="{name}"', svg)
    return [
        (min(xs), max(xs))
        for path in found
        for xs in [[float(point.split()[0]) for point in path.split("L")]]
    ]


def test_it_says_what_a_counter_asks_first() -> None:
    words = texts(bw.family_svg(VANS))
    assert words[0] == "Torsion bars: Fells carrier"
    assert words.count("standard") == 3 + 1
    assert {"+31 %", "+29 %", "+26 %", "-13 %", "+0 %* right", "+17 % left"} <= {*words}
    assert {"short wheelbase", "at 409 mm", "standard 21.0 N/mm"} <= {*words}
    assert words[-1] == "Change of the rate at the wheel."


def test_a_strip_is_as_long_as_the_change_and_black_without_changes() -> None:
    svg = bw.family_svg(TRUCKS)
    lengths = sorted(high - low for low, high in strips(svg, "without changes"))
    changes = sorted(abs(line.pair.wheel_rate_change or 0.0) for line in TRUCKS.lines)
    scale = lengths[-1] / changes[-1]
    assert all(
        abs(length - scale * change) < 0.002
        for length, change in zip(lengths, changes, strict=True)
    )
    assert strips(svg, "with changes") == []
    assert len(strips(bw.family_svg(VANS), "with changes")) == 2


def test_it_is_black_white_and_grey_and_stays_within_its_width() -> None:
    for chart in (VANS, TRUCKS):
        svg = bw.family_svg(chart)
        colours = set(re.findall(r"#[0-9a-f]{6}", svg))
        assert all(colour[1:3] == colour[3:5] == colour[5:] for colour in colours)
        ends = [
            x
            for kind in ("with changes", "without changes")
            for pair in strips(svg, kind)
            for x in pair
        ]
        assert min(ends) > 56.0
        assert max(ends) < 186.0
        assert bw.family_svg(chart) == svg


def test_what_finds_no_room_is_counted() -> None:
    every = texts(bw.family_svg(bw.family_chart(DEMO, processes=1)))
    assert every[0] == "Torsion bars: by vehicle"
    assert every[-1] == (
        "Change of the rate at the wheel. No room for 3 more bars and 1 more wheelbase: choose by "
        "words."
    )
    assert "middle wheelb…" in " ".join(every)
    lines = tuple(
        attrs.evolve(line, pair=attrs.evolve(line.pair, bar_id=f"{number}", bar_title="x" * 99))
        for number, line in enumerate(TRUCKS.groups[0].lines * 10)
    )
    group = attrs.evolve(TRUCKS.groups[0], lines=lines)
    many = texts(bw.family_svg(attrs.evolve(TRUCKS, groups=(group,))))
    assert many[-1].endswith(" No room for 3 more bars: choose by words.")
    assert any(words.endswith("…") for words in many)


def test_nothing_is_a_picture_without_rows() -> None:
    none = bw.family_chart(DEMO, "zzz", processes=1)
    assert texts(bw.family_svg(none))[0] == "Torsion bars: by vehicle"
    bare = attrs.evolve(
        TRUCKS,
        groups=(),
        wheelbases=tuple(
            attrs.evolve(one, height=None, standard_rate=None) for one in TRUCKS.wheelbases
        ),
    )
    assert "short wheelbase" in texts(bw.family_svg(bare))


def test_no_text_of_a_pack_is_markup() -> None:
    group = TRUCKS.groups[0]
    pair = attrs.evolve(group.lines[0].pair, bar_title="<script>&\x1b[31m")
    line = attrs.evolve(group.lines[0], pair=pair)
    svg = bw.family_svg(attrs.evolve(TRUCKS, groups=(attrs.evolve(group, lines=(line,)),)))
    assert "<script" not in svg
    assert "\x1b" not in svg
