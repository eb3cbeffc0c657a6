"""Tests of `import_table`: a pack of a table says what the table says, or nothing is written."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path

import pyarrow as pa
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyarrow import parquet

import barwright as bw
from barwright.registry.importing import draft
from barwright.registry.importing.import_table import Imported, import_table
from barwright.testing import CONTRACT, complaints
from rare_cases import rarely_after
from table_packs import HEADINGS, ROWS, carrier_map, write_files, written_table

MAP = carrier_map()


def imported(
    folder: Path, rows: Sequence[tuple[str, ...]], mapping: str = MAP, *, skip: bool = False
) -> Imported:
    table, read_as, output = write_files(folder, written_table(*rows), mapping)
    # Who does not say that bad rows are left out wants none left out.
    options = {"skip_bad_rows": True} if skip else {}
    return import_table(table, read_as, output, **options)


def data_of(folder: Path) -> Path:
    (header,) = folder.rglob("pack.toml")
    return header.parent


def opened(folder: Path) -> bw.Registry:
    return bw.Registry.from_folders(data_of(folder), cache=False)


def problems(folder: Path, rows: Sequence[tuple[str, ...]], mapping: str = MAP) -> list[str]:
    """What an import that writes nothing says."""
    with pytest.raises(bw.TableError) as caught:
        imported(folder, rows, mapping)
    assert not (folder / "moor").exists()
    return [str(problem) for problem in caught.value.problems]


def changed(row: int, **cells: str) -> list[tuple[str, ...]]:
    """The usual rows with other cells in one of them, each by the first word of its heading."""
    names = [heading.split(" [")[0].replace(" ", "_") for heading in HEADINGS]
    rows = [dict(zip(names, cells_of, strict=True)) for cells_of in ROWS]
    assert cells.keys() <= set(names)
    rows[row] |= cells
    return [tuple(one.values()) for one in rows]


# -- A good table --------------------------------------------------------------------------


def test_each_row_is_a_vehicle_that_says_what_the_row_says(tmp_path: Path) -> None:
    made = imported(tmp_path, ROWS)

    assert (made.rows, made.left_out, made.problems) == (3, (), ())
    assert made.counts == {
        "arm": 1,
        "bar": 2,
        "tube": 1,
        "adjuster": 1,
        "damper": 1,
        "chassis": 3,
    }
    registry = opened(tmp_path)
    assert registry.problems == ()
    for number, row in enumerate(ROWS, start=2):
        chassis = registry.chassis(f"moor:chassis/{row[0].lower()}")
        assert chassis.model == row[1]
        assert chassis.wheelbase is not None
        assert chassis.wheelbase.m_as("mm") == float(row[3])
        known = chassis.about["wheelbase"]
        assert (known.source, known.at) == ("moor:list", f"row {number}")
        mass = chassis.axles[0].about["standard_mass"]
        assert (mass.value.m_as("kg"), mass.at) == (float(row[6]), f"row {number}")
        bar = chassis.axles[0].left.bar
        assert (bar.id, bar.diameter.m_as("mm")) == (f"moor:bar/{row[4].lower()}", float(row[5]))
        assert bar.about["diameter"].at == f"row {2 if row[4] == 'A' else 3}"
        # What the map alone says does not come from a row.
        assert chassis.axles[0].left.arm.about["radius"].at == "map vans.map.toml"


def test_the_pack_lints_clean_passes_its_tests_and_names_the_file(tmp_path: Path) -> None:
    made = imported(tmp_path, ROWS)

    assert set(made.files) == {path for path in (tmp_path / "moor").rglob("*") if path.is_file()}
    assert bw.lint_pack(data_of(tmp_path)).findings == ()
    assert [complaints(data_of(tmp_path), test) for test in CONTRACT] == [[]] * len(CONTRACT)
    (source,) = opened(tmp_path).packs[0].header.source
    assert source.note == "List of carriers, made up. Table vans.csv."
    readme = (tmp_path / "moor" / "README.md").read_text("utf-8")
    assert "barwright import-table" in readme
    assert "$" not in readme
    assert (tmp_path / "moor" / "LICENSE").read_text("utf-8").startswith("Creative Commons")


def test_a_version_in_the_map_is_the_pack_s(tmp_path: Path) -> None:
    imported(tmp_path, ROWS, 'version = "1.2.0"\n' + MAP)

    assert opened(tmp_path).packs[0].header.version == "1.2.0"


def test_a_vehicle_like_another_one_says_only_what_differs(tmp_path: Path) -> None:
    like = """
