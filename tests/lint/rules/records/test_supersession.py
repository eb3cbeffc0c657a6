"""Rule `supersession`: what a part replaces is another part of its kind, and none in a circle."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import found, small_pack, subjects
from sample_overlays import overlay

DAMPER = '[[damper]]\nid = "{0}"\ntitle = "{0}"\nsource = "invented"\nopen_length = "500 mm"\n'
DAMPER += 'closed_length = "300 mm"\nreplaces = {1}\n'
STEEL = '[[material]]\nid = "s"\ntitle = "S"\nsource = "invented"\nshear_modulus = "77 GPa"\n'


def pack_of(folder: Path, **replaces: list[str]) -> Path:
    dampers = (DAMPER.format(name, repr(held)) for name, held in replaces.items())
    return small_pack(folder, STEEL + "".join(dampers))


@pytest.mark.parametrize(
    ("replaces", "message", "remedy"),
    [
        ("damper/c", "it replaces damper/c, which the pack does not have", "did you mean"),
        ("small:damper/c", "it replaces damper/c, which the pack", "did you mean"),
        ("else:damper/a", "it replaces else:damper/a, which the pack", "an overlay may"),
        ("material/s", "it replaces small:material/s, which is of another kind", "name a damper"),
        ("damper/b", "a part cannot replace itself", "name the part that it replaces"),
    ],
)
def test_what_cannot_be_replaced_is_told(
    tmp_path: Path, replaces: str, message: str, remedy: str
) -> None:
    (finding,) = found(pack_of(tmp_path, a=[], b=[replaces]), "supersession")
    assert (finding.of, finding.code) == ("damper/b.replaces[0]", "R222")
    assert message in finding.message
    assert remedy in finding.remedy


def test_a_circle_is_told_of_each_part_in_it_and_the_pack_works(tmp_path: Path) -> None:
    pack = pack_of(tmp_path, a=["damper/c"], b=["damper/a"], c=["damper/b"], d=[])
    assert subjects(pack, "supersession") == [f"damper/{n}.replaces" for n in "abc"]
    assert "damper/b replaces it" in found(pack, "supersession")[0].message
    registry = bw.Registry.from_folders(pack)
    assert [registry.damper(f"damper/{n}").replaced_by for n in "abcd"] == [()] * 4


def test_a_line_of_parts_is_good_though_they_are_the_same(tmp_path: Path) -> None:
    pack = pack_of(tmp_path, a=[], b=["damper/a"], c=["damper/b", "damper/a"])
    assert subjects(pack, "supersession") == []
    assert subjects(pack, "same-content") == []


def test_an_overlay_may_replace_a_part_of_a_pack(tmp_path: Path) -> None:
    pack = pack_of(tmp_path, a=[], b=["damper/a"])
    own = DAMPER.format("ours", '["small:damper/b"]').replace("invented", "measured")
    folder = overlay(tmp_path, own)
    linted = bw.lint_pack(folder, over=[pack])
    assert [f.of for f in linted.findings if f.rule == "supersession"] == []
    registry = bw.Registry.from_folders(pack, overlays=[folder])
    newest = {name: registry.damper(f"small:damper/{name}").replaced_by for name in "ab"}
    assert newest == dict.fromkeys("ab", ("shop:damper/ours",))
