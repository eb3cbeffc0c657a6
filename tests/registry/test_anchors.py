"""Packs and jobs of vehicles without torque tubes: key levers, fixed sockets."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.units import is_unknown
from sample_packs import GOOD_PACK, changed_pack

SOCKET = (
    'socket = { teeth = 42, form = "involute", length = "38 mm", minor_diameter = "31.1 mm", '
    'required_engagement = "24 mm", key_angle = "-181 deg" }'
)
ANCHORS = f"""
[[key-lever]]
id = "one"
title = "Key lever"
source = "desk"
face_offset = "8 mm"
face_start = "30 mm"
face_end = "75 mm ± 1 mm"
lever_position = "31 mm"
socket_position = "772 mm"
{SOCKET}

[[adjuster]]
id = "key"
title = "Bolt"
source = "desk"
lever_lies = "droopward"
thread_diameter = "14 mm"
thread_pitch = "1.5 mm"
thread_start = "20 mm"
thread_end = "44 mm"
[adjuster.mounting]
kind = "key-bolt"
line_distance = "50 mm"
foot_angle = "180 deg"
foot_position = "40 mm"
end_radius = "6 mm"

[[fixed-socket]]
id = "one"
title = "Fixed socket"
source = "desk"
anchor_angle = "180 deg ± 0.5 deg"
socket_position = "772 mm"
{SOCKET}
"""
LEFT = 'tube = "tube/one", adjuster = "adjuster/one"'
TRUCK = 'tube = "key-lever/one", adjuster = "adjuster/key"'
TRAILER = 'tube = "tiny:fixed-socket/one"'


def pack_of(folder: Path, parts: str) -> Path:
    """The good pack with more anchors, its vehicle on one of them."""
    pack = changed_pack(folder, "vehicles.toml", LEFT, parts)
    (pack / "anchors.toml").write_text(ANCHORS, encoding="utf-8")
    if parts == TRAILER:
        vehicles = pack / "vehicles.toml"
        text = vehicles.read_text(encoding="utf-8")
        kept = [
            line
            for line in text.splitlines()
            if not line.startswith(("bolt_", "cap_", "lever_allowance"))
        ]
        vehicles.write_text("\n".join(kept), encoding="utf-8")
    return pack


def registry_of(folder: Path, parts: str, *, cache: bool = False) -> bw.Registry:
    registry = bw.Registry.from_folders(pack_of(folder, parts), cache=cache)
    assert registry.problems == ()
    return registry


def problems_of(pack: Path) -> list[bw.BarwrightError]:
    (error,) = bw.Registry.from_folders(pack, cache=False).problems
    return list(error.problems)


@pytest.mark.parametrize("cache", [False, True])
def test_a_truck_with_key_levers_is_read(tmp_path: Path, *, cache: bool) -> None:
    registry = registry_of(tmp_path, TRUCK, cache=cache)
    setup = registry.setup("tiny:chassis/one", corner="front left")
    assert isinstance(setup.anchor, bw.parts.KeyLever)
    assert setup.anchor == registry.part("tiny:key-lever/one")
    assert setup.anchor.about["face_end"].tolerance == bw.Quantity(1.0, "mm")
    assert setup.adjuster is not None
    assert isinstance(setup.adjuster.mounting, bw.parts.KeyBoltMounting)
    assert setup.adjuster.mounting.stretch is bw.parts.ContactSide.BUMPWARD
    assert bw.reindex(setup).outcome.is_good


@pytest.mark.parametrize("cache", [False, True])
def test_a_trailer_with_fixed_sockets_is_read(tmp_path: Path, *, cache: bool) -> None:
    registry = registry_of(tmp_path, TRAILER, cache=cache)
    setup = registry.setup("tiny:chassis/one", corner="front right")
    assert isinstance(setup.anchor, bw.parts.FixedSocket)
    assert (setup.adjuster, setup.axle.bolt_position) == (None, None)
    assert bw.rates(setup).outcome.is_good


def test_a_lever_without_its_bolt_is_a_problem_of_the_pack(tmp_path: Path) -> None:
    (problem,) = problems_of(pack_of(tmp_path, 'tube = "key-lever/one"'))
    assert (problem.code, problem.key) == ("S207", "chassis[0].axles[0].left.adjuster")


def test_a_vehicle_may_leave_out_the_place_of_its_bolt(tmp_path: Path) -> None:
    pack = pack_of(tmp_path, TRUCK)
    path = pack / "vehicles.toml"
    text = path.read_text(encoding="utf-8").replace('bolt_position = "127 mm"\n', "")
    path.write_text(text, encoding="utf-8")
    registry = bw.Registry.from_folders(pack, cache=False)
    assert registry.problems == ()
    assert is_unknown(registry.setup("tiny:chassis/one", corner="front left").axle.bolt_position)


def test_an_id_of_another_kind_stands_for_no_anchor(tmp_path: Path) -> None:
    (problem,) = problems_of(pack_of(tmp_path, 'tube = "key-lever/on", adjuster = "adjuster/key"'))
    assert (problem.code, problem.key) == ("S206", "chassis[0].axles[0].left.tube")
    assert problem.expected.startswith("the id of a tube or a key lever or a fixed socket of the")
    assert "key-lever/one" in problem.remedy
    (tmp_path / "two").mkdir()
    (problem,) = problems_of(pack_of(tmp_path / "two", 'tube = 5, adjuster = "adjuster/key"'))
    assert problem.code == "S203"


def test_the_kinds_of_anchor_share_no_ids(tmp_path: Path) -> None:
    registry = registry_of(tmp_path, TRUCK)
    ids = {part.id for part in registry.parts() if part.id.endswith("/one")}
    assert {"tiny:tube/one", "tiny:key-lever/one", "tiny:fixed-socket/one"} <= ids


@pytest.mark.parametrize("parts", [LEFT, TRUCK, TRAILER])
def test_a_pack_may_call_its_anchors_anchors(tmp_path: Path, parts: str) -> None:
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
    usual = registry_of(tmp_path / "one", parts).chassis("tiny:chassis/one")
    pack = pack_of(tmp_path / "two", parts)
    vehicles = pack / "vehicles.toml"
    text = vehicles.read_text(encoding="utf-8")
    vehicles.write_text(text.replace("tube =", "anchor ="), encoding="utf-8")

    assert bw.Registry.from_folders(pack, cache=False).chassis("tiny:chassis/one") == usual


@pytest.mark.parametrize(
    ("parts", "code", "key"),
    [
        ('anchor = "tube/one", tube = "tube/one", adjuster = "adjuster/one"', "S207", "anchor"),
        ('anchor = "tube/two", adjuster = "adjuster/one"', "S206", "anchor"),
        ('anchor = 5, adjuster = "adjuster/one"', "S203", "anchor"),
        ('anchor = "tube/one", adjuster = "adjuster/two"', "S206", "adjuster"),
        ('adjuster = "adjuster/one"', "S202", "tube"),
    ],
)
def test_a_problem_is_told_by_the_key_that_is_written(
    tmp_path: Path, parts: str, code: str, key: str
) -> None:
    (problem,) = problems_of(pack_of(tmp_path, parts))

    assert (problem.code, problem.key) == (code, f"chassis[0].axles[0].left.{key}")
    assert problem.line


# -- Jobs ------------------------------------------------------------------------------------

JOB = """vehicle = "tiny:chassis/one"
corners = ["front left"]
[wanted]
keep_standard = true
"""


def corner_of(folder: Path, registry: bw.Registry, tables: str) -> bw.JobCorner:
    path = folder / "job.toml"
    path.write_text(JOB + tables, encoding="utf-8")
    return bw.load_job(path, registry).corners[0]


def test_a_job_swaps_a_tube_for_a_fixed_socket(tmp_path: Path) -> None:
    registry = registry_of(tmp_path, LEFT)
    tables = '[parts]\ntube = "tiny:fixed-socket/one"\n[present]\nnut_turns = "2 turn"\n'
    corner = corner_of(tmp_path, registry, tables)
    assert isinstance(corner.present.anchor, bw.parts.Tube)
    assert corner.present.nut_turns.magnitude == 2.0
    assert isinstance(corner.setup.anchor, bw.parts.FixedSocket)
    assert (corner.setup.adjuster, corner.setup.nut_turns.magnitude) == (None, 0.0)


def test_a_job_finds_a_fixed_socket_on_a_vehicle_that_had_a_tube(tmp_path: Path) -> None:
    registry = registry_of(tmp_path, LEFT)
    corner = corner_of(tmp_path, registry, '[present]\ntube = "tiny:fixed-socket/one"\n')
    assert corner.present.adjuster is None
    assert isinstance(corner.setup.anchor, bw.parts.Tube)
    assert corner.setup.adjuster == registry.part("tiny:adjuster/one")


def test_a_job_finds_key_levers_on_a_vehicle_that_had_none(tmp_path: Path) -> None:
    registry = registry_of(tmp_path, LEFT)
    now = '[present]\ntube = "tiny:key-lever/one"\nadjuster = "tiny:adjuster/key"\n'
    corner = corner_of(tmp_path, registry, f'{now}nut_turns = "1 turn"\n')
    assert isinstance(corner.present.anchor, bw.parts.KeyLever)
    assert isinstance(corner.setup.anchor, bw.parts.Tube)


def test_a_standard_fixed_socket_keeps_no_turns_of_what_was_there(tmp_path: Path) -> None:
    registry = registry_of(tmp_path, TRAILER)
    corner = corner_of(tmp_path, registry, "")
    assert corner.setup == corner.present
    assert corner.setup.adjuster is None


@pytest.mark.parametrize(
    ("tables", "code", "key"),
    [
        ('[parts]\ntube = "tiny:key-lever/one"\n', "S207", "parts.adjuster"),
        ('[present]\ntube = "tiny:key-lever/one"\n', "S207", "present.adjuster"),
        ('[parts]\ntube = "tiny:damper/one"\n', "J101", "parts.tube"),
        ('[parts]\nanchor = "tiny:damper/one"\n', "J101", "parts.anchor"),
        ('[present]\nanchor = "tiny:tube/two"\n', "L102", "present.anchor"),
        ('[parts.left]\nanchor = "tiny:tube/two"\n', "L102", "parts.left.anchor"),
        ('[parts]\nanchor = "tiny:tube/one"\ntube = "tiny:tube/one"\n', "S207", "parts.anchor"),
    ],
)
def test_a_job_that_mixes_anchors_is_refused(
    tmp_path: Path, tables: str, code: str, key: str
) -> None:
    registry = registry_of(tmp_path, LEFT)
    with pytest.raises(bw.DocumentError) as caught:
        corner_of(tmp_path, registry, tables)
    (problem,) = caught.value.problems
    assert (problem.code, problem.key) == (code, key)


@pytest.mark.parametrize("table", ["parts", "present"])
def test_a_job_may_call_an_anchor_an_anchor(tmp_path: Path, table: str) -> None:
    registry = registry_of(tmp_path, LEFT)
    usual, other = (
        corner_of(tmp_path, registry, f'[{table}]\n{key} = "tiny:fixed-socket/one"\n')
        for key in ("tube", "anchor")
    )

    assert usual == other
    assert usual != corner_of(tmp_path, registry, "")


@pytest.mark.parametrize(("shared", "own"), [("tube", "anchor"), ("anchor", "tube")])
def test_what_one_side_has_is_above_what_both_have_however_it_is_written(
    tmp_path: Path, shared: str, own: str
) -> None:
    registry = registry_of(tmp_path, LEFT)
    tables = f'[parts]\n{shared} = "tiny:fixed-socket/one"\nleft.{own} = "tiny:tube/one"\n'

    assert isinstance(corner_of(tmp_path, registry, tables).setup.anchor, bw.parts.Tube)


def test_a_name_that_is_nearly_that_of_an_anchor_is_suggested(tmp_path: Path) -> None:
    registry = registry_of(tmp_path, LEFT)
    with pytest.raises(bw.DocumentError) as caught:
        corner_of(tmp_path, registry, '[parts]\ntube = "tiny:fixed-socket/on"\n')
    (problem,) = caught.value.problems
    assert "tiny:fixed-socket/one" in problem.remedy


def test_the_good_pack_is_as_it_was() -> None:
    assert LEFT in (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
