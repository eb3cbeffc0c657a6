"""Which teeth of a head carry, and what the gaps cost."""

from __future__ import annotations

import math

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed
from barwright.analysis.fit.head_load import missing_teeth
from barwright.mechanics.spline.factors import missing_tooth_factor
from sample_records import make_bar, make_end, make_setup, make_socket


def heads_of(
    setup: bw.Setup, *, wanted: bw.Wanted | None = None
) -> tuple[bw.answers.HeadLoad, ...]:
    figures = bw.rates(setup, wanted=wanted).figures
    assert figures is not None
    return figures.heads


@pytest.mark.parametrize(
    ("blanks", "tooth", "sense", "keyed", "missing"),
    [
        ((0,), 0, 1, True, {0}),
        ((0, 3), 0, 1, True, {0, 3}),
        # Blanks are counted about the bar axis, teeth in the bump sense.
        ((0, 3), -3, -1, True, {0, -3}),
        ((0, 3), 3, -1, True, {0, 3, -3}),
        ((0,), 5, 1, True, {0, 5}),
        # The key is cleared: a tooth that comes to lie there carries.
        ((0,), 5, 1, False, {0}),
        ((0, 38), 0, 1, True, {0, -1}),
    ],
)
def test_a_gap_is_a_blank_or_the_tooth_on_a_key(
    *, blanks: tuple[int, ...], tooth: int, sense: int, keyed: bool, missing: set[int]
) -> None:
    end = make_end(39, blanks=blanks)
    found = missing_teeth(end, make_socket(end, keyed=keyed), tooth=tooth, sense=sense)
    assert found == missing


def test_the_most_loaded_tooth_is_that_of_the_count_and_of_the_gaps_that_are_there() -> None:
    wanted = bw.Wanted(height="404 mm")
    whole = heads_of(make_setup(), wanted=wanted)[0]
    for arm_tooth, gaps in ((0, [0]), (1, [0, 1]), (19, [0, 19])):
        arm, anchor = heads_of(make_setup(arm_tooth=arm_tooth), wanted=wanted)
        assert (arm.teeth_left, anchor.teeth_left) == (39 - len(gaps), 41)
        assert arm.missing_tooth_factor == missing_tooth_factor(teeth=39, missing=gaps)
        assert anchor.missing_tooth_factor == missing_tooth_factor(teeth=42, missing=[0])
        assert arm.torque == whole.torque
        rise = arm.missing_tooth_factor / whole.missing_tooth_factor
        assert arm.tooth_shear / whole.tooth_shear == pytest.approx(rise, rel=1e-9)
        assert arm.tooth_bearing / whole.tooth_bearing == pytest.approx(rise, rel=1e-9)
        assert arm.root_shear == whole.root_shear
        assert "free to shift" in arm.method


def test_the_stresses_of_a_head_are_those_of_its_own_sizes() -> None:
    """Worked by hand: 39 teeth of module 0.75 that stand 0.7125 mm in those of the socket."""
    arm, _ = heads_of(make_setup())
    torque = arm.torque.m_as("N*mm")
    over, under, length, depth = 30.0, 28.125, 37.0, (30.0 - 28.575) / 2.0
    pitch = (over + under) / 2.0
    thickness = math.pi * pitch / (2 * 39)
    most = torque * missing_tooth_factor(teeth=39, missing=[0])
    expected = {
        "root_shear": 16.0 * torque / (math.pi * under**3),
        "tooth_shear": 4.0 * most / (pitch * 39 * length * thickness),
        "tooth_bearing": 2.0 * most / (pitch * 39 * length * depth),
    }
    for name, stress in expected.items():
        assert getattr(arm, name).m_as("MPa") == pytest.approx(stress, rel=1e-9)


def test_a_blank_in_the_records_counts_as_a_cut_does() -> None:
    cut = heads_of(make_setup(arm_tooth=1))[0]
    # A left wheel's bar that runs forward: the two counts have one sense, or opposite ones.
    both = [make_bar(arm_end=make_end(39, blanks=(0, place))) for place in (1, -1)]
    for bar in both:
        recorded = heads_of(make_setup(bar=bar))[0]
        assert recorded.teeth_left == 37
        assert recorded.missing_tooth_factor == pytest.approx(cut.missing_tooth_factor)


def test_a_cleared_key_leaves_the_maker_blank_alone() -> None:
    setup = make_setup(arm_tooth=5)
    cleared = attrs.evolve(setup.arm, socket=attrs.evolve(setup.arm.socket, keyed=False))
    arm, _ = heads_of(setup.with_parts(arm=cleared))
    assert arm.teeth_left == 38
    assert arm.missing_tooth_factor == missing_tooth_factor(teeth=39, missing=[0])


def test_heads_are_stressed_by_the_greater_torque_of_either_sense() -> None:
    for setup in (make_setup(), on_fixed(), on_fixed(mass="20 kg")):
        for height in ("404 mm", "330 mm"):
            wanted = bw.Wanted(height=height)
            figures = bw.rates(setup, wanted=wanted).figures
            if figures is None:
                continue
            torque = max(figures.droop.torque, figures.bump.torque, key=abs)
            for head in figures.heads:
                assert head.torque.m_as("N*m") == pytest.approx(torque.m_as("N*m"))
                assert head.root_shear.magnitude > 0.0


def test_a_light_corner_in_a_fixed_socket_is_stressed_most_at_droop() -> None:
    figures = bw.rates(on_fixed(mass="20 kg"), wanted=bw.Wanted(height="330 mm")).figures
    assert figures is not None
    assert figures.droop.torque.magnitude < -figures.bump.torque.magnitude < 0.0
    assert {head.torque for head in figures.heads} == {figures.droop.torque}


def test_teeth_on_one_side_are_said_to_balance_nothing_and_have_no_stress() -> None:
    bar = make_bar(arm_end=make_end(39, blanks=tuple(range(25))))
    answer = bw.rates(make_setup(bar=bar))
    assert answer.figures is not None
    assert [head.end for head in answer.figures.heads] == [bw.parts.BarEndName.ANCHOR]
    (finding,) = [f for f in answer.findings if "one side of the head" in f.text]
    assert finding.topic is bw.answers.Topic.ENGAGEMENT
    assert (finding.figure, finding.end) == (14, bw.parts.BarEndName.ARM)
