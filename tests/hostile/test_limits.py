"""Whatever a pack's files hold, they are read or refused: at once, and with a code."""

from __future__ import annotations

import re
import tomllib
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.registry.files import file_limits as limits
from barwright.registry.files.document import parse_toml, read_toml
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.lock import read_lock
from barwright.registry.packs.load import load_pack
from benchmarks.many_packs import write_pack
from hostile.documents import ALLOWED, HOSTILE, SIZE, numbered
from rare_cases import rarely_after
from sample_packs import GOOD_PACK, changed_pack, problems_in

DOCS = Path(__file__).parents[2] / "docs"

DAMPER = """[[damper]]
id = "{}"
title = "Damper"
source = "desk"
open_length = "2 m"
closed_length = "{}"
"""


# -- Documents ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("code", "made"),
    [
        pytest.param(code, made, id=f"{code} {name}")
        for code, documents in HOSTILE.items()
        for name, made in documents.items()
    ],
)
def test_a_hostile_document_is_refused(
    tmp_path: Path, code: str, made: Callable[[], bytes]
) -> None:
    (tmp_path / "x.toml").write_bytes(made())

    with pytest.raises(bw.FileError) as caught:
        read_toml(tmp_path / "x.toml", shown_as="x.toml")

    assert (caught.value.code, caught.value.file) == (code, "x.toml")
    assert len(str(caught.value)) < 1000


@pytest.mark.parametrize("made", rarely_after(6, ALLOWED.values()), ids=ALLOWED)
def test_an_odd_document_within_the_limits_is_read(made: Callable[[], bytes]) -> None:
    data = made()

    assert parse_toml(data, shown_as="") == tomllib.loads(data.decode())


AT_THE_LIMIT = {
    "keys of 8 parts": numbered("k{0}.b.c.d.e.f.g.h = 1", size=26 * 4600) + b"\n[z]",
    "inline tables": numbered("k{0}={{}}", size=11 * 32_000),
}


@pytest.mark.slow
@pytest.mark.parametrize("data", AT_THE_LIMIT.values(), ids=AT_THE_LIMIT)
def test_what_the_parser_may_see_costs_it_little_memory(data: bytes) -> None:
    tracemalloc.start()
    try:
        with pytest.raises(bw.FileError, match="keys"):
            parse_toml(data, shown_as="")
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert peak < 150_000_000


# -- Packs ---------------------------------------------------------------------------------


def test_a_pack_of_a_hundred_vehicles_stays_far_below_all_limits(tmp_path: Path) -> None:
    write_pack(tmp_path, number=7, chassis=100)
    texts = [path.read_text(encoding="utf-8") for path in tmp_path.glob("*.toml")]

    assert max(map(len, texts)) * 5 < limits.LARGEST_FILE
    assert max(len(re.findall(r"[\[{.]", text)) for text in texts) * 2 < limits.MOST_TABLES
    assert max(len(line) for text in texts for line in text.splitlines()) * 5 < limits.LONGEST_LINE
    assert len(load_pack(tmp_path, origin="").parts) * 50 < limits.MOST_RECORDS * 2


def test_a_point_of_a_curve_with_its_own_source_is_as_deep_as_anything(tmp_path: Path) -> None:
    rubber = """[[chassis.axles]]
bump_rubber.contact_angle = "1 deg"
bump_rubber.contact_radius = "300 mm"
bump_rubber.curve = [
  { compression = { is = "9 mm", source = "desk" }, force = { is = "9 N", source = "desk" } },
]
"""
    pack = changed_pack(tmp_path, "vehicles.toml", "[[chassis.axles]]\n", rubber)

    assert problems_in(pack) == []


def pack_with(folder: Path, files: dict[str, str]) -> Path:
    """The good pack, with files more."""
    pack = changed_pack(folder, "pack.toml", "", "")
    for name, text in files.items():
        (pack / name).parent.mkdir(exist_ok=True)
        (pack / name).write_text(text, encoding="utf-8")
    return pack


