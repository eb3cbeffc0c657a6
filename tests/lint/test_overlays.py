"""`lint_pack` of an overlay: over which packs, by which rules, and all that is wrong at once."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.lint.catalogue import OVERLAY_RULES
from barwright.registry.overlays.store import OverlaidStore
from sample_overlays import GOOD_OVERLAY, POOR_OVERLAY, correction, found_over, overlay, two_packs
from sample_packs import GOOD_PACK, changed_pack

STEEL = """\
[[material]]
id = "ours"
title = "Our steel"
source = "measured"
shear_modulus = "60 GPa"
"""
CHECK = """\
[[check]]
computes = "bar_rate"
of = "{of}"
is = "{value}"
source = "published"
at = "page 4"
"""


def lint(made: Path, *over: Path) -> bw.answers.PackLint:
    return bw.lint_pack(made, over=over or [GOOD_PACK])


def codes(linted: bw.answers.PackLint) -> list[str]:
    return [finding.code for finding in linted.findings]


# -- The specimens, over what is installed ---------------------------------------------


def test_the_good_overlay_is_good_over_what_is_installed() -> None:
    linted = bw.lint_pack(GOOD_OVERLAY)

    assert (linted.findings, linted.exit_code, linted.pack) == ((), 0, "shed")
    assert [(f.rule, f.of) for f in linted.waived] == [
        ("preference-needed", "prefer.fells"),
        ("correction-near", "fells:chassis/short.axles.front.standard_mass"),
    ]


def test_the_poor_overlay_has_a_finding_of_every_rule_for_overlays_and_no_other() -> None:
    linted = bw.lint_pack(POOR_OVERLAY)

    assert sorted(codes(linted)) == sorted(rule.code for rule in OVERLAY_RULES)
    for finding in linted.findings:
        assert finding.line > 0
        assert all((finding.of, finding.key, finding.message, finding.remedy))
    assert (linted.exit_code, linted.pack) == (1, "lean-to")


# -- What lies beneath -----------------------------------------------------------------


def test_an_overlay_is_looked_at_over_the_packs_that_are_named(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction())

    assert "S206" not in codes(lint(made))
    assert "S206" in codes(bw.lint_pack(made))
    assert "S206" in codes(bw.lint_pack(made, over=[]))


def test_an_overlay_may_lie_on_another_one(tmp_path: Path) -> None:
    low = overlay(tmp_path, STEEL, pack_id="low")
    high = overlay(tmp_path, correction("shear_modulus", "61 GPa", of="low:material/ours"))

    assert "S206" in codes(lint(high))
    assert "S206" not in codes(lint(high, GOOD_PACK, low))
    assert "S206" not in codes(lint(high, low, GOOD_PACK))


def test_what_a_preference_lets_in_can_be_corrected(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    chosen = overlay(tmp_path, correction(), header=f'[prefer]\ntiny = "{first}"\n')
    undecided = overlay(tmp_path, correction(), pack_id="undecided")

    assert "loads" not in [f.rule for f in lint(chosen, first, second).findings]
    found = lint(undecided, first, second).findings
    assert [f.code for f in found if f.rule == "loads"] == ["P101", "P101", "S206"]


def test_a_pack_that_is_left_out_is_told_where_something_is_missed(tmp_path: Path) -> None:
    broken = changed_pack(tmp_path, "parts.toml", '"904 mm"', "904")
    missing = overlay(tmp_path, correction())
    enough = overlay(tmp_path, pack_id="enough")

    reported = lint(missing, broken).findings[0]
    assert (reported.rule, reported.code, reported.file, reported.line) == (
        "loads",
        "P101",
        "pack.toml",
        0,
    )
    assert reported.message.startswith(
        f"the pack {str(broken)!r} below the overlay is left out: Q105: "
    )
    assert "loads" not in [f.rule for f in lint(enough, broken).findings]


def test_what_lies_beneath_has_no_say_in_whether_a_pack_is_good(tmp_path: Path) -> None:
    assert bw.lint_pack(GOOD_PACK, over=[tmp_path / "nowhere"]).findings == ()


# -- What is an overlay ----------------------------------------------------------------


def test_without_its_word_for_it_an_overlay_is_linted_as_a_pack(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction())
    header = made / "pack.toml"
    text = header.read_text(encoding="utf-8")
    header.write_text(text.replace("overlay = true\n", ""), encoding="utf-8")

    (finding,) = [f for f in lint(made).findings if f.rule == "loads"]
    assert (finding.code, finding.of) == ("S201", "correction")
    assert "overlay = true" in finding.remedy


def test_an_overlay_without_a_good_header_is_all_that_can_be_told(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction("size"), header="[prefer]\ntiny = 5\n")

    linted = lint(made)
    assert [(f.code, f.line, f.of) for f in linted.findings] == [("S203", 27, "prefer.tiny")]
    assert (linted.exit_code, linted.pack) == (1, "")


# -- All at once -----------------------------------------------------------------------


def test_all_that_is_wrong_is_told_at_once(tmp_path: Path) -> None:
    made = overlay(
        tmp_path,
        correction(of="tiny:bar/onee", source="measurd"),
        correction("diametre"),
        correction("length", "904 kg"),
        correction("length", "50 mm"),
        correction(),
        correction(),
        correction("arm_end.length", source="measurd"),
        '[[correction]]\nof = "tiny:bar/one"\n',
        STEEL,
        header='[prefer]\ntny = "x"\n',
    )

    found = [(f.code, f.file, f.line) for f in lint(made).findings if f.rule == "loads"]
    assert found == [
        ("S206", "pack.toml", 27),
        ("S206", "ours.toml", 2),
        ("S206", "ours.toml", 5),
        ("S206", "ours.toml", 11),
        ("Q202", "ours.toml", 20),
        ("G103", "ours.toml", 28),
        ("S207", "ours.toml", 43),
        ("S206", "ours.toml", 53),
        *[("S202", "ours.toml", 57)] * 4,
    ]
    assert "R103" in codes(lint(made))


def test_a_correction_is_held_to_what_other_figures_are_held_to(tmp_path: Path) -> None:
    text = correction("diameter", "90 mm").replace('at = "sheet 1"\n', "")
    made = overlay(tmp_path, text, correction("length", "950 mm ± 1 mm", source="maker"))

    concern = "tiny:bar/one.diameter"
    for rule in ("placed", "toleranced"):
        assert [found[2] for found in found_over(made, rule)] == [concern]
    used = {found[2] for found in found_over(made, "unused-source")}
    assert used == {"source/invented", "source/published", "source/recalled"}


def test_a_correction_may_be_implausible(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction("length", "2600 mm ± 1 mm"))

    message = "2600 mm is unusual; such figures lie from 200 mm to 2500 mm"
    expected = [("ours.toml", 4, "tiny:bar/one.length", message)]
    assert found_over(made, "plausible") == expected


def test_a_figure_without_a_usual_range_is_plausible(tmp_path: Path) -> None:
    assert found_over(overlay(tmp_path, correction("bore", "2 mm ± 1 mm")), "plausible") == []


def test_a_finding_of_a_correction_is_waived_by_the_full_id(tmp_path: Path) -> None:
    waiver = '[[waiver]]\nrule = "correction-near"\nof = "{}"\nwhy = "It is another bar."\n'
    far = correction("length", "1904 mm ± 1 mm")
    full = overlay(tmp_path, far, waiver.format("tiny:bar/one.length"), pack_id="full")
    short = overlay(tmp_path, far, waiver.format("bar/one.length"), pack_id="short")

    assert [f.of for f in lint(full).waived] == ["tiny:bar/one.length"]
    assert lint(short).waived == ()
    assert {"R602", "R502"} <= set(codes(lint(short)))


# -- Checks ----------------------------------------------------------------------------


@pytest.mark.parametrize(("value", "count"), [("47.83 N·m/deg", 1), ("50.30 N·m/deg", 0)])
def test_a_check_is_of_what_the_overlay_makes_of_a_record(
    tmp_path: Path, value: str, count: int
) -> None:
    check = CHECK.format(of="tiny:bar/one", value=value)
    made = overlay(tmp_path, correction(), check)

    found = found_over(made, "check-holds")
    assert found_over(made, "loads") == []
    assert [of for _, _, of, _ in found] == ["tiny:bar/one.bar_rate"] * count


def test_a_check_may_be_of_a_record_of_its_own_and_of_nothing_else(tmp_path: Path) -> None:
    made = overlay(tmp_path, CHECK.format(of="tiny:bar/onee", value="51 N·m/deg"))

    (finding,) = [f for f in lint(made).findings if f.rule == "loads"]
    assert (finding.code, finding.line) == ("S206", 3)
    assert "'tiny:bar/one'" in finding.remedy


def test_a_record_that_the_overlay_makes_impossible_is_told_at_the_check(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def impossible(_: OverlaidStore, name: str) -> None:
        problem = bw.GeometryError("G103", value=name, expected="more", remedy="add", key="length")
        raise bw.PackError("P101", problems=(problem,), file=str(tmp_path))

    made = overlay(tmp_path, CHECK.format(of="tiny:bar/one", value="50.30 N·m/deg"))
    monkeypatch.setattr(OverlaidStore, "part", impossible)

    (finding,) = [f for f in lint(made).findings if f.rule == "loads"]
    assert (finding.code, finding.file, finding.line) == ("G103", "ours.toml", 1)
    assert finding.message == "got 'tiny:bar/one', expected more"
