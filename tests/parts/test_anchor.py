"""Tests of `barwright.parts.anchor`: what may hold a bar's anchor end, and with what beside it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import fixed_socket, key_adjuster, key_bolt, key_lever, on_fixed, on_key_lever
from barwright.units import is_unknown
from sample_records import fixed_line, make_setup

USUAL = make_setup()


def refusal(make: Callable[..., Any], *of: Any, **change: Any) -> tuple[str, str]:
    with pytest.raises(bw.BarwrightError) as caught:
        make(*of, **change)
    return caught.value.code, caught.value.key


@pytest.mark.parametrize(
    ("anchor", "adjuster"),
    [
        (USUAL.anchor, None),
        (USUAL.anchor, key_adjuster()),
        (key_lever(), None),
        (key_lever(), USUAL.adjuster),
        (fixed_socket(), USUAL.adjuster),
        (fixed_socket(), key_adjuster()),
    ],
)
def test_an_anchor_goes_with_its_own_kind_of_adjuster_only(anchor: Any, adjuster: Any) -> None:
    expected = ("S207", "adjuster")
    assert refusal(attrs.evolve, USUAL, anchor=anchor, adjuster=adjuster) == expected
    standard = USUAL.axle.left
    assert refusal(attrs.evolve, standard, anchor=anchor, adjuster=adjuster) == expected


def test_a_bolt_against_a_key_lever_has_no_nut_and_can_only_push() -> None:
    assert key_adjuster().is_screwed
    assert refusal(key_adjuster, nut_height="10 mm") == ("S207", "nut_height")
    assert refusal(key_adjuster, spacer="1 mm") == ("S207", "spacer")
    bumpward = bw.parts.LeverSide.BUMPWARD
    assert refusal(key_adjuster, lever_lies=bumpward) == ("S207", "lever_lies")
    assert refusal(key_adjuster, thread_end="20 mm") == ("G102", "thread_end")


def test_a_bolt_that_swivels_or_stays_on_its_line_has_a_nut() -> None:
    adjuster = USUAL.adjuster
    assert adjuster is not None
    assert not adjuster.is_screwed
    assert is_unknown(attrs.evolve(adjuster, nut_height=None).nut_height)
    line: Any = {"mounting": fixed_line(), "nut_height": None}
    assert is_unknown(attrs.evolve(adjuster, **line).nut_height)


def test_the_face_of_a_key_lever_has_a_length() -> None:
    assert refusal(key_lever, face_end="30 mm") == ("G102", "face_end")
    assert key_lever(face_end="30.001 mm").face_end.magnitude == 30.001


def test_where_nothing_else_is_said_lever_and_socket_begin_where_a_tube_would() -> None:
    known: dict[str, Any] = {"face_offset": "8 mm", "face_start": "0 mm", "face_end": "70 mm"}
    lever = bw.parts.KeyLever(id="a", title="b", socket=key_lever().socket, **known)
    assert (lever.lever_position.magnitude, lever.socket_position.magnitude) == (0.0, 0.0)
    assert lever.made_for is None
    socket = bw.parts.FixedSocket(id="a", title="b", socket=lever.socket, anchor_angle="1 deg")
    assert (socket.socket_position.magnitude, socket.made_for) == (0.0, None)


@pytest.mark.parametrize("key", ["bolt_position", "lever_allowance"])
def test_the_place_of_a_bolt_that_is_not_given_is_unknown(key: str) -> None:
    for setup in (USUAL, on_key_lever()):
        left_out: Any = {key: None}
        assert is_unknown(getattr(attrs.evolve(setup.axle, **left_out), key))


@pytest.mark.parametrize("key", ["cap_holes_position", "cap_allowance"])
def test_the_place_of_the_holes_for_a_cap_that_is_not_given_is_unknown(key: str) -> None:
    left_out: Any = {key: None}
    assert is_unknown(getattr(attrs.evolve(USUAL.axle, **left_out), key))
    assert getattr(on_key_lever().axle, key) is None


def test_both_sides_of_an_axle_are_looked_at() -> None:
    axle = on_fixed().axle
    assert axle.bolt_position is None
    right = USUAL.axle.left
    assert is_unknown(attrs.evolve(axle, right=right).bolt_position)


def test_a_lever_goes_on_no_vehicle_that_has_no_place_for_its_bolt() -> None:
    trailer = on_fixed()
    other = {"anchor": key_lever(), "adjuster": key_adjuster()}
    assert refusal(trailer.with_parts, **other) == ("S207", "bolt_position")


def test_a_fixed_socket_takes_the_adjuster_off_and_its_turns_with_it() -> None:
    turned = attrs.evolve(USUAL, nut_turns="3 turn")
    fixed = turned.with_parts(anchor=fixed_socket())
    assert (fixed.adjuster, fixed.nut_turns.magnitude) == (None, 0.0)
    assert list(fixed.parts) == ["arm", "bar", "anchor", "damper"]
    assert list(USUAL.parts) == ["arm", "bar", "anchor", "adjuster", "damper"]
    back = fixed.with_parts(anchor=USUAL.anchor, adjuster=USUAL.adjuster)
    assert back == USUAL


def test_what_cannot_be_turned_has_no_turns() -> None:
    assert refusal(attrs.evolve, on_fixed(), nut_turns="0.1 turn") == ("S207", "nut_turns")


def test_a_part_of_another_kind_is_refused_in_the_place_of_a_tube() -> None:
    with pytest.raises(bw.JobError) as caught:
        USUAL.with_parts(anchor=USUAL.damper)  # type: ignore[arg-type]
    assert (caught.value.code, caught.value.key) == ("J101", "anchor")
    assert caught.value.expected == "a record of kind Tube or KeyLever or FixedSocket"


def test_the_standard_corner_is_built_without_an_adjuster_too() -> None:
    for setup in (on_fixed(), on_key_lever()):
        built = bw.Setup.standard(setup.chassis, axle=setup.axle, side=bw.parts.Side.RIGHT)
        assert (built.anchor, built.adjuster) == (setup.anchor, setup.adjuster)


def test_a_stretch_of_the_thread_is_bumpward_if_nothing_else_is_said() -> None:
    assert key_bolt().stretch is bw.parts.ContactSide.BUMPWARD
