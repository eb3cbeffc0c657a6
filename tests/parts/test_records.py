"""Tests of the records in `barwright.parts`: their fields, their defaults, and what they refuse."""

from __future__ import annotations

import enum
import pickle
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import fixed_socket, key_bolt, key_lever
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Record
from barwright.units import is_unknown
from each_case import each_case
from sample_records import (
    double_wishbone_mounting,
    make_bar,
    make_end,
    make_parts,
    make_setup,
    make_socket,
    strut_mounting,
    swing_arm_mounting,
)
from weighed_vans import van

Q = bw.Quantity


def bump_rubber(*points: tuple[str, str], **contact: Any) -> bw.parts.BumpRubber:
    curve = tuple(
        bw.parts.BumpRubberForce(compression=compression, force=force)
        for compression, force in points or (("10 mm", "300 N"), ("25 mm", "1500 N"))
    )
    return bw.parts.BumpRubber(curve=curve, **contact)


SETUP = make_setup()
WHEEL = bw.parts.WeighedWheel(scale_reading="250 kg", height="402 mm", pin_distance="158 mm")
RECORDS: dict[str, Any] = {
    "Material": SETUP.bar.material,
    "BarEnd": make_end(39),
    "Socket": make_socket(make_end(39)),
    "Bar": make_bar(bore="10 mm"),
    "Arm": SETUP.arm,
    "Tube": SETUP.anchor,
    "SwivellingMounting": bw.parts.SwivellingMounting(
        pivot_distance="142 mm", pivot_angle="97 deg"
    ),
    "FixedLineMounting": bw.parts.FixedLineMounting(
        line_distance="103 mm", foot_angle="172 deg", foot_position="160 mm"
    ),
    "KeyBoltMounting": key_bolt(),
    "Adjuster": SETUP.adjuster,
    "KeyLever": key_lever(),
    "FixedSocket": fixed_socket(),
    "GasCharge": bw.parts.GasCharge(force="190 N", at_length="590 mm", slope="-0.4 N/mm"),
    "Damper": attrs.evolve(SETUP.damper, damping_rate="1.8 N*s/mm"),
    "StrutMounting": strut_mounting(),
    "SwingArmMounting": swing_arm_mounting(),
    "DoubleWishboneMounting": double_wishbone_mounting(),
    "BumpRubberForce": bw.parts.BumpRubberForce(compression="10 mm", force="300 N"),
    "BumpRubber": bump_rubber(contact_angle="9 deg", contact_radius="250 mm"),
    "ArmBushing": bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-5 deg"),
    "HelperCoil": bw.parts.HelperCoil(rate="8 N/mm", free_length="300 mm"),
    "Axle": attrs.evolve(SETUP.axle, arm_stop="-6 mm", anchor_stop="950 mm"),
    "Chassis": SETUP.chassis,
    "Load": SETUP.load,
    "Setup": SETUP,
    "AxleAntiRollBar": bw.parts.AxleAntiRollBar(
        diameter="20 mm",
        length="900 mm",
        lever_length="250 mm",
        link_distance="260 mm",
        wheel_distance="380 mm",
        shear_modulus="79 GPa",
    ),
    "WeighedWheel": WHEEL,
    "WeighedAxle": attrs.evolve(
        van().rear, scale_reading="498 kg", wanted_height="400 mm", roll_centre="90 mm", left=WHEEL
    ),
    "WholeVehicle": van(
        total="1144 kg",
        centre_of_gravity_height="640 mm",
        roll_radius="600 mm",
        pitch_radius="1150 mm",
    ),
    "Reading": bw.parts.Reading(setup=SETUP, height="391 mm"),
}
FIGURES = [
    (name, field) for name, record in RECORDS.items() for field in figure_fields(type(record))
]
COUNTS = [("BarEnd", "teeth"), ("Socket", "teeth")]


def test_every_record_with_figures_is_tried_here() -> None:
    def below(cls: type[Any]) -> set[type[Any]]:
        subs: list[type[Any]] = cls.__subclasses__()
        return {inner for sub in subs for inner in {sub} | below(sub)}

    homes = {cls.__name__ for cls in below(Record) if cls.__module__.startswith("barwright.parts")}
    assert homes - {"Part"} == set(RECORDS)


