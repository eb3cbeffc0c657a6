"""Fields without a figure take what they are declared to take, and nothing else."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from each_case import each_case
from sample_records import make_bar, make_parts, make_setup, make_socket

SETUP = make_setup()


@each_case(
    "record, field, value",
    [
        (SETUP, "side", "left"),
        (SETUP, "arm_tooth", 1.5),
        (SETUP, "arm_tooth", "1"),
        (SETUP, "arm_tooth", True),
        (SETUP, "load", None),
        (SETUP, "bar", SETUP.arm),
        (SETUP.bar, "made_for", "right"),
        (SETUP.bar, "material", "steel"),
        (SETUP.bar, "preset", "no"),
        (SETUP.bar, "title", 5),
        (SETUP.arm, "socket", SETUP.bar.arm_end),
        (SETUP.adjuster, "lever_lies", "bumpward"),
        (SETUP.adjuster, "mounting", "swivelling"),
        (SETUP.axle, "bar_axis", "x"),
        (SETUP.axle, "bar_axis", (1.0, 0.0)),
        (SETUP.axle, "bar_axis", (1.0, 0.0, True)),
        (SETUP.axle, "bar_axis", [1.0, 0.0, 0.0]),
        (SETUP.axle, "suspension", None),
        (SETUP.axle, "arm_axis", (1.0, 0.0)),
        (SETUP.axle, "bump_rubber", (10.0, 300.0)),
        (SETUP.axle, "bushing", "2 N*m/deg"),
        (SETUP.axle, "helper_coil", SETUP.damper),
        (SETUP.chassis, "axles", (SETUP.arm,)),
        (SETUP.damper, "gas", "none"),
    ],
)
def test_a_value_of_another_type_is_refused_by_name(record: Any, field: str, value: Any) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        attrs.evolve(record, **{field: value})
    assert (caught.value.code, caught.value.key) == ("S203", field)


def test_what_is_declared_is_taken() -> None:
    assert attrs.evolve(SETUP.axle, bar_axis=(1, 0, 0)).bar_axis == (1, 0, 0)
    assert attrs.evolve(SETUP.damper, gas=None).gas is None
    assert make_socket(SETUP.bar.arm_end, keyed=False).keyed is False


def refusal(*, code: str, key: str, **change: Any) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        attrs.evolve(change.pop("of"), **change)
    assert (caught.value.code, caught.value.key) == (code, key)


def test_a_preset_bar_must_say_its_side() -> None:
    refusal(code="S207", key="made_for", of=make_bar(), preset=True)


def test_an_arm_of_the_left_corner_does_not_point_to_the_right() -> None:
    refusal(code="G105", key="arm_direction", of=SETUP.axle, arm_direction=(0.0, -1.0, 0.0))


def test_stops_lie_within_a_right_angle_of_the_horizontal() -> None:
    refusal(code="G106", key="droop_stop", of=SETUP.axle, droop_stop="-100 deg")
    refusal(code="G106", key="droop_stop", of=SETUP.axle, bump_stop="100 deg")


def test_each_axle_has_a_place_of_its_own() -> None:
    axle = SETUP.axle
    refusal(code="S207", key="axles", of=SETUP.chassis, axles=(axle, axle))
    refusal(code="S207", key="axles", of=SETUP.chassis, axles=())


def test_a_tooth_is_one_that_the_bar_has() -> None:
    for tooth in (39, -39, 9999):
        refusal(code="S207", key="arm_tooth", of=SETUP, arm_tooth=tooth)
    refusal(code="S207", key="anchor_tooth", of=SETUP, anchor_tooth=42)
    assert attrs.evolve(SETUP, arm_tooth=38).arm_tooth == 38


def test_a_thread_is_finer_than_it_is_thick() -> None:
    refusal(code="G102", key="thread_pitch", of=SETUP.adjuster, thread_pitch="6 mm")


def test_allowances_and_space_may_be_none_at_all() -> None:
    nothing: dict[str, Any] = {
        "lever_allowance": "0 mm",
        "cap_allowance": "0 mm",
        "space_behind": "0 mm",
    }
    assert attrs.evolve(SETUP.axle, **nothing).space_behind.magnitude == 0.0


def test_a_lever_lies_before_the_socket() -> None:
    tube = make_parts(make_bar()).anchor
    refusal(code="G109", key="lever_position", of=tube, lever_position="772 mm")