FOUND: dict[str, tuple[dict[str, str], tuple[str, str, int]]] = {
    "brackets": ({"x.toml": f"\n[[bar]]\nblanks = {'[' * 500}"}, ("F104", "x.toml", 3)),
    "a key": ({"x.toml": f"[[bar]]\n\n{'a.' * 9}a = 1"}, ("F104", "x.toml", 3)),
    "depth": ({"x.toml": "\n[[bar]]\na.b.c.d.e.f.g.h = 1"}, ("F104", "x.toml", 2)),
    "items": ({"x.toml": f"[[bar]]\nblanks = [{'0, ' * 1001}]"}, ("F104", "x.toml", 2)),
    "a line": ({"x.toml": f"#\n#{'=' * 9000}"}, ("F104", "x.toml", 2)),
    "bytes": ({"x.toml": "#" * (SIZE + 1)}, ("F104", "x.toml", 0)),
    "text": ({"x.toml": f"[[bar]]\n\ntitle = '{'x' * 4097}'"}, ("F106", "x.toml", 3)),
    "a number": (
        {"x.toml": "[[bar]]\narm_end = { teeth = 9999999999999999999 }"},
        ("F106", "x.toml", 2),
    ),
    "vehicles": ({"x.toml": "[[chassis]]\n" * 10_001}, ("F107", "x.toml", 0)),
    "records": ({f"x{n}.toml": "[[bar]]\n" * 10_000 for n in range(2)}, ("F107", "x1.toml", 0)),
    "sources": ({"pack.toml": "[[source]]\n" * 1001}, ("F107", "pack.toml", 0)),
    "a pack": ({f"x{n}.toml": "#\n" * (SIZE // 2) for n in range(16)}, ("F107", "pack.toml", 0)),
    "a name": ({"X.toml": ""}, ("F108", "X.toml", 0)),
    "a folder's name": ({"con/x.toml": ""}, ("F108", "con/x.toml", 0)),
}


@pytest.mark.parametrize(("files", "problem"), rarely_after(6, FOUND.values()), ids=FOUND)
def test_a_limit_that_is_exceeded_is_a_finding_and_the_other_packs_are_there(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    files: dict[str, str],
    problem: tuple[str, str, int],
) -> None:
    pack = pack_with(tmp_path, files)
    other = tmp_path / "other"
    write_pack(other, number=7, chassis=1)

    [finding] = bw.lint_pack(pack).findings
    registry = bw.Registry.from_folders(pack, other)
    run(["lint", str(pack)])

    assert (finding.code, finding.file, finding.line) == problem
    assert finding.remedy
    assert finding.code in capsys.readouterr().out
    assert [info.id for info in registry.packs] == ["p0007"]
    [left_out] = registry.problems
    assert [(p.code, p.file, p.line) for p in left_out.problems] == [problem]


def test_after_very_many_problems_no_more_records_are_read(tmp_path: Path) -> None:
    bad = "".join(DAMPER.format(f"d{number}", "1") for number in range(3000))

    assert problems_in(pack_with(tmp_path, {"a.toml": bad})) == [
        f"Q105 damper[{number}].closed_length" for number in range(limits.MOST_PROBLEMS + 1)
    ]


def test_after_very_many_problems_no_more_corrections_checks_and_waivers_are_read(
    tmp_path: Path,
) -> None:
    header = (GOOD_PACK / "pack.toml").read_text(encoding="utf-8")
    empty = {name: f"[[{name}]]\n" * 3000 for name in ("correction", "check", "waiver")}
    overlay = tmp_path / "overlay"
    overlay.mkdir()
    (overlay / "pack.toml").write_text(f"overlay = true\n{header}", encoding="utf-8")
    (overlay / "x.toml").write_text(empty["correction"], encoding="utf-8")
    registry = bw.Registry.from_folders(overlays=[overlay])
    problems = registry.problems[0].problems
    assert limits.MOST_PROBLEMS < len(problems) < limits.MOST_PROBLEMS + 10

    for name in ("check", "waiver"):
        pack = pack_with(tmp_path / name, {"x.toml": empty[name]})
        reported = [one for one in bw.lint_pack(pack).findings if one.key.startswith(name)]
        assert limits.MOST_PROBLEMS < len(reported) < limits.MOST_PROBLEMS + 10


def test_after_very_many_problems_no_more_packs_of_a_lock_are_read(tmp_path: Path) -> None:
    (tmp_path / "x.lock").write_text("[[pack]]\n" * 3000, encoding="utf-8")
    with pytest.raises(bw.LockError) as caught:
        read_lock(tmp_path / "x.lock")
    keys = {problem.key.partition(".")[0] for problem in caught.value.problems}
    assert len(keys - {"schema", "library"}) == limits.MOST_PROBLEMS + 1


def test_of_very_many_records_a_thousand_are_compared_with_a_wrong_reference(
    tmp_path: Path,
) -> None:
    steel = '[[material]]\nid = "m{}"\ntitle = "M"\nsource = "desk"\nshear_modulus = "77 GPa"\n'
    bars = '[[bar]]\nid = "x"\ntitle = "X"\nsource = "desk"\nmaterial = "material/m1500"\n'
    steels = "".join(steel.format(number) for number in range(1400))
    pack = pack_with(tmp_path, {"a.toml": steels, "b.toml": bars})
    with pytest.raises(bw.PackError, match="did you mean 'material/m") as caught:
        load_pack(pack, origin="")
    assert [p.code for p in caught.value.problems if p.key == "bar[0].material"] == ["S206"]


def test_words_of_more_characters_than_a_text_can_have_name_no_vehicle() -> None:
    registry = bw.Registry.from_folders(GOOD_PACK)
    assert registry.vehicles("van " * 1024) == registry.vehicles("van")
    with pytest.raises(bw.UnknownNameError, match="at most 4096 characters") as caught:
        registry.resolve("van! " * 1025)
    assert caught.value.code == "L101"
    assert len(str(caught.value)) < 1000


def test_a_vehicle_is_not_blamed_for_parts_that_were_not_read(tmp_path: Path) -> None:
    bad = "".join(DAMPER.format(f"d{number}", "1") for number in range(3000))
    late = {"a.toml": bad, "z.toml": DAMPER.format("late", "1 m")}

    assert {problem[:4] for problem in problems_in(pack_with(tmp_path, late))} == {"Q105"}


def test_unknown_tables_of_very_many_files_are_not_all_told(tmp_path: Path) -> None:
    tables = "".join(f"[[t{number}]]\n" for number in range(400))
    files = {f"x{number}.toml": tables for number in range(5)}

    assert len(problems_in(pack_with(tmp_path, files))) == 1200


def test_a_pack_that_exceeds_a_limit_has_a_digest_of_its_own(tmp_path: Path) -> None:
    one = snapshot_of(pack_with(tmp_path / "one", {"X.toml": ""}))
    other = snapshot_of(pack_with(tmp_path / "other", {"Y.toml": ""}))

    assert len({one.digest, other.digest, snapshot_of(GOOD_PACK).digest}) == 3


# -- The page ------------------------------------------------------------------------------


def test_the_page_lists_all_limits() -> None:
    page = (DOCS / "pack-file.md").read_text(encoding="utf-8")
    section = page.partition("## Names and limits")[2].partition("\n## ")[0]

    rows = re.findall(r"^\| [^|]+ \| ([\d,]+) \| \[?([FPS]\d+)", section, re.MULTILINE)

    assert [(int(most.replace(",", "")), code) for most, code in rows] == [
        (limits.LARGEST_FILE, "F104"),
        (limits.LONGEST_LINE, "F104"),
        (limits.DEEPEST, "F104"),
        (limits.MOST_PARTS, "F104"),
        (limits.MOST_TABLES, "F104"),
        (limits.MOST_WORDS, "F104"),
        (limits.MOST_ITEMS, "F104"),
        (limits.LONGEST_TEXT, "F106"),
        (limits.LONGEST_WORD, "F106"),
        (limits.LARGEST_PACK, "F107"),
        (limits.MOST_FILES, "F107"),
        (limits.MOST_ENTRIES, "F107"),
        (limits.MOST_CHASSIS, "F107"),
        (limits.MOST_SOURCES, "F107"),
        (limits.MOST_RECORDS, "F107"),
        (limits.MOST_INHERITED, "F107"),
        (limits.MOST_BASES, "S207"),
        (limits.DEEPEST_FOLDER, "F108"),
        (limits.LONGEST_NAME, "F108"),
        (limits.MOST_PACKS, "P201"),
        (limits.LARGEST_FILE, "P201"),
        (limits.LARGEST_TABLE, "F104"),
        (limits.MOST_ROWS, "F110"),
    ]
    assert f"{limits.MOST_PROBLEMS:,} problems" in section
    assert limits.LARGEST_NUMBER == 2**63
    assert len(rows) + 1 == len(limits.__all__)
