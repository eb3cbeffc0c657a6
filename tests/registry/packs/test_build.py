"""Tests of `making` and `completing`: a record is made of its entry and of those it refers to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

import barwright as bw
from barwright.registry.packs.build import RecordBuilder, _References
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.tables.complete import completed
from barwright.registry.packs.tables.refusals import problems_of
from sample_records import make_bar

SOURCES = [bw.parts.Source(id="desk", kind=bw.parts.SourceKind.INVENTED, note="Invented.")]
STEEL = {"id": "steel", "title": "Steel", "source": "desk", "shear_modulus": "77 GPa"}
END = {
    "teeth": 39,
    "form": "involute",
    "length": "37 mm",
    "major_diameter": "30 mm",
    "root_diameter": "28 mm",
    "taper": "22 mm",
}
BAR = {
    "id": "one",
    "title": "Bar",
    "source": "desk",
    "diameter": "23 mm",
    "length": "904 mm",
    "arm_end": END,
    "anchor_end": END,
}


class Entries:
    """Entries of one pack, and which of them were asked for."""

    def __init__(self, *tables: tuple[str, dict[str, Any]]) -> None:
        self._entries = {
            f"p:{kind}/{table['id']}": Entry(
                id=f"p:{kind}/{table['id']}", kind=kind, file="x.toml", key=kind, table=table
            )
            for kind, table in tables
        }
        self.asked: list[str] = []

    def entry(self, full_id: str) -> Entry | None:
        """Return an entry."""
        self.asked.append(full_id)
        return self._entries.get(full_id)

    def maker(self) -> RecordBuilder:
        """A maker of these."""
        return RecordBuilder(entry=self.entry, sources=self.sources)

    def sources(self, pack: str) -> Sequence[bw.parts.Source]:
        """Return the sources of the pack."""
        assert pack == "p"
        return SOURCES


@pytest.mark.parametrize("name", ["material/steel", "p:material/steel"])
def test_a_record_is_made_once_with_what_it_refers_to(name: str) -> None:
    entries = Entries(("material", STEEL), ("bar", BAR | {"material": name}))
    maker = entries.maker()

    bar = maker.part("p:bar/one")

    assert isinstance(bar, bw.parts.Bar)
    assert (bar.id, bar.material.id) == ("p:bar/one", "p:material/steel")
    assert maker.part("p:bar/one") is bar
    assert maker.part("p:material/steel") is bar.material
    assert entries.asked == ["p:bar/one", "p:material/steel"]
    assert bar.about["length"].source == "p:desk"
    assert bar.about["length"].key == "one.length"
    assert bar.material.about["shear_modulus"].file == "x.toml"


@pytest.mark.parametrize("name", ["material/none", "bar/one", "q:material/steel", "steel", "", ":"])
def test_a_reference_to_nothing_of_its_kind_is_refused(name: str) -> None:
    maker = Entries(("material", STEEL), ("bar", BAR | {"material": name})).maker()

    with pytest.raises(ExceptionGroup) as caught:
        maker.part("p:bar/one")

    (problem,) = problems_of(caught.value)
    assert (problem.code, problem.key, problem.remedy) == ("S206", "bar.material", "none is known")


def test_a_reference_that_names_nothing_can_list_no_names() -> None:
    """An entry that was found good needs no list, which would be of all packs."""
    with pytest.raises(ExceptionGroup) as caught:
        Entries(("bar", BAR | {"material": "material/stel"})).maker().part("p:bar/one")

    (problem,) = problems_of(caught.value)
    assert problem.remedy == "none is known"
    assert len(_References(lambda _: make_bar(), "p", "bar")) == 0


def test_what_is_not_there_is_none() -> None:
    assert Entries().maker().part("p:bar/one") is None


def test_the_latest_records_are_kept_and_no_more() -> None:
    steels = [("material", STEEL | {"id": f"s{number}"}) for number in range(300)]
    entries = Entries(*steels)
    maker = entries.maker()
    for _ in range(2):
        for number in range(300):
            maker.part(f"p:material/s{number}")

    assert len(entries.asked) == 600
    assert maker.part("p:material/s299") is maker.part("p:material/s299")
    assert len(entries.asked) == 600


def test_a_new_record_is_completed_in_place() -> None:
    bar = make_bar()

    assert completed(bar, id="other", title="New") is bar
    assert (bar.id, bar.title) == ("other", "New")


def test_a_record_that_is_like_one_that_is_gone_is_refused() -> None:
    entries = Entries(("material", {**STEEL, "id": "two", "like": "material/steel"}))

    with pytest.raises(bw.SchemaError) as caught:
        RecordBuilder(entry=entries.entry, sources=lambda _: SOURCES).part("p:material/two")

    assert (caught.value.code, caught.value.value) == ("S206", "material/steel")
