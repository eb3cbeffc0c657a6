"""Tests of `barwright.registry.search.resolve`: exactly one vehicle, or an error that helps."""

from __future__ import annotations

import string
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.packs.search_terms import identity, spelled, words_of
from barwright.registry.packs.store import MemoryStore
from barwright.registry.search.query import Description, describe
from barwright.registry.search.resolve import matching, only
from each_case import each_case
from one_slip import one_slip_away
from sample_vehicles import make_chassis, store_of

# -- A yard of vehicles ------------------------------------------------------------------

YARD = store_of(
    make_chassis(
        "short",
        title="Yardling, short",
        maker="Yard Works",
        model="Yardling",
        body="panel van",
        codes=("YD-7",),
        first_built="2009-03",
        last_built="2014-05",
    ),
    make_chassis(
        "short-later",
        title="Yardling, short, changed",
        maker="Yard Works",
        model="Yardling",
        body="panel van",
        codes=("YD-7",),
        first_built="2014-06",
    ),
    make_chassis(
        "long-home",
        title="Yardling, long",
        maker="Yard Works",
        model="Yardling",
        body="box van",
        drive="front",
        markets=("home",),
        codes=("YD-8", "YD-9"),
        first_built="2011-01",
    ),
    make_chassis(
        "long-export",
        title="Yardling, long",
        maker="Yard Works",
        model="Yardling",
        body="box van",
        drive="front",
        markets=("over sea", "far north"),
        codes=("YD-8",),
        first_built="2011-01",
    ),
    make_chassis("plus", title="Yardling Plus", maker="Yard Works", model="Yardling Plus"),
)


def said(*words: str, **attributes: Any) -> Description:
    """A description as `Registry.resolve` takes it."""
    times = {name: attributes.pop(name) for name in ("year", "built") if name in attributes}
    return describe(*words, attributes=attributes, **times)


def found(*words: str, **attributes: Any) -> list[str]:
    """Names of the vehicles of the yard that are so described."""
    return [full.partition("/")[2] for full in matching(YARD, said(*words, **attributes))]


def refused(*words: str, store: MemoryStore = YARD, **attributes: Any) -> bw.UnknownNameError:
    """The error that a description ends with."""
    with pytest.raises(bw.UnknownNameError) as caught:
        only(store, said(*words, **attributes))
    return caught.value


SHORT, LATER, HOME, EXPORT, PLUS = "short", "short-later", "long-home", "long-export", "plus"


@each_case(
    "words, names",
    [
        ("short 2010", [SHORT]),
        ("SHORT yardling, 2014", [SHORT, LATER]),
        ("short 2014-05", [SHORT]),
        ("short 2014-06", [LATER]),
        ("short 2030", [LATER]),
        ("2009-02", []),
        ("2009-03", [SHORT]),
        ("changed", [LATER]),
        ("YD-7", [SHORT, LATER]),
        ("yd 7", [SHORT, LATER]),
        ("yd7", []),
        ("long home", [HOME]),
        ("long north", [EXPORT]),
        ("short north", []),
        ("box", [EXPORT, HOME]),
        ("works plus", [PLUS]),
        ("yard", [EXPORT, HOME, PLUS, SHORT, LATER]),
        ("yar", []),
        ("plus 2014", []),
        ("t:chassis/short", [SHORT]),
        ("chassis/short", [SHORT]),
        ("t chassis short", [SHORT, LATER]),
        ("t:chassis/shor", []),
        ("***", []),
        ("", [EXPORT, HOME, PLUS, SHORT, LATER]),
    ],
)
def test_a_vehicle_has_every_word_or_was_built_then(words: str, names: list[str]) -> None:
    assert found(words) == sorted(names)


@each_case(
    "attributes, names",
    [
        ({"model": "Yardling"}, [SHORT, LATER, HOME, EXPORT]),
        ({"model": "yardling plus"}, [PLUS]),
        ({"body": "van"}, []),
        ({"body": "Box-Van"}, [HOME, EXPORT]),
        ({"code": "YD-9"}, [HOME]),
        ({"code": "YD-8"}, [HOME, EXPORT]),
        ({"drive": "front"}, [HOME, EXPORT]),
        ({"trim": "plain"}, []),
        ({"maker": "yard works", "year": 2014}, [SHORT, LATER, HOME, EXPORT]),
        ({"year": 2008}, []),
        ({"built": "2014-05"}, [SHORT, HOME, EXPORT]),
        ({"year": 2014, "built": "2014-05"}, [SHORT, HOME, EXPORT]),
        ({"market": "home"}, [SHORT, LATER, HOME, PLUS]),
        ({"market": "over sea"}, [SHORT, LATER, EXPORT, PLUS]),
        ({"market": "over sea", "body": "box van"}, [EXPORT]),
        ({"market": "sea"}, [SHORT, LATER, PLUS]),
        ({"maker": ""}, []),
    ],
)
def test_a_vehicle_has_the_whole_text_of_every_attribute(
    attributes: dict[str, Any], names: list[str]
) -> None:
    assert found(**attributes) == sorted(names)