@each_case("name, field", FIGURES)
@each_case("value, code", [("25", "Q105"), (25.0, "Q105"), ("nan mm", "Q301"), ("5 J", "Q202")])
def test_every_figure_is_read_strictly_and_named(
    name: str, field: str, value: Any, code: str
) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        attrs.evolve(RECORDS[name], **{field: value})

    assert (caught.value.code, caught.value.key) == (code, field)


@each_case("name, field", FIGURES)
def test_every_figure_refuses_what_no_part_can_have(name: str, field: str) -> None:
    kind, allowed = figure_fields(type(RECORDS[name]))[field]
    wrong = {
        "positive": ["0", "-1"],
        "zero or more": ["-1"],
        "zero or less": ["1"],
        "any": ["1e300"],
    }[allowed]

    for number in wrong:
        with pytest.raises(bw.QuantityError) as caught:
            attrs.evolve(RECORDS[name], **{field: f"{number} {kind.units[0]}"})
        assert (caught.value.code, caught.value.key) == ("Q302", field)


@each_case("name, field", FIGURES)
def test_every_figure_has_an_entry_of_what_is_known(name: str, field: str) -> None:
    record = RECORDS[name]

    known = record.about.get(field)
    assert (known and known.value) == getattr(record, field)


@each_case("name, field", COUNTS)
@each_case("value", [36.0, "36", True, 0, -1])
def test_every_count_is_a_whole_number(name: str, field: str, value: Any) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        attrs.evolve(RECORDS[name], **{field: value})

    assert (caught.value.code, caught.value.key) == ("S203", field)


@each_case("name", RECORDS)
def test_every_record_is_frozen_comparable_and_picklable(name: str) -> None:
    record = RECORDS[name]
    field = attrs.fields(type(record))[-1].name

    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        setattr(record, field, None)
    again = pickle.loads(pickle.dumps(record))  # noqa: S301 - our own bytes
    assert again == record
    assert dict(again.about) == dict(record.about)


@each_case("name", RECORDS)
def test_every_record_takes_its_fields_by_name_only(name: str) -> None:
    with pytest.raises(TypeError):
        type(RECORDS[name])("25 mm")


# -- What no real part can have ---------------------------------------------------------------


@pytest.mark.parametrize("end", ["150 mm", "160.4 mm", "100 mm"])
def test_a_thread_is_longer_than_its_nut_is_high(end: str) -> None:
    usual = {"thread_start": "150 mm", "nut_height": "10.5 mm"}
    make_parts(make_bar(), adjuster=usual | {"thread_end": "160.6 mm"})

    with pytest.raises(bw.GeometryError) as caught:
        make_parts(make_bar(), adjuster=usual | {"thread_end": end})

    assert (caught.value.code, caught.value.key) == ("G102", "thread_end")


def test_a_fillet_counts_in_a_bars_length_with_its_radius() -> None:
    end = make_end(39, taper="0 mm", fillet_radius="20 mm")
    make_bar(length="114.1 mm", arm_end=end)

    with pytest.raises(bw.GeometryError) as caught:
        make_bar(length="113.9 mm", arm_end=end)

    assert (caught.value.code, caught.value.key) == ("G103", "length")


def test_a_hollow_bar_has_no_twist_of_pre_setting() -> None:
    preset: dict[str, Any] = {
        "preset": True,
        "made_for": bw.parts.Side.LEFT,
        "preset_twist": "90 deg",
    }
    assert make_bar(**preset).preset_twist == bw.Quantity(90, "deg")

    with pytest.raises(bw.SchemaError) as caught:
        make_bar(**preset, bore="8 mm")

    assert (caught.value.code, caught.value.key) == ("S207", "preset_twist")


def test_splines_and_tapers_fit_into_a_bar() -> None:
    heads = 2 * (37 + 20)
    make_bar(length=f"{heads + 0.1} mm")

    with pytest.raises(bw.GeometryError) as caught:
        make_bar(length=f"{heads - 0.1} mm")

    assert (caught.value.code, caught.value.key) == ("G103", "length")
    assert "114 mm" in caught.value.expected


@pytest.mark.parametrize(
    ("bore", "diameter", "root"),
    [("23.3 mm", "23.3 mm", "28 mm"), ("25 mm", "26 mm", "25 mm"), ("1 in", "25.4 mm", "28 mm")],
)
def test_a_bars_bore_leaves_a_wall(bore: str, diameter: str, root: str) -> None:
    ends: Any = {name: make_end(39, root_diameter=root) for name in ("arm_end", "anchor_end")}
    make_bar(bore="20 mm", diameter=diameter, **ends)

    with pytest.raises(bw.GeometryError) as caught:
        make_bar(bore=bore, diameter=diameter, **ends)

    assert (caught.value.code, caught.value.key) == ("G104", "bore")


