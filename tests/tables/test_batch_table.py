"""Tables in memory: Arrow and data frames, as they come in and as they go out."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Mapping
from typing import Any

import attrs
import pandas as pd
import polars as pl
import pyarrow as pa
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.tables import asked_of_rows
from barwright.tables import batch_table as in_memory
from draws import draws
from each_case import each_case
from sample_packs import discovered_once

VAN = discovered_once().setup("fells:chassis/short", corner="front left")

ROWS = {"id": ["a", "b", "c", "d"], "load.mass [kg]": [260.0, -1.0, None, 320.0]}


def arrow(rows: Mapping[str, list[Any]]) -> Any:
    """A table whose units stand in the metadata of its fields."""
    headings = [re.match(r"([^ ]+)(?: \[(.*)\])?$", name) for name in rows]
    arrays = [pa.array(column) for column in rows.values()]
    fields = [
        pa.field(found[1], array.type, metadata={"unit": found[2]} if found[2] else None)
        for found, array in zip(headings, arrays, strict=True)
        if found
    ]
    return pa.table(arrays, schema=pa.schema(fields))


@pytest.mark.parametrize("made", [pa.table, arrow, lambda rows: arrow(rows).to_batches()[0]])
def test_an_arrow_table_is_answered_by_one(made: Callable[[Any], Any]) -> None:
    answer = bw.batch_table(VAN, made(ROWS), keep=["id"])

    alone = bw.batch(VAN, {"load.mass [kg]": ROWS["load.mass [kg]"]})
    assert answer.column_names[:5] == ["id", "load.mass", "verdict", "error_code", "error"]
    assert answer["id"].to_pylist() == ROWS["id"]
    assert answer["load.mass"].to_pylist() == ROWS["load.mass [kg]"]
    assert answer["verdict"].to_pylist() == ["rated", None, None, "rated"]
    assert answer["error_code"].to_pylist() == [None, "Q302", "Q301", None]
    assert answer["error"].to_pylist() == [alone.error_texts.get(row) for row in range(4)]
    for name, figures in alone.columns.items():
        column = answer[name].to_numpy()
        unit = (answer.schema.field(name).metadata or {}).get(b"unit", b"").decode()
        expected = figures.m_as(unit) if unit else figures
        # Where the rows lie in memory may change the last digit.
        assert column == pytest.approx(expected, rel=1e-12, nan_ok=True)
    assert pa.types.is_dictionary(answer["verdict"].type)
    assert answer["ride.wheel_rate"].null_count == 2


def test_a_reader_is_answered_as_it_is_read() -> None:
    read: list[int] = []

    def batches() -> Any:
        for number, batch in enumerate(pa.table(ROWS).to_batches(max_chunksize=2)):
            read.append(number)
            yield batch

    reader = pa.RecordBatchReader.from_batches(pa.table(ROWS).schema, batches())
    answer = bw.batch_table(VAN, reader, keep=["id"])

    assert not read
    assert answer.read_next_batch().num_rows == 2
    assert read == [0]
    assert answer.read_all()["error_code"].to_pylist() == ["Q301", None]


@pytest.mark.parametrize("frame", [pl.DataFrame, pl.LazyFrame])
def test_a_frame_of_polars_is_answered_by_one(frame: Any) -> None:
    answer = bw.batch_table(VAN, frame(ROWS), keep=["id"], asked="fit")

    assert isinstance(answer, pl.DataFrame)
    assert answer.columns[:3] == ["id", "load.mass [kg]", "verdict"]
    assert answer["verdict"].to_list() == ["fits", None, None, "fits"]
    assert answer["active_length [mm]"].null_count() == 2


def test_a_frame_of_pandas_keeps_its_index() -> None:
    answer = bw.batch_table(VAN, pd.DataFrame(ROWS, index=[7, 8, 9, 3]), keep=["id"])

    assert isinstance(answer, pd.DataFrame)
    assert list(answer.index) == [7, 8, 9, 3]
    assert answer.loc[9, "error_code"] == "Q301"
    assert answer["verdict"].tolist()[::3] == ["rated", "rated"]


def test_a_curve_is_a_list_in_each_row() -> None:
    answer = bw.batch_table(VAN, pa.table(ROWS), keep=["id"], asked="ride", system="inch")

    alone: Any = bw.batch(VAN, {"load.mass [kg]": ROWS["load.mass [kg]"]}, asked="ride")
    loads = answer["curve.wheel_load"].to_pylist()
    assert loads[1:3] == [None, None]
    assert loads[3] == pytest.approx(alone["curve.wheel_load"].m_as("lbf")[3])
    assert answer.schema.field("curve.wheel_load").metadata == {b"unit": b"lbf"}


def test_a_figure_with_the_name_of_an_answer_is_that_of_the_setup(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    answer = bw.batch(VAN, {"load.mass [kg]": [260.0]}, asked="fit")
    named = attrs.evolve(answer, columns={"load.mass": answer["position"]})
    monkeypatch.setattr(asked_of_rows, "batch", lambda *_, **__: named)

    rows = bw.batch_table(VAN, pa.table({"load.mass [kg]": [260.0]}), asked="fit")

    assert rows.column_names == ["setup.load.mass", "verdict", "error_code", "error", "load.mass"]


def test_many_rows_are_answered_in_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = bw.batch_table(VAN, pa.table(ROWS), keep=["id"])
    monkeypatch.setattr(in_memory, "CHUNK", 3)

    pieces = bw.batch_table(VAN, pa.table(ROWS), keep=["id"])

    assert pieces.schema == whole.schema
    assert pieces["error"].to_pylist() == whole["error"].to_pylist()
    heights = pytest.approx(whole["ride.height"].to_numpy(), rel=1e-12, nan_ok=True)
    assert pieces["ride.height"].to_numpy() == heights


def test_a_table_without_rows_has_an_answer_without_rows() -> None:
    answer = bw.batch_table(VAN, pa.table(ROWS).slice(0, 0), keep=["id"])

    assert answer.num_rows == 0
    assert answer.schema == bw.batch_table(VAN, pa.table(ROWS), keep=["id"]).schema


def test_texts_are_read_as_figures_cell_by_cell() -> None:
    masses = ["291", "291 kg", " 641.545 lb ", "2.91e2", "+291", "", None, "many", "291 mm", "0,3"]
    answer = bw.batch_table(VAN, pa.table({"load.mass [kg]": masses}))

    assert answer["load.mass"].to_pylist()[:5] == pytest.approx([291.0] * 5, abs=1e-3)
    codes = answer["error_code"].to_pylist()
    assert codes == [None] * 5 + ["Q301", "Q301", "Q104", "Q202", "Q101"]
    assert answer["error"][7].as_py().startswith("Q104: load.mass: got 'many'")


@pytest.mark.parametrize(
    "column",
    [
        pa.array(["0.5 in", "0.25 in"]),
        pa.array(["0.5 in", "0.25 in"], pa.large_string()),
        pa.array(["0.5 in", "0.25 in"]).dictionary_encode(),
        pa.array(["0.5 in", "0.25 in"], pa.string_view()),
    ],
)
def test_texts_may_give_their_unit_where_the_column_has_none(column: Any) -> None:
    answer = bw.batch_table(VAN, pa.table({"bar.diameter": column}))

    assert answer["bar.diameter"].to_pylist() == pytest.approx([12.7, 6.35])
    assert answer.schema.field("bar.diameter").metadata[b"unit"] == b"mm"


@pytest.mark.parametrize(
    "column",
    [
        pa.array([260, 291], pa.int16()),
        pa.array([260, 291], pa.float32()),
        pa.array([260, 291], pa.decimal128(6, 2)),
        pa.array([260.0, 291.0]).dictionary_encode(),
    ],
)
def test_numbers_of_any_type_are_read(column: Any) -> None:
    answer = bw.batch_table(VAN, pa.table({"load.mass [kg]": column}))

    assert answer["load.mass"].to_pylist() == [260.0, 291.0]
    assert answer["error_code"].null_count == 2


@settings(max_examples=draws(30))
@given(
    numbers=st.lists(
        st.one_of(
            st.floats(width=64),
            st.floats(0.0, 1e4).map(lambda number: round(number, 3)),
            st.integers(-(10**12), 10**12).map(float),
        ),
        min_size=1,
        max_size=8,
    )
)
def test_a_number_is_the_same_as_a_text(numbers: list[float]) -> None:
    as_numbers = bw.batch_table(VAN, pa.table({"load.mass [kg]": pa.array(numbers)}), asked="fit")
    texts = [repr(number) for number in numbers]
    as_texts = bw.batch_table(VAN, pa.table({"load.mass [kg]": texts}), asked="fit")

    assert as_texts["verdict"] == as_numbers["verdict"]
    for row in range(len(numbers)):
        if as_numbers["verdict"][row].as_py():
            assert as_texts["load.mass"][row] == as_numbers["load.mass"][row]


@each_case(
    "table, code, says",
    [
        (3, "S203", "expected an Arrow table, record batch or reader, or a data frame"),
        ({"load.mass [kg]": [291.0]}, "S203", "give arrays to bw.batch"),
        (pd.DataFrame({"load.mass [kg]": [1.0, "x"]}), "Q104", "Could not convert 'x'"),
        (pd.DataFrame({3: [1.0]}), "S201", "got '3'"),
        (pa.table({"load.mass [kg]": [True]}), "Q104", "a column of bool"),
        (pa.table({"load.mass [m]": [1.0]}), "Q202", "numbers in kg or lb"),
        (pa.table({"load.mass": [1.0]}), "Q105", "numbers in kg or lb"),
        (pa.table({"load.mass": ["1"]}), "Q105", "numbers in kg or lb"),
        (pa.table({"load.mas [kg]": [1.0]}), "S201", "named in keep"),
        (pa.table({}), "S202", "at least one"),
        (pa.table([[1.0], [2.0]], names=["load.mass [kg]", "load.mass[lb]"]), "S205", "no other"),
        (pa.table([[1.0], [2.0]], names=["load.mass [kg]", "bar.bor [m]"]), "S201", "bar.bor"),
    ],
)
def test_a_wrong_table_is_refused(table: object, code: str, says: str) -> None:
    with pytest.raises(bw.BarwrightError, match=re.escape(says)) as caught:
        bw.batch_table(VAN, table)

    assert caught.value.code == code


def test_units_that_contradict_each_other_are_refused() -> None:
    field = pa.field("load.mass [kg]", pa.float64(), metadata={"unit": "lb"})
    with pytest.raises(bw.QuantityError, match="lb, as the metadata"):
        bw.batch_table(VAN, pa.table([[1.0]], schema=pa.schema([field])))


def test_all_that_is_wrong_with_columns_is_told_at_once() -> None:
    table = pa.table({"load.mass": [1.0], "verdict": ["x"]})
    with pytest.raises(bw.TableError) as caught:
        bw.batch_table(VAN, table, keep=["verdict", "idd"])

    assert [problem.code for problem in caught.value.problems] == ["S205", "S206", "Q105"]


@pytest.mark.parametrize("missing", ["pyarrow", "narwhals"])
def test_without_the_extra_it_is_named(missing: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, missing, None)

    with pytest.raises(bw.MissingExtraError, match=re.escape("barwright[frames]")):
        bw.batch_table(VAN, pd.DataFrame(ROWS), keep=["id"])


def test_a_curve_is_a_list_of_its_points() -> None:
    rows = {"load.mass [kg]": [260.0, 320.0]}

    answer = bw.batch_table(VAN, arrow(rows), asked="ride")

    alone: Any = bw.batch(VAN, rows, asked="ride")["curve.wheel_load"]
    field = answer.schema.field("curve.wheel_load")
    assert pa.types.is_fixed_size_list(field.type)
    unit = field.metadata[b"unit"].decode()
    assert answer["curve.wheel_load"].to_pylist() == alone.m_as(unit).tolist()
    for frame in (pd.DataFrame(rows), pl.DataFrame(rows)):
        answered = bw.batch_table(VAN, frame, asked="ride")
        assert len(answered["curve.wheel_load [N]"][1]) == 41