[[chassis]]
id = "{code}-late"
title = "{model} {code}, late, invented"
like = "chassis/{code}"
first_built = "2036-01"
"""

    imported(tmp_path, ROWS, MAP + like)

    registry = opened(tmp_path)
    assert registry.problems == ()
    late, early = (registry.chassis(f"moor:chassis/fc-1{end}") for end in ("-late", ""))
    assert late.axles[0].standard_mass == early.axles[0].standard_mass


def test_the_same_table_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        imported(tmp_path / name, ROWS)

    first, second = (
        {path.name: path.read_bytes() for path in data_of(tmp_path / name).iterdir()}
        for name in ("one", "two")
    )
    assert first == second


def test_parquet_gives_the_same_records_as_csv(tmp_path: Path) -> None:
    (tmp_path / "csv").mkdir()
    imported(tmp_path / "csv", ROWS)
    table, mapping, output = write_files(tmp_path, "", MAP)
    columns = dict(zip(HEADINGS, map(list, zip(*ROWS, strict=True)), strict=True))
    numbers = {name: pa.array(map(float, columns[name])) for name in HEADINGS if "[" in name}
    table = table.with_suffix(".parquet")
    parquet.write_table(pa.table(columns | numbers), table)

    import_table(table, mapping, output)

    for name in ("bar-001.toml", "chassis-001.toml"):
        one, other = (data_of(tmp_path / f).joinpath(name) for f in ("csv/moor", "moor"))
        assert one.read_text("utf-8").replace(".0 kg", " kg") == other.read_text("utf-8")


def test_parts_that_are_the_same_are_written_once_under_the_first_id(tmp_path: Path) -> None:
    imported(tmp_path, changed(2, bar="C", bar_diameter="23.1"))

    registry = opened(tmp_path)
    assert set(registry.ids("bar")) == {"moor:bar/a", "moor:bar/b"}
    assert registry.chassis("moor:chassis/fc-3").axles[0].left.bar.id == "moor:bar/a"
    assert bw.lint_pack(data_of(tmp_path)).findings == ()


def test_parts_with_an_unknown_figure_may_differ_and_stay_apart(tmp_path: Path) -> None:
    rows = changed(0, bar_diameter="")
    rows[1] = (*rows[1][:5], "", rows[1][6])
    rows[2] = (*rows[2][:4], "C", "23.1", rows[2][6])

    imported(tmp_path, rows)

    assert len(opened(tmp_path).ids("bar")) == 3
    assert bw.lint_pack(data_of(tmp_path)).exit_code == 0


def test_many_records_are_split_into_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(draft, "_A_FILE", 2)
    rows = [*ROWS, ("FC-9", "Moor short", "2029-13", *ROWS[0][3:])]

    assert problems(tmp_path, rows)[0].startswith("S204: vans.csv: row 5, chassis.first_built: ")
    imported(tmp_path, rows[:3])
    names = {path.name for path in data_of(tmp_path).glob("chassis*")}
    assert names == {"chassis-001.toml", "chassis-002.toml"}
    assert len(opened(tmp_path).ids("chassis")) == 3


def is_plain(text: str) -> bool:
    """Whether a text is no formula, nor a word that means that there is nothing."""
    return not text.strip().startswith(("=", "@", "#"))


@settings(max_examples=10)
@given(
    st.lists(
        st.tuples(
            st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=20),
            st.decimals("2000", "3000", places=1),
            st.integers(0, 3),
        ),
        min_size=1,
        max_size=8,
    )
)
def test_any_text_and_any_number_arrive_as_they_were(given: list[tuple[str, object, int]]) -> None:
    """Whatever a cell says goes into one text of the pack, or its row is refused."""
    rows = [
        (f"FC-{number}", model, "2029-01", str(wheelbase), f"B{bar}", f"23.{bar}", "291")
        for number, (model, wheelbase, bar) in enumerate(given)
    ]
    with tempfile.TemporaryDirectory() as made:
        try:
            result = imported(Path(made), rows, skip=True)
        except bw.TableError:
            # No row of them has a text for its title.
            assert not any(row[1].strip() and is_plain(row[1]) for row in rows)
            return
        registry = opened(Path(made))
        assert registry.problems == ()
        assert len(registry.ids("chassis")) == result.rows == len(rows) - len(result.left_out)
        for number, (code, model, _, wheelbase, *_) in enumerate(rows, start=2):
            if number not in result.left_out:
                chassis = registry.chassis(f"moor:chassis/{code.lower()}")
                assert chassis.model == (model.strip() or None)
                assert chassis.wheelbase == bw.Quantity(float(wheelbase), "mm")


# -- A table with bad rows -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("cells", "said"),
    rarely_after(
        5,
        [
            (
                {"first_built": "2029-13"},
                "S204: vans.csv: row 3, chassis.first_built: got '2029-13'",
            ),
            ({"wheelbase": "2432,5"}, "Q101: vans.csv: row 3, chassis.wheelbase: got '2432,5 mm'"),
            ({"bar_diameter": "23 kg"}, "Q202: vans.csv: row 3, bar.diameter: got '23 kg ± 0.05"),
            ({"sprung_mass": "=B2"}, "S203: vans.csv: row 3, sprung mass: got '=B2'"),
            ({"bar_diameter": "-1"}, "Q302: vans.csv: row 3, bar.diameter: got '-1 mm'"),
            ({"code": "FC 1"}, "S205: vans.csv: row 3, chassis.id: got 'fc-1'"),
            ({"code": "x" * 65}, "S205: vans.csv: row 3, chassis.id: got 'xxx"),
            ({"code": "Ä"}, "S203: vans.csv: row 3, chassis.id: got ''"),
            ({"model": ""}, "S202: vans.csv: row 3, chassis.title: got 'nothing'"),
            ({"bar": ""}, "S202: vans.csv: row 3, chassis.axles[0].left.bar: got 'nothing'"),
        ],
    ),
)
def test_a_bad_row_is_told_with_its_number_and_nothing_is_written(
    tmp_path: Path, cells: dict[str, str], said: str
) -> None:
    (told,) = problems(tmp_path, changed(1, **cells))

    assert told.startswith(said)
    made = imported(tmp_path, changed(1, **cells), skip=True)
    assert (made.rows, made.left_out) == (2, (3,))
    assert [str(problem) for problem in made.problems] == [told]
    assert {name[-1] for name in opened(tmp_path).ids("chassis")} == {"1", "3"}
    assert bw.lint_pack(data_of(tmp_path)).findings == ()


def test_one_id_for_two_parts_is_told_with_what_differs(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, changed(2, bar_diameter="23.2"))

    assert "row 4, bar.id: got 'a', expected an id that row 2 does not give" in told
    assert "it differs in diameter" in told
    assert "an id that row 2 does not give to another bar;" in told


def test_an_id_that_was_found_to_be_another_part_s_is_kept_to_it(tmp_path: Path) -> None:
    rows = changed(1, bar="C", bar_diameter="23.1")
    rows[2] = (*rows[2][:4], "C", "23.4", rows[2][6])

    (told,) = problems(tmp_path, rows)

    assert "row 4, bar.id: got 'c', expected an id that row 2 does not give" in told


def test_a_row_with_too_few_cells(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, [ROWS[0], ROWS[1][:-1]])

    assert told.startswith("S203: vans.csv: row 3: got '6 cells', expected 7, one for each heading")


def test_all_bad_rows_are_told_at_once_in_their_order(tmp_path: Path) -> None:
    rows = changed(2, first_built="2029-13")
    rows[1] = (*rows[1][:6], "=B2")

    told = problems(tmp_path, rows)

    assert [one.partition(": row ")[2][0] for one in told] == ["3", "4"]


def test_what_is_wrong_with_every_row_is_told_once(tmp_path: Path) -> None:
    mapping = MAP.replace('tyre_radius = "283 mm"', 'tyre_radius = "283 kg"')

    (told,) = problems(tmp_path, ROWS, mapping)

    assert "row 2, chassis.axles[0].tyre_radius" in told
    assert told.endswith("; the same in 2 more row(s)")


def test_every_row_of_a_part_that_is_wrong_is_left_out(tmp_path: Path) -> None:
    made = imported(
        tmp_path, [*changed(2, bar="B", bar_diameter="23.4 kg")[1:], ROWS[0]], skip=True
    )

    assert made.left_out == (3,)
    rows = [(*row[:4], "A", "1 kg", row[6]) for row in ROWS[:2]]
    (tmp_path / "two").mkdir()
    made = imported(tmp_path / "two", [*rows, changed(2, bar="C")[2]], skip=True)
    assert made.left_out == (2, 3)
    assert len(made.problems) == 1


@pytest.mark.parametrize("skip", [False, True])
def test_where_no_row_is_good_nothing_is_written(tmp_path: Path, *, skip: bool) -> None:
    rows = [(*row[:2], "soon", *row[3:]) for row in ROWS]

    with pytest.raises(bw.TableError):
        imported(tmp_path, rows, skip=skip)

    assert not (tmp_path / "moor").exists()


# -- A bad map -----------------------------------------------------------------------------


@pytest.mark.parametrize("skip", [False, True])
def test_what_the_map_alone_says_is_told_of_the_map(tmp_path: Path, *, skip: bool) -> None:
    mapping = MAP.replace('radius = "330 mm ± 0.5 mm"', 'radius = "330 kg"')

    with pytest.raises(bw.TableError) as caught:
        imported(tmp_path, ROWS, mapping, skip=skip)

    (problem,) = caught.value.problems
    assert (problem.file, problem.key) == ("vans.map.toml", "arm.radius")


def test_a_column_that_is_not_there(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, ROWS, MAP.replace("{bar diameter}", "{bar dia}"))

    assert told.startswith("S206: vans.map.toml: bar: got 'bar dia', expected the name of a column")


@pytest.mark.parametrize(
    ("old", "new", "code", "key"),
    [
        ('licence = "CC0-1.0"', "licence = 3", "S203", "licence"),
        ('id = "moor"', 'id = "Moor"', "S205", "id"),
        ('kind = "invented"', 'kind = "heard"', "S204", "source[0].kind"),
    ],
)
def test_a_header_that_is_wrong_is_told_of_the_map(
    tmp_path: Path, old: str, new: str, code: str, key: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        imported(tmp_path, ROWS, MAP.replace(old, new, 1))

    found = caught.value
    assert (found.code, found.file, found.key) == (code, "vans.map.toml", key)
    assert not (tmp_path / "moor").exists()


def test_a_kind_of_table_that_is_wrong_everywhere_is_told_of_a_row(tmp_path: Path) -> None:
    told = problems(tmp_path, ROWS, MAP.replace('kind = "strut"', 'kind = "leaf"'))

    assert "row 2, chassis.axles[0].suspension.kind" in told[0]


def test_a_text_that_no_pack_can_hold_is_told(tmp_path: Path) -> None:
    mapping = MAP.replace('maker = "Nobody"', f'maker = "{"{model}" * 500}"')

    with pytest.raises(bw.FileError) as caught:
        imported(tmp_path, ROWS, mapping)

    assert (caught.value.code, caught.value.file) == ("F106", "vans.csv")
    assert not (tmp_path / "moor").exists()


# -- A place for it ------------------------------------------------------------------------


def test_a_folder_that_is_there_stays_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "moor").mkdir()

    with pytest.raises(bw.FileError, match="already exists"):
        imported(tmp_path, ROWS)

    assert list((tmp_path / "moor").iterdir()) == []
