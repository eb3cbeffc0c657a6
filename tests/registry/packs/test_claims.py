"""What packs say their parts fit: reading it, keeping it, and asking for it."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

import barwright as bw
from aftermarket_packs import FITS, aftermarket_pack
from barwright.parts import AxlePlace, Claimed, Side
from each_case import each_case
from sample_packs import GOOD_PACK, problems_in


def test_what_is_said_of_parts_is_kept_with_its_source(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, FITS.replace("axle =", 'side = "left"\naxle ='))
    (claim,) = bw.Registry.from_folders(pack, GOOD_PACK).claims()

    assert claim.pack == "extra"
    assert claim.parts == ("extra:bar/two",)
    assert claim.on == ("tiny:chassis/one",)
    assert (claim.axle, claim.side, claim.claimed) == (AxlePlace.FRONT, Side.LEFT, Claimed.FITS)
    assert (claim.source, claim.at) == ("extra:list", "page 2")
    assert (claim.file, claim.key) == ("bars.toml", "fits[0]")
    assert repr(claim) == "<Claim: extra:bar/two: fits tiny:chassis/one>"


@each_case(
    "old, new, problem",
    [
        ('"bar/two"', '"bar/tow"', "S206 fits[0].parts[0]"),
        ('"bar/two"', '"tiny:bar/one"', "S206 fits[0].parts[0]"),
        ('"bar/two"', '"material/two"', "S206 fits[0].parts[0]"),
        ('["bar/two"]', "[]", "S207 fits[0].parts"),
        ('["bar/two"]', '["bar/two", "bar/two"]', "S207 fits[0].parts"),
        ('["bar/two"]', '"bar/two"', "S203 fits[0].parts"),
        ('"tiny:chassis/one"', '"chassis/one"', "S206 fits[0].on[0]"),
        ('"tiny:chassis/one"', '"tiny:bar/one"', "S206 fits[0].on[0]"),
        ('"tiny:chassis/one"', '"tiny:chassis/One"', "S206 fits[0].on[0]"),
        ('"tiny:chassis/one"', '""', "S203 fits[0].on[0]"),
        ('["tiny:chassis/one"]', "[]", "S207 fits[0].on"),
        ('"front"', '"middle"', "S204 fits[0].axle"),
        ('as = "fits"', 'as = "nearly"', "S204 fits[0].as"),
        ('as = "fits"', "", "S202 fits[0].as"),
        ('source = "list"', 'source = "lists"', "S206 fits[0].source"),
        ("axle =", "axel =", "S201 fits[0].axel"),
        ("[[fits]]", "[fits]", "S203 fits"),
    ],
)
def test_what_cannot_be_said_is_refused_with_its_place(
    tmp_path: Path, old: str, new: str, problem: str
) -> None:
    assert old in FITS
    assert problems_in(aftermarket_pack(tmp_path, FITS.replace(old, new))) == [problem]


def test_of_a_broken_part_its_own_fault_is_told_alone(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, FITS)
    text = (pack / "bars.toml").read_text(encoding="utf-8")
    (pack / "bars.toml").write_text(text.replace('"904 mm"', '"904"'), encoding="utf-8")

    assert problems_in(pack) == ["Q105 bar[0].length"]


def test_no_more_is_read_after_more_problems_than_anybody_reads(tmp_path: Path) -> None:
    many = FITS.replace('"bar/two"', '"bar/tow"') * 990
    wrong = "\n[[bar]]\nid = 3\n" * 9
    assert len(problems_in(aftermarket_pack(tmp_path, many, wrong))) <= 1001


@pytest.mark.parametrize("cache", [True, False])
def test_an_index_gives_the_same_as_the_files(tmp_path: Path, *, cache: bool) -> None:
    further = FITS.replace("axle =", 'side = "right"\naxle =') + FITS.replace('axle = "front"', "")
    pack = aftermarket_pack(tmp_path, FITS, further, "# an index pays\n" * 999)
    registry = bw.Registry.from_folders(pack, GOOD_PACK, cache=cache)
    kept = bw.Registry.from_folders(GOOD_PACK, pack, cache=not cache)

    assert [claim.key for claim in registry.claims()] == ["fits[0]", "fits[1]", "fits[2]"]
    assert registry.claims() == kept.claims()
    assert pickle.loads(pickle.dumps(registry)).claims() == kept.claims()  # noqa: S301 - ours


def copied(folder: Path, name: str, fits: str) -> Path:
    """The good pack under another id, whose bar is said to fit the vehicle of another."""
    pack = folder / name
    pack.mkdir()
    for path in GOOD_PACK.glob("*.toml"):
        text = path.read_text(encoding="utf-8").replace("tiny", name)
        (pack / path.name).write_text(text, encoding="utf-8")
    own = FITS.replace("bar/two", "bar/one").replace("tiny:", f"{fits}:").replace("list", "desk")
    (pack / "fits.toml").write_text(own, encoding="utf-8")
    return pack


def test_two_packs_that_fit_each_others_vehicles_are_read_in_any_order(tmp_path: Path) -> None:
    """No record of one is made of a record of the other, so there is no circle."""
    one, other = (
        copied(tmp_path, name, fits) for name, fits in (("one", "other"), ("other", "one"))
    )

    there, back_again = (
        bw.Registry.from_folders(*folders) for folders in ((one, other), (other, one))
    )
    assert not (*there.problems, *back_again.problems)
    assert there.claims() == back_again.claims()
    assert [claim.on for claim in there.claims()] == [("other:chassis/one",), ("one:chassis/one",)]
    for pack, beside in ((one, other), (other, one)):
        found = bw.lint_pack(pack, over=[beside]).findings
        assert not [finding for finding in found if finding.rule.startswith("claim-")]


def test_parts_are_offered_for_a_vehicle_by_any_pack(tmp_path: Path) -> None:
    one, two = (aftermarket_pack(tmp_path, FITS, name=name) for name in ("b-pack", "a-pack"))
    registry = bw.Registry.from_folders(one, two, GOOD_PACK)

    offered = registry.offered("chassis/one")
    assert [part.id for part in offered] == ["a-pack:bar/two", "b-pack:bar/two"]
    assert [claim.pack for claim in registry.claims(on="tiny:chassis/one")] == ["a-pack", "b-pack"]
    assert [claim.pack for claim in registry.claims(part="b-pack:bar/two")] == ["b-pack"]
    assert registry.claims(on="tiny:chassis/two") == ()
    with pytest.raises(bw.UnknownNameError):
        registry.offered("tiny:chassis/two")


def test_a_vehicle_that_is_not_installed_leaves_the_pack_whole(tmp_path: Path) -> None:
    registry = bw.Registry.from_folders(aftermarket_pack(tmp_path, FITS))

    assert registry.part("extra:bar/two").title == "Other bar"
    assert len(registry.claims(on="tiny:chassis/one")) == 1


def test_an_overlay_may_say_what_its_own_parts_fit(tmp_path: Path) -> None:
    overlay = aftermarket_pack(tmp_path, FITS)
    text = (overlay / "pack.toml").read_text(encoding="utf-8")
    (overlay / "pack.toml").write_text(f"overlay = true\n{text}", encoding="utf-8")
    registry = bw.Registry.from_folders(GOOD_PACK, overlays=[overlay])

    assert [part.id for part in registry.offered("tiny:chassis/one")] == ["extra:bar/two"]
