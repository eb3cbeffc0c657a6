"""Wishes that cannot be meant are refused, and say what can be had."""

from __future__ import annotations

import re

import pytest

import barwright as bw
from anchored_corners import on_fixed
from sample_records import make_setup


def reserve_refused(setup: bw.Setup, reserve: str) -> bw.SchemaError:
    with pytest.raises(bw.SchemaError) as caught:
        bw.reindex(setup, wanted=bw.Wanted(thread_reserve=reserve))
    assert (caught.value.code, caught.value.key) == ("S207", "wanted.reserve")
    return caught.value


def test_more_than_half_of_the_thread_is_not_kept_on_both_sides() -> None:
    """No teeth are cut for it, and what the message names can be had."""
    setup = make_setup()
    named = re.search(r"at most (\S+ turn)", str(reserve_refused(setup, "30 turn")))
    assert named is not None
    most = bw.Quantity(named[1])

    answer = bw.reindex(setup, wanted=bw.Wanted(thread_reserve=most))
    assert answer.enough_thread_reserve is not None
    assert answer.enough_thread_reserve.m_as("turn") == pytest.approx(most.m_as("turn"), abs=1 / 6)
    reserve_refused(setup, f"{most.m_as('turn') + 0.2:.1f} turn")


def test_an_anchor_without_thread_keeps_none() -> None:
    assert "no thread" in str(reserve_refused(on_fixed(), "1 turn"))
