"""Tests of `index_file`, `index_build` and `index_search`: what goes in comes out."""

from __future__ import annotations

import datetime as dt
import itertools
import sqlite3
import tomllib
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.files.cache_files import digest_of_file
from barwright.registry.files.user_cache import DamagedIndexError
from barwright.registry.index import build as index_build
from barwright.registry.index import store as index_store
from barwright.registry.index.build import IndexBuilder
from barwright.registry.index.file import IndexFile, open_index, packed, unpacked
from barwright.registry.index.store import IndexedPack, IndexStore
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.load import load_pack, standards
from barwright.registry.packs.search_terms import Condition
from barwright.registry.packs.store import MemoryStore
from index_packs import small_packs

_ZONES = st.sampled_from([None, dt.UTC, dt.timezone(dt.timedelta(hours=-3, minutes=-30))])
_PLAIN = (
    st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False)
    | st.text()
    | st.dates()
    | st.times()
    | st.datetimes(timezones=_ZONES)
)
TABLES = st.dictionaries(
    st.text(),
    st.recursive(
        _PLAIN,
        lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
        max_leaves=8,
    ),
)


@given(table=TABLES)
def test_what_toml_can_hold_comes_back(table: dict[str, Any]) -> None:
    read = tomllib.loads(tomli_w.dumps(table))

    again = unpacked(packed(read))

    assert again == read
    assert repr(again) == repr(read)  # 1 and 1.0 and True are kept apart, and the order too


def test_what_json_alone_would_lose_comes_back() -> None:
    read = tomllib.loads("a = inf\nb = -0.0\nc = 1979-05-27\nd = 07:32:00.5\ne = 1e400\n")

    assert repr(unpacked(packed(read))) == repr(read)
    assert str(unpacked(packed({"x": float("nan")}))) == "{'x': nan}"


# -- Packs in an index ----------------------------------------------------------------


@pytest.fixture(scope="module")
def packs(tmp_path_factory: pytest.TempPathFactory) -> list[Pack]:
    """The standards, and packs with many vehicles of few words."""
    folders = small_packs(tmp_path_factory.mktemp("packs"), count=4, chassis=12)
    return [standards(), *(load_pack(folder, origin="") for folder in folders)]


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """An empty file."""
    (tmp_path / "x.index").touch()
    return tmp_path / "x.index"


def written(place: Path, *packs: Pack) -> IndexFile:
    """An index of packs."""
    builder = IndexBuilder(place)
    for pack in packs:
        builder.add(pack.digest, pack)
    digest = builder.finish()
    found = open_index(place, digest)
    assert found is not None
    return found


def store_of(file: IndexFile, *packs: Pack) -> IndexStore:
    """The store of some packs that stand in an index."""
    rows = file.packs()
    kept = [IndexedPack(rows[p.digest], p.folder, p.origin, "") for p in packs]
    return IndexStore(file, kept)


def test_an_index_is_the_same_bytes_whenever_it_is_written(
    packs: list[Pack], tmp_path: Path
) -> None:
    digests = set()
    for name in ("one", "two"):
        (tmp_path / name).touch()
        builder = IndexBuilder(tmp_path / name)
        for pack in packs:
            builder.add(pack.digest, pack)
        digests.add(builder.finish())

    assert len(digests) == 1


def test_records_are_found_by_pack_and_short_id(packs: list[Pack], place: Path) -> None:
    file = written(place, *packs)
    rows = file.packs()

    for pack in packs:
        row = rows[pack.digest]
        assert (row.id, row.problems) == (pack.id, ())
        assert file.header(row.number) == pack.table
        assert file.counts(row.number) == pack.info.counts
        for entry in pack.entries.values():
            assert file.entry(row.number, entry.short) == (
                entry.file,
                entry.key,
                entry.table,
                [],
            )
    assert file.entry(rows[packs[1].digest].number, "material/51crv4") is None
    assert file.entry(999, "chassis/v0") is None
    assert len(file.shorts(None)) == sum(len(pack.parts) for pack in packs)
    assert {short for _, short in file.shorts("bar")} == {f"bar/p{n}" for n in range(4)}
    assert (file.shorts("ba"), file.shorts("")) == ([], [])
    assert len(file.packs_with("chassis/v3")) == 4