def test_words_and_attributes_are_asked_for_together() -> None:
    assert found("long", market="home") == [HOME]
    assert found("long", market="home", year=2010) == []
    assert found("t:chassis/short", year=2010) == [SHORT]
    assert found("t:chassis/short", year=2015) == []


@pytest.mark.parametrize("words", ["t:chassis/short", "short 2010", "SHORT 2014-05", "plus"])
def test_the_one_that_is_meant_is_given(words: str) -> None:
    chassis = only(YARD, said(words))

    assert chassis is YARD.part(chassis.id)
    assert [chassis.id.partition("/")[2]] == found(words)


# -- Several -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "attributes", "expected", "remedy"),
    [
        (
            "YD-7 2014",
            {},
            "one vehicle, but 2 match: t:chassis/short, t:chassis/short-later",
            "add built: 2009-03 to 2014-05 or from 2014-06, or name one by its id",
        ),
        (
            "yardling",
            {"year": 2012, "body": "box van"},
            "one vehicle, but 2 match: t:chassis/long-export, t:chassis/long-home",
            "add market: 'far north', 'home' or 'over sea', or name one by its id",
        ),
        (
            "works",
            {},
            (
                "one vehicle, but 5 match: t:chassis/long-export, t:chassis/long-home, "
                "t:chassis/plus, t:chassis/short, t:chassis/short-later"
            ),
            (
                "add model: 'Yardling Plus' or 'Yardling', and body: 'box van' or 'panel van', and "
                "built: 2009-03 to 2014-05, from 2011-01 or from 2014-06, and "
                "market: 'far north', 'home' or 'over sea', or name one by its id"
            ),
        ),
    ],
)
def test_several_are_listed_with_what_tells_them_apart(
    words: str, attributes: dict[str, Any], expected: str, remedy: str
) -> None:
    error = refused(words, **attributes)

    assert (error.code, error.expected, error.remedy) == ("L104", expected, remedy)
    assert error.value.startswith(words)


def test_what_is_alike_in_all_but_the_id_is_named_by_it() -> None:
    store = store_of(make_chassis("one"), make_chassis("two"))

    assert refused("van", store=store).remedy == "name one by its id"


def test_many_are_counted() -> None:
    store = store_of(*(make_chassis(f"van-{n:02}", trim=f"trim {n:02}") for n in range(24)))

    error = refused("van", store=store)

    assert error.expected.startswith("one vehicle, but 24 match: t:chassis/van-00, ")
    assert error.expected.endswith(", t:chassis/van-19, and 4 more")
    assert error.expected.count("t:chassis/") == 20
    assert error.remedy.startswith("add trim: 'trim 00', ")


def test_twenty_are_all_shown() -> None:
    store = store_of(*(make_chassis(f"van-{n:02}") for n in range(20)))

    assert refused("van", store=store).expected.endswith(", t:chassis/van-19")


# -- None ----------------------------------------------------------------------------------


@each_case(
    "words, attributes, expected, remedy",
    [
        ("shrot", {}, "none has 'shrot'", "did you mean 'short'?"),
        ("yardlin short", {}, "none has 'yardlin'", "did you mean 'yardling'?"),
        ("golden", {}, "none has 'golden'", "leave 'golden' out"),
        ("yard 1970", {}, "none has '1970'", "leave '1970' out"),
        ("yard 1970-05", {}, "none has '1970-05'", "leave '1970-05' out"),
        (
            "shrot yardlin lnog chnaged",
            {},
            "none has 'shrot', 'yardlin' or 'lnog'",
            (
                "for 'shrot': did you mean 'short'?; for 'yardlin': did you mean 'yardling'?; "
                "for 'lnog': did you mean 'long'?"
            ),
        ),
        (
            "shrot yardlin",
            {},
            "none has 'shrot' or 'yardlin'",
            "for 'shrot': did you mean 'short'?; for 'yardlin': did you mean 'yardling'?",
        ),
        ("", {"body": "bux van"}, "none has body = 'bux van'", "did you mean 'box van'?"),
        ("", {"body": "van"}, "none has body = 'van'", "did you mean 'box van' or 'panel van'?"),
        ("", {"trim": "plain"}, "none has trim = 'plain'", "leave trim = 'plain' out"),
        ("", {"year": 1970}, "none has year = 1970", "leave year = 1970 out"),
        ("", {"built": "1970-05"}, "none has built = '1970-05'", "leave built = '1970-05' out"),
        ("short", {"market": "hom"}, "none has market = 'hom'", "did you mean 'home'?"),
        ("", {"market": "*"}, "none has market = '*'", "leave market = '*' out"),
        ("", {"maker": "\ud800"}, r"none has maker = '\ud800'", r"leave maker = '\ud800' out"),
    ],
)
def test_what_no_vehicle_has_is_named_with_the_nearest(
    words: str, attributes: dict[str, Any], expected: str, remedy: str
) -> None:
    error = refused(words, **attributes)

    assert error.expected == f"a vehicle with all of these, but {expected}"
    assert (error.code, error.remedy) == ("L101", remedy)


