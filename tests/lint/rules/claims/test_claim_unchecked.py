"""Rule `claim-unchecked`: what rests on another pack can be checked."""

from __future__ import annotations

import shutil
from pathlib import Path

from aftermarket_packs import BOTH, FITS, aftermarket_pack, linted, with_bar
from sample_packs import GOOD_PACK


def test_a_vehicle_whose_pack_is_not_there_is_a_note(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, FITS.replace("tiny:", "nowhere:"))
    (finding,) = linted(pack)
    assert (finding.rule, finding.is_flaw) == ("claim-unchecked", False)
    assert finding.message == "the pack 'nowhere' is not installed"
    assert finding.key == "fits[0].on[0]"


def test_a_broken_pack_is_named_as_left_out(tmp_path: Path) -> None:
    broken = tmp_path / "broken"
    shutil.copytree(GOOD_PACK, broken)
    (broken / "parts.toml").write_text("[[arm]]\n", encoding="utf-8")
    (finding,) = linted(aftermarket_pack(tmp_path, FITS), broken)
    assert not finding.is_flaw
    assert finding.message == (
        f"the pack 'tiny' is not installed; left out for their own problems: {broken}"
    )


def test_a_figure_that_the_fit_needs_is_a_note(tmp_path: Path) -> None:
    (finding,) = linted(with_bar(tmp_path, ('length = "904 mm"', "")))
    assert (finding.rule, finding.is_flaw) == ("claim-unchecked", False)
    assert finding.message.startswith(f"{BOTH}: needed to say whether the bar fits: ")


# -- Checks on vehicles of other packs ---------------------------------------------------------

CHECK = """
[[check]]
computes = "ride.wheel_rate"
of = "tiny:chassis/one"
corner = "front left"
bar = "bar/two"
is = "{}"
source = "list"
at = "page 2"
"""


def test_a_check_sets_a_bar_of_the_pack_on_a_vehicle_of_another(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, FITS, CHECK.format("5 N/mm"))
    (finding,) = linted(pack, rule="check-holds")
    assert "barwright computes 2" in finding.message
    assert finding.of == "tiny:chassis/one.ride.wheel_rate"


def test_a_check_on_a_pack_that_is_not_there_is_a_note(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, CHECK.format("5 N/mm").replace("tiny:", "nowhere:"))
    (finding,) = linted(pack, rule="c")
    assert (finding.rule, finding.key) == ("claim-unchecked", "check[0].of")
    assert finding.message == "the pack 'nowhere' is not installed"


def test_a_check_on_what_the_other_pack_lacks_is_an_error(tmp_path: Path) -> None:
    pack = aftermarket_pack(tmp_path, CHECK.format("5 N/mm").replace("chassis/one", "chassis/oen"))
    (finding,) = linted(pack, rule="loads")
    assert (finding.code, finding.key) == ("S206", "check[0].of")
    assert finding.remedy == "did you mean 'tiny:chassis/one'?"