def test_a_tubes_bore_leaves_a_wall() -> None:
    with pytest.raises(bw.GeometryError) as caught:
        make_parts(make_bar(), anchor={"bore": "90 mm", "outside_diameter": "90 mm"})

    assert (caught.value.code, caught.value.key) == ("G104", "bore")


@pytest.mark.parametrize("lever", ["772 mm", "800 mm"])
def test_a_tubes_lever_lies_before_its_socket(lever: str) -> None:
    with pytest.raises(bw.GeometryError) as caught:
        make_parts(make_bar(), anchor={"lever_position": lever, "socket_position": "772 mm"})

    assert (caught.value.code, caught.value.key) == ("G109", "lever_position")


@pytest.mark.parametrize("closed", ["674 mm", "700 mm"])
def test_a_damper_has_a_stroke(closed: str) -> None:
    with pytest.raises(bw.GeometryError) as caught:
        bw.parts.Damper(id="t:damper/x", title="D", open_length="674 mm", closed_length=closed)

    assert (caught.value.code, caught.value.key) == ("G106", "closed_length")


@pytest.mark.parametrize("droop", ["17 deg", "20 deg", "0.3 rad"])
def test_stops_leave_a_travel(droop: str) -> None:
    with pytest.raises(bw.GeometryError) as caught:
        make_setup(axle={"droop_stop": droop, "bump_stop": "17 deg"})

    assert (caught.value.code, caught.value.key) == ("G106", "droop_stop")


@pytest.mark.parametrize(
    "contact",
    [
        {},
        {"contact_length": "450 mm", "contact_height": "350 mm"},
        {"contact_height": "350 mm", "contact_angle": "9 deg", "contact_radius": "250 mm"},
        {"contact_angle": "9 deg"},
        {"contact_radius": "250 mm"},
    ],
)
def test_a_bump_rubber_makes_contact_at_one_place(contact: dict[str, str]) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bump_rubber(**contact)

    assert (caught.value.code, caught.value.key) == ("S207", "contact_length")
    assert caught.value.value == (" and ".join(contact) or "no place of contact")


