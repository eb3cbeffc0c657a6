"""The sheet for corner weights: one sheet of paper that says at once which nut goes which way."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.report.page.paper import Paper
from barwright.report.sheet.balancing import turns
from hostile_texts import TEXTS
from printed_pages import pdf_texts, read_html, said
from weighed_vans import fours, fronts, toleranced_fronts, van, van_on_four

ORDER = bw.WorkOrder(
    customer="Kirkstone Mill",
    registration="FLV 214",
    date="2031-04-02",
    odometer="182,400 km",
    notes="Clunk at the front left over kerbs.",
)
BODY: Any = {
    "centre_of_gravity_height": "640 mm",
    "roll_radius": "600 mm",
    "pitch_radius": "1150 mm",
}


@functools.cache
def low_left() -> bw.answers.Balance:
    return bw.balance(toleranced_fronts(), vehicle=van((306, 341, 268, 230), (385, 403), **BODY))


@functools.cache
def four() -> bw.answers.Balance:
    wanted = [bw.Wanted(height=height) for height in ("395 mm", "395 mm", "400 mm", "400 mm")]
    return bw.balance(fours(), vehicle=van_on_four(**BODY), wanted=wanted)


def balanced() -> bw.answers.Balance:
    return bw.balance(fronts(), vehicle=van())


def unread() -> bw.answers.Balance:
    return bw.balance(fronts(), vehicle=bw.parts.WholeVehicle())


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("answer", [low_left, four])
def test_it_is_one_sheet_of_paper_that_begins_with_the_turns(
    answer: Callable[[], bw.answers.Balance], paper: Paper
) -> None:
    found = answer()
    pdf = bw.balance_pdf(found, vehicle="A van", order=ORDER, rests_on="Invented.", paper=paper)

    (text,) = pdf_texts(pdf)
    *moves, seen = turns(found)
    assert text.startswith(said("".join([*moves, seen])))
    assert seen == "Seen from the bolt's free end."
    for words in ("A van", "Customer: Kirkstone Mill", "Noted: Clunk", "Invented.", "Readings"):
        assert said(words) in text
    for caution in found.cautions:
        assert said(caution.text) in text
    assert (
        bw.balance_pdf(found, vehicle="A van", order=ORDER, rests_on="Invented.", paper=paper)
        == pdf
    )


def test_the_turns_stand_in_the_order_in_which_they_are_made() -> None:
    first, second, _ = turns(low_left())

    assert first.startswith("Lower front right: ")
    assert first.endswith(" counter-clockwise.")
    assert second.startswith("Raise front left: ")
    assert second.endswith(" clockwise.")


def test_a_nut_and_a_bolt_are_each_seen_from_their_own_end() -> None:
    moved, *others = four().preferred.moves
    bolt = bw.answers.TurnedPart.BOLT
    settings = attrs.evolve(
        four().preferred, moves=(attrs.evolve(moved, turned_part=bolt), *others)
    )
    mixed = attrs.evolve(four(), settings=(settings,))

    first, second, *_ = turns(mixed)
    assert first.endswith(", seen from the bolt's head.")
    assert second.endswith(", seen from the bolt's free end.")
    (alt,) = read_html(bw.balance_html(mixed)).attributes("img", "alt")
    assert alt is not None
    assert "bolt's head; " in alt
    assert "bolt's free end; " in alt


def test_html_holds_the_picture_the_steps_and_room_to_write() -> None:
    found = read_html(bw.balance_html(low_left(), vehicle="A van"))
    (picture,) = found.attributes("img", "src")
    (alt,) = found.attributes("img", "alt")

    assert picture is not None
    assert picture.startswith("data:image/svg+xml;base64,")
    assert alt is not None
    assert f"Turn {low_left().preferred.turned[0].in_words}, seen from" in alt.replace("\xa0", " ")
    assert "Turn, in this order" in found.texts
    assert "Ride and roll, as it stands" in found.texts
    assert found.attributes("td", "class").count("room") == 2 * 4
    assert "script" not in [tag for tag, _ in found.tags]


def test_where_nothing_is_turned_it_says_so_and_asks_for_no_work() -> None:
    found = read_html(bw.balance_html(balanced()))

    assert balanced().headline in found.texts
    assert len(found.attributes("img", "src")) == 1
    assert "Before you turn a nut" not in found.texts
    assert bw.balance_pdf(balanced())


def test_where_nothing_was_read_there_is_no_picture() -> None:
    found = read_html(bw.balance_html(unread()))

    assert unread().headline in found.texts
    assert found.attributes("img", "src") == []
    assert [line for line in found.texts if "front.left.scale_reading" in line]
    assert bw.balance_pdf(unread())


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_no_text_of_a_job_is_read_as_a_page(text: str) -> None:
    order = bw.WorkOrder(customer=text, notes=text)
    spoiled = read_html(bw.balance_html(low_left(), vehicle=text, order=order, rests_on=text))
    plain = bw.WorkOrder(customer="a", notes="a")
    good = read_html(bw.balance_html(low_left(), vehicle="a", order=plain, rests_on="a"))

    assert [tag for tag, _ in spoiled.tags] == [tag for tag, _ in good.tags]
    assert bw.balance_pdf(low_left(), vehicle=text, order=order, rests_on=text)