def test_a_number_that_may_be_a_year_is_compared_with_words_that_are_none() -> None:
    store = store_of(make_chassis(title="Van", codes=("T 20140",), first_built="2015-01"))

    assert refused("van 2014", store=store).remedy == "did you mean '20140'?"
    assert refused("van 2011", store=store).remedy == "leave '2011' out"


def test_five_words_at_most_are_near() -> None:
    words = [f"shor{letter}" for letter in "abcdefg"]
    store = store_of(*(make_chassis(word, title="Van") for word in words))

    assert refused("shorx", store=store).remedy.count("'shor") == 5


def test_one_vehicle_of_a_market_is_given() -> None:
    assert only(YARD, said("long", market="over sea")).id.endswith(EXPORT)
    assert only(YARD, said("plus", market="home")).id.endswith(PLUS)


@pytest.mark.parametrize(
    ("words", "attributes", "remedy"),
    [
        ("plus long", {}, "leave out 'plus' or 'long'"),
        ("short 2014-05 changed", {}, "leave out '2014-05' or 'changed'"),
        ("short long plus", {}, "use fewer words"),
        ("t:chassis/short", {"year": 2016}, "leave out year = 2016"),
        ("short", {"body": "box van", "year": 2012}, "leave out 'short' or body = 'box van'"),
    ],
)
def test_what_does_not_go_together_is_told(
    words: str, attributes: dict[str, Any], remedy: str
) -> None:
    error = refused(words, **attributes)

    assert error.expected == "a vehicle with all of these words"
    assert (error.code, error.remedy) == ("L101", remedy)


@pytest.mark.parametrize("words", ["", "  ", "***", "—"])
def test_nothing_said_means_no_vehicle(words: str) -> None:
    error = refused(words, store=store_of(make_chassis()))

    assert (error.code, error.value) == ("L101", words.strip())
    assert error.expected == "an id, or words that name a vehicle"


def test_where_no_vehicle_is_known_none_is_near() -> None:
    error = refused("fells short", store=store_of())

    assert (error.code, error.expected) == ("L101", "a vehicle, but none is known")
    assert error.remedy.startswith("correct the packs that were left out, install a pack, ")


# -- Any vehicles --------------------------------------------------------------------------

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=8) | st.sampled_from(
    ["Yard", "yard works", "Short", "short-2", "2014", "2011-03", "ß"]
)
TUPLES = st.lists(TEXTS, max_size=2).map(tuple)
MONTHS = st.builds(bw.parts.Month, st.integers(2008, 2016), st.integers(1, 12))


@st.composite
def spans(draw: st.DrawFn) -> tuple[bw.parts.Month | None, bw.parts.Month | None]:
    """First and last month, either or both left open."""
    first, last = sorted([draw(MONTHS), draw(MONTHS)])
    return draw(st.sampled_from([(first, last), (first, None), (None, last), (None, None)]))


@st.composite
def chassis(draw: st.DrawFn) -> dict[str, Any]:
    """What a vehicle states."""
    names = ("maker", "model", "body", "trim", "drive")
    stated = {name: draw(st.none() | TEXTS) for name in names}
    first, last = draw(spans())
    return stated | {
        "title": draw(TEXTS),
        "markets": draw(TUPLES),
        "codes": draw(TUPLES),
        "first_built": first,
        "last_built": last,
    }


STORES = st.lists(chassis(), min_size=1, max_size=6).map(
    lambda stated: store_of(*(make_chassis(f"v{n}", **one) for n, one in enumerate(stated)))
)


def vehicles_of(store: MemoryStore) -> list[bw.parts.Chassis]:
    parts = [store.part(full) for full in store.ids("chassis")]
    return [part for part in parts if isinstance(part, bw.parts.Chassis)]