def test_packs_are_taken_out_without_a_trace(packs: list[Pack], place: Path) -> None:
    written(place, *packs).close()
    builder = IndexBuilder(place)
    builder.drop([])
    assert builder.digests() == {pack.digest for pack in packs}
    builder.drop([packs[2].digest, packs[4].digest, "unknown"])
    builder.add(packs[4].digest, packs[4])
    assert builder.digests() == {packs[n].digest for n in (0, 1, 3, 4)}
    file = open_index(place, builder.finish())

    assert file is not None
    kept = [packs[0], packs[1], packs[3], packs[4]]
    indexed, memory = store_of(file, *kept), MemoryStore(kept[0], kept[1:])
    assert indexed.ids() == memory.ids()
    assert indexed.words() == memory.words()
    for table in ("body", "built", "term"):
        rows = file._rows(f"SELECT record FROM {table}")  # noqa: S608, SLF001 - nothing is left
        numbers = {number for (number,) in file._rows("SELECT number FROM record")}  # noqa: SLF001
        assert {record for (record,) in rows} <= numbers


def conditions(packs: list[Pack]) -> Iterator[list[Condition]]:
    """Words and times of all kinds: frequent and rare, known and unknown, alone and together."""
    words = ["van", "short", "maker2", "model3", "v1", "v11", "p0001", "nobody", "", "va", "VAN"]
    single = [Condition(word=word) for word in words]
    single += [Condition(word="van", attribute=name) for name in ("title", "id", "word", "none")]
    times = [(0, 10), (24_000, 24_000), (24_011, 24_030), (24_200, 99_999), (5, 4)]
    single += [Condition(months=time) for time in times]
    single += [Condition(word="van", months=times[2]), Condition(word="no", months=times[1])]
    yield []
    yield from ([one] for one in single)
    yield from map(list, itertools.permutations(single, 2))
    yield from map(list, itertools.combinations(single[:6], 3))
    assert packs


