"""Tests of `barwright.registry.packs.supersession`: which parts supersede which."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.packs.supersession import in_full, newest_replacements, replacements

NAMES = [f"p:damper/{letter}" for letter in "abcdef"]


def damper(name: str, *replaces: str) -> bw.parts.Damper:
    return bw.parts.Damper(
        id=name, title="D", open_length="5 m", closed_length="3 m", replaces=replaces
    )


def test_an_id_gets_its_pack() -> None:
    assert in_full(["bar/a", "q:bar/b"], "p") == ("p:bar/a", "q:bar/b")


def test_only_other_parts_of_its_kind_are_replaced() -> None:
    part = damper("p:damper/b", "p:damper/a", "p:damper/a", "p:damper/b", "p:bar/a")
    assert replacements([part]) == {"p:damper/a": ["p:damper/b"]}


def test_several_may_take_the_place_of_one() -> None:
    parts = [damper("p:damper/l", "p:damper/a"), damper("p:damper/r", "p:damper/a")]
    assert newest_replacements(replacements(parts)) == {"p:damper/a": ("p:damper/l", "p:damper/r")}


def test_a_line_that_is_too_long_for_any_shop_ends_somewhere() -> None:
    line = [f"p:damper/{number}" for number in range(300)]
    newest = newest_replacements({old: [new] for old, new in itertools.pairwise(line)})
    assert newest[line[-2]] == newest[line[-60]] == (line[-1],)
    assert line[0] not in newest


@given(st.dictionaries(st.sampled_from(NAMES), st.lists(st.sampled_from(NAMES), min_size=1)))
def test_the_newest_are_those_that_nothing_replaces(direct: dict[str, list[str]]) -> None:
    def reached(name: str, seen: frozenset[str]) -> set[str]:
        if name not in direct:
            return {name}
        return {
            end for new in direct[name] if new not in seen for end in reached(new, seen | {new})
        }

    expected = {old: tuple(sorted(reached(old, frozenset({old})))) for old in direct}
    assert newest_replacements(direct) == {old: ends for old, ends in expected.items() if ends}