@pytest.mark.parametrize(
    ("points", "value"),
    [
        ((("25 mm", "300 N"), ("10 mm", "1500 N")), "25 mm, 10 mm"),
        ((("10 mm", "300 N"), ("1 cm", "1500 N")), "10 mm, 1 cm"),
        ((("10 mm", "1500 N"), ("25 mm", "300 N")), "1500 N, 300 N"),
        ((("10 mm", "0 N"), ("25 mm", "300 N")), "0 N, 300 N"),
    ],
)
def test_the_curve_of_a_bump_rubber_rises(points: tuple[tuple[str, str], ...], value: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bump_rubber(*points, contact_length="450 mm")

    assert (caught.value.code, caught.value.key) == ("S207", "curve")
    assert caught.value.value == value


def test_the_curve_of_a_bump_rubber_has_a_point() -> None:
    bump_rubber(("10 mm", "300 N"), contact_length="450 mm")

    with pytest.raises(bw.SchemaError) as caught:
        bw.parts.BumpRubber(curve=(), contact_length="450 mm")
    assert (caught.value.code, caught.value.value) == ("S207", "no point")


@pytest.mark.parametrize("root", ["30 mm", "40 mm"])
def test_the_roots_of_a_spline_lie_under_its_tips(root: str) -> None:
    with pytest.raises(bw.GeometryError) as caught:
        make_end(39, root_diameter=root)

    assert (caught.value.code, caught.value.key) == ("G107", "root_diameter")


@pytest.mark.parametrize(
    ("nose", "diameter"), [("0 mm", "20 mm"), ("3 mm", "30 mm"), ("3 mm", "40 mm")]
)
def test_a_nose_with_a_diameter_is_there_and_thinner_than_the_teeth(
    nose: str, diameter: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        make_end(39, nose=nose, nose_diameter=diameter)

    assert (caught.value.code, caught.value.key) == ("S207", "nose_diameter")
    assert make_end(39, nose="3 mm", nose_diameter="29 mm").nose_diameter is not None


# -- Splines ------------------------------------------------------------------------------


def test_the_makers_blank_is_missing_unless_said_otherwise() -> None:
    assert make_end(39).blanks == (0,)


@pytest.mark.parametrize("blanks", [(3, 0), [0, 3], {0, 3}])
def test_missing_teeth_are_kept_in_order(blanks: Any) -> None:
    assert make_end(39, blanks=blanks).blanks == (0, 3)


@pytest.mark.parametrize(
    "blanks", [(0, 0), (0, 3.0), (0, True), ("0",), "0", "", 0, None, (0, None)]
)
def test_missing_teeth_are_different_whole_numbers(blanks: Any) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        make_end(39, blanks=blanks)

    assert (caught.value.code, caught.value.key) == ("S203", "blanks")


def test_an_end_may_have_no_blank_and_carry_a_mark() -> None:
    bare, marked = (make_end(39, blanks=(), mark=mark) for mark in (None, "a punched dot"))
    assert (bare.blanks, bare.has_makers_blank, bare.shows_its_count) == ((), False, False)
    assert (marked.has_makers_blank, marked.shows_its_count) == (False, True)
    assert make_end(39).shows_its_count
    # A tooth that was cut later is counted from the mark.
    assert make_end(39, blanks=(5,), mark="paint").blanks == (5,)


@pytest.mark.parametrize(
    ("change", "key"),
    [({"blanks": (1,)}, "blanks"), ({"mark": "a punched dot"}, "mark")],
)
def test_teeth_are_counted_from_a_blank_or_a_mark_and_not_from_both(
    change: dict[str, Any], key: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        make_end(39, **change)

    assert (caught.value.code, caught.value.key) == ("S207", key)


def test_the_angle_between_blanks_is_known_where_both_ends_show_a_tooth() -> None:
    bare, marked = make_end(39, blanks=()), make_end(39, blanks=(), mark="a punched dot")
    assert make_bar().blank_angle.m_as("deg") == 0.0
    assert is_unknown(make_bar(arm_end=marked).blank_angle)
    assert is_unknown(make_bar(arm_end=bare).blank_angle)
    assert make_bar(arm_end=marked, blank_angle="3 deg").blank_angle.m_as("deg") == 3.0
    with pytest.raises(bw.SchemaError) as caught:
        make_bar(arm_end=bare, blank_angle="3 deg")

    assert (caught.value.code, caught.value.key) == ("S207", "blank_angle")


@pytest.mark.parametrize("blanks", [(0, 39), (0, -39), (0, 500), (0, 3, -36), tuple(range(39))])
def test_missing_teeth_are_teeth_of_the_circle(blanks: tuple[int, ...]) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        make_end(39, blanks=blanks)

    assert (caught.value.code, caught.value.key) == ("S207", "blanks")


# -- Chassis ------------------------------------------------------------------------------


def test_right_corners_mirror_the_left_unless_they_have_their_own() -> None:
    left, right = make_parts(make_bar()), make_parts(make_bar(id="t:bar/two"))

    assert attrs.evolve(SETUP.axle, left=left).standard(bw.parts.Side.RIGHT) is left
    own = attrs.evolve(SETUP.axle, left=left, right=right)
    assert (own.standard(bw.parts.Side.LEFT), own.standard(bw.parts.Side.RIGHT)) == (left, right)


# -- Setup --------------------------------------------------------------------------------


def test_a_setup_names_its_corner_and_its_parts() -> None:
    assert SETUP.corner == "front left"
    assert make_setup(side=bw.parts.Side.RIGHT).corner == "front right"
    assert list(SETUP.parts) == ["arm", "bar", "anchor", "adjuster", "damper"]


def test_parts_are_swapped_and_the_others_stay() -> None:
    bar = make_bar(diameter="25 mm")

    changed = SETUP.with_parts(bar=bar)

    assert changed.bar is bar
    assert changed == attrs.evolve(SETUP, bar=bar)
    assert SETUP.with_parts() == SETUP


@pytest.mark.parametrize("place", ["arm", "bar", "anchor", "adjuster", "damper"])
def test_a_part_of_another_kind_is_refused(place: str) -> None:
    for other, part in SETUP.parts.items():
        if other == place:
            continue
        with pytest.raises(bw.JobError) as caught:
            SETUP.with_parts(**{place: part})  # type: ignore[arg-type]
        error = caught.value
        assert (error.code, error.key, error.value) == ("J101", place, part.id)


def test_an_id_is_no_part() -> None:
    with pytest.raises(bw.JobError) as caught:
        SETUP.with_parts(bar="fells:bar/short-firm")  # type: ignore[arg-type]

    assert (caught.value.code, caught.value.value) == ("J101", "fells:bar/short-firm")
    assert ".part(id)" in caught.value.remedy


def test_another_load() -> None:
    changed = SETUP.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="326 kg")

    assert changed.load == bw.parts.Load(kind=bw.parts.LoadKind.SCALE_READING, mass="326 kg")
    assert changed.bar is SETUP.bar


@pytest.mark.parametrize("mass", ["34.5 kg", "10 kg", "76 lb"])
def test_a_scale_reads_more_than_the_unsprung_mass(mass: str) -> None:
    assert SETUP.with_load(kind=bw.parts.LoadKind.SPRUNG, mass=mass).load.mass == Q(mass)

    with pytest.raises(bw.QuantityError) as caught:
        SETUP.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass=mass)

    assert (caught.value.code, caught.value.key) == ("Q302", "load.mass")


def test_nut_turns_are_read() -> None:
    assert make_setup(nut_turns="-2.5 turn").nut_turns == Q(-2.5, "turn")

    with pytest.raises(bw.QuantityError) as caught:
        make_setup(nut_turns="-2.5")
    assert (caught.value.code, caught.value.key) == ("Q105", "nut_turns")


def test_a_wish_is_a_height_or_an_angle_or_nothing() -> None:
    assert bw.Wanted() == bw.Wanted(height=None, arm_angle=None)
    assert bw.Wanted(height="349 mm").height == Q(349.0, "mm")
    assert bw.Wanted(arm_angle="-2 deg").arm_angle == Q(-2.0, "deg")


@pytest.mark.parametrize(
    ("wishes", "value"),
    [
        ({"height": "349 mm", "arm_angle": "-2 deg"}, "height and arm_angle"),
        ({"height": "349 mm", "same_height": True}, "height and same_height"),
    ],
)
def test_two_wishes_are_refused(wishes: dict[str, Any], value: str) -> None:
    with pytest.raises(bw.JobError) as caught:
        bw.Wanted(**wishes)

    assert (caught.value.code, caught.value.key) == ("S207", "wanted")
    assert caught.value.value == value


def test_a_wish_to_stand_as_now_is_told_only_where_it_is_one() -> None:
    assert repr(bw.Wanted(same_height=True)) == "<Wanted: same height>"
    assert repr(bw.Wanted(same_height=True, cuts=0)) == "<Wanted: same height, cuts 0>"
    assert repr(bw.Wanted(height="349 mm")) == "<Wanted: height 349.00 mm>"


@pytest.mark.parametrize("height", ["0 mm", "-349 mm"])
def test_a_wanted_height_is_above_zero(height: str) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.Wanted(height=height)

    assert (caught.value.code, caught.value.key) == ("Q302", "height")


def test_words_of_records_are_the_words_of_files() -> None:
    words = {
        cls: [member.value for member in cls]
        for cls in (
            *(
                bw.parts.Side,
                bw.parts.AxlePlace,
                bw.parts.BarEndName,
                bw.parts.LoadPoint,
                bw.parts.LeverSide,
                bw.parts.LoadKind,
            ),
            bw.parts.JointSide,
        )
    }
    flat = [word for group in words.values() for word in group]

    assert all(issubclass(cls, enum.Enum) for cls in words)
    assert all(isinstance(word, str) and word == word.lower() for word in flat)


def test_an_axle_of_another_vehicle_is_refused() -> None:
    setup = make_setup()
    other = make_setup(bar=make_bar(id="t:bar/other"))
    rear = attrs.evolve(setup.axle, place=bw.parts.AxlePlace.REAR)

    for axle in (other.axle, rear):
        with pytest.raises(bw.SchemaError) as caught:
            attrs.evolve(setup, axle=axle)
        assert (caught.value.code, caught.value.key) == ("S207", "axle")
    # One of its own may be tried with other figures.
    wider = attrs.evolve(setup.axle, tyre_radius="290 mm")
    assert attrs.evolve(setup, axle=wider).axle is wider


def test_a_socket_asks_for_no_more_engagement_than_it_is_long() -> None:
    end = make_end(39)
    make_socket(end, length="38 mm", required_engagement="38 mm")

    with pytest.raises(bw.SchemaError) as caught:
        make_socket(end, length="38 mm", required_engagement="38.1 mm")
    assert (caught.value.code, caught.value.key) == ("S207", "required_engagement")