def test_vehicles_are_found_by_words_and_times_as_in_memory(
    packs: list[Pack], place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The times are by the vehicle's number, so that some overlap and some have none."""

    def months(chassis: bw.parts.Chassis) -> tuple[int, int] | None:
        number = int(chassis.id.rpartition("v")[2])
        return (24_000 + number, 24_000 + 5 * number) if number % 3 else None

    monkeypatch.setattr(index_build, "months", months)
    monkeypatch.setattr("barwright.registry.packs.store.months", months)
    kept = packs[:-1]  # one pack of the index is not of this registry
    indexed = store_of(written(place, *packs), *kept)
    memory = MemoryStore(kept[0], kept[1:])
    counts = []
    for asked in conditions(packs):
        found = memory.having(asked)
        assert indexed.having(asked) == found, asked
        counts.append(len(found))
        for condition in asked:
            assert indexed.knows(condition) == memory.knows(condition), condition
    assert {0, 1, 36} <= set(counts)
    for attribute in ("", "title", "id", "word", "none"):
        assert indexed.words(attribute) == memory.words(attribute)


def test_words_of_a_pack_that_is_not_kept_are_not_known(packs: list[Pack], place: Path) -> None:
    indexed = store_of(written(place, *packs), *packs[:2])

    assert indexed.knows(Condition(word="maker0"))
    assert indexed.knows(Condition(word="van"))
    assert not indexed.knows(Condition(word="maker3"))


def test_names_that_no_index_can_hold_are_unknown(packs: list[Pack], place: Path) -> None:
    file = written(place, *packs[:2])

    for name in ("\udcff", "chassis/\0", "chassis/" + "v" * 10_000, "%", "chassis/v'--"):
        assert file.entry(2, name) is None
        assert file.packs_with(name) == []
        assert file.having([Condition(word=name)]) == set()


def test_an_index_may_lie_anywhere(packs: list[Pack], tmp_path: Path) -> None:
    folder = tmp_path / "a b?mode=rw#%41 ß"
    folder.mkdir()
    (folder / "x").touch()

    assert written(folder / "x", packs[1]).packs()[packs[1].digest].id == packs[1].id


def test_an_index_is_never_written_to(packs: list[Pack], place: Path) -> None:
    file = written(place, packs[1])

    with pytest.raises(DamagedIndexError):
        file._rows("DELETE FROM pack")  # noqa: SLF001 - nothing else would try
    assert sorted(path.name for path in place.parent.iterdir()) == ["x.index"]


def test_a_record_that_is_damaged_is_refused(packs: list[Pack], place: Path) -> None:
    """Even if the index itself says nothing of it: each record has a sum of its own."""
    written(place, packs[1]).close()
    connection = sqlite3.connect(place)
    connection.execute("UPDATE body SET entry = substr(entry, 1, 20) || x'00' || substr(entry, 22)")
    connection.execute(
        "DELETE FROM body WHERE record IN (SELECT number FROM record WHERE pack > 1)"
    )
    connection.commit()
    connection.close()
    file = IndexFile(place)

    with pytest.raises(DamagedIndexError):
        file.entry(1, "chassis/v0")
    file.close()
    with pytest.raises(DamagedIndexError):
        file.packs()


def test_a_record_without_a_body_is_refused(packs: list[Pack], place: Path) -> None:
    written(place, packs[1]).close()
    connection = sqlite3.connect(place)
    connection.execute("DELETE FROM body")
    connection.commit()
    connection.close()

    with pytest.raises(DamagedIndexError):
        IndexFile(place).entry(1, "chassis/v0")


def test_a_file_that_is_no_index_is_none(tmp_path: Path) -> None:
    path = tmp_path / "x"
    path.write_bytes(b"no index")

    assert open_index(path, "0" * 64) is None
    assert open_index(tmp_path / "none", "0" * 64) is None
    assert open_index(tmp_path, "0" * 64) is None


def test_few_records_are_made_and_the_latest_are_kept(
    packs: list[Pack], place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = []
    real = index_store.IndexStore.entry

    def entry(store: IndexStore, full_id: str) -> Any:
        made.append(full_id.partition(":")[2].partition("/")[0])
        return real(store, full_id)

    monkeypatch.setattr(index_store.IndexStore, "entry", entry)
    store = store_of(written(place, *packs), *packs)
    assert made == []

    chassis = store.part("p0001:chassis/v3")

    assert sorted(made) == ["adjuster", "arm", "bar", "chassis", "damper", "material", "tube"]
    assert store.part("p0001:chassis/v3") is chassis
    assert isinstance(chassis, bw.parts.Chassis)
    assert chassis.axles[0].left.bar is store.part(chassis.axles[0].left.bar.id)
    assert len(made) == 7
    assert attrs.asdict(chassis) == attrs.asdict(packs[2].parts["p0001:chassis/v3"])


def test_a_forged_index_in_which_a_question_would_never_end_is_none(
    packs: list[Pack], place: Path
) -> None:
    written(place, packs[1]).close()
    connection = sqlite3.connect(place)
    connection.executescript(
        "DROP TABLE pack; CREATE VIEW pack AS WITH RECURSIVE endless (number) AS"
        " (SELECT 1 UNION ALL SELECT number + 1 FROM endless)"
        " SELECT number, '' AS digest, '' AS id FROM endless"
    )
    connection.close()

    assert open_index(place, digest_of_file(place)) is None


def test_a_record_of_very_many_brackets_is_refused(packs: list[Pack], place: Path) -> None:
    written(place, packs[1]).close()
    connection = sqlite3.connect(place)
    connection.execute("UPDATE body SET entry = ?", (zlib.compress(b"[" * 100_000),))
    connection.commit()
    connection.close()

    with pytest.raises(DamagedIndexError):
        IndexFile(place).entry(1, "chassis/v0")