def built_months(vehicle: bw.parts.Chassis) -> list[bw.parts.Month]:
    """Months in which a vehicle says that it was built, at its ends."""
    return [end for end in (vehicle.first_built, vehicle.last_built) if end is not None]


@given(STORES)
def test_any_vehicle_is_found_by_all_that_it_states(store: MemoryStore) -> None:
    for vehicle in vehicles_of(store):
        whole = {
            n: texts[0] for n, texts in identity(vehicle).items() if texts and spelled(texts[0])
        }
        for end in [*built_months(vehicle), None]:
            year = end.year if end else None
            described = describe(attributes=whole, year=year, built=end)
            assert vehicle.id in matching(store, described)
            assert vehicle.id in matching(store, describe(vehicle.id, attributes=whole, built=end))


@given(STORES)
def test_any_vehicle_is_found_by_all_its_words(store: MemoryStore) -> None:
    for vehicle in vehicles_of(store):
        texts = [vehicle.title, *(text for texts in identity(vehicle).values() for text in texts)]
        words = [word for text in texts for word in words_of(text)]
        built = [str(end) for end in built_months(vehicle)]
        years = [text[:4] for text in built]
        assert vehicle.id in matching(store, describe(" ".join(["T", *words, *built, *years])))


@given(STORES, st.lists(TEXTS, max_size=4), TEXTS)
def test_more_words_never_mean_more_vehicles(
    store: MemoryStore, words: list[str], more: str
) -> None:
    few = matching(store, describe(" ".join(["t", *words, more])))

    assert set(few) <= set(matching(store, describe(" ".join(["t", *words]))))


@given(STORES, st.lists(st.sampled_from(["yard", "SHORT", "2", "2014", "t", "v1"]), min_size=1))
def test_words_mean_what_a_person_would_look_for(store: MemoryStore, words: list[str]) -> None:
    """Against a search that looks each word up in all texts of each vehicle."""

    def was_built(vehicle: bw.parts.Chassis, word: str) -> bool:
        first = vehicle.first_built.year if vehicle.first_built else 0
        last = vehicle.last_built.year if vehicle.last_built else 9999
        return bool(built_months(vehicle)) and word == "2014" and first <= 2014 <= last

    def has(vehicle: bw.parts.Chassis, word: str) -> bool:
        texts = (vehicle.id, vehicle.title, *(x for y in identity(vehicle).values() for x in y))
        return word.lower() in words_of("/".join(texts)) or was_built(vehicle, word)

    expected = [v.id for v in vehicles_of(store) if all(has(v, word) for word in words)]

    assert matching(store, describe(" ".join(words))) == expected


@given(STORES, st.lists(TEXTS, max_size=3))
def test_one_or_an_error_and_never_a_choice(store: MemoryStore, words: list[str]) -> None:
    described = describe(" ".join(words))
    candidates = matching(store, described) if described.all_clauses else []
    if len(candidates) == 1:
        assert only(store, described).id == candidates[0]
        return
    with pytest.raises(bw.UnknownNameError) as caught:
        only(store, described)
    assert caught.value.code == ("L104" if candidates else "L101")
    assert all(full in caught.value.expected for full in candidates)
    assert caught.value.remedy


@given(STORES, st.data())
def test_any_wrong_letter_is_answered_with_the_word_that_was_meant(
    store: MemoryStore, data: st.DataObject
) -> None:
    known = set(store.words("word"))
    word = data.draw(st.sampled_from(sorted(known)))
    place = data.draw(st.integers(0, len(word) - 1))
    letter = data.draw(st.sampled_from(string.ascii_lowercase))
    wrong = word[:place] + letter + word[place + 1 :]
    assume(words_of(wrong) == [wrong])
    assume(not matching(store, describe(wrong)))
    assume(len(set(one_slip_away(wrong, set("".join(known)))) & known) <= 5)

    with pytest.raises(bw.UnknownNameError) as caught:
        only(store, describe(wrong))

    assert repr(word) in caught.value.remedy


@given(STORES)
def test_what_is_said_to_tell_vehicles_apart_does(store: MemoryStore) -> None:
    """Each value of the attribute that an error says to add means fewer vehicles."""
    every = vehicles_of(store)
    assume(len(every) > 1)
    advice = refused("t", store=store).remedy
    for name in identity(every[0]):
        if f"{name}: " not in advice or name == "market":
            continue
        for text in {text for vehicle in every for text in identity(vehicle)[name]}:
            few = matching(store, describe("t", attributes={name: text}))
            assert len(few) < len(every)
