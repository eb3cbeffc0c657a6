"""Rule `invented-unsaid`: a vehicle that is invented says so where people choose one."""

from __future__ import annotations

from pathlib import Path

from flawed_packs import changed, reported
from sample_packs import GOOD_PACK

PLAIN = ("pack.toml", "One invented vehicle", "One vehicle")


def test_a_vehicle_is_told_at_its_title(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "invented-unsaid", PLAIN)
    message = "its figures are invented, but neither its title nor the pack's says so"
    assert reported(finding) == ("vehicles.toml", 3, "chassis/one.title", message)
    assert finding.code == "R114"


def test_the_word_in_the_title_of_the_vehicle_will_do(tmp_path: Path) -> None:
    title = ("vehicles.toml", 'title = "Vehicle"', 'title = "Invented vehicle"')
    assert changed(tmp_path, "invented-unsaid", PLAIN, title) == []


def test_one_invented_figure_of_an_axle_is_enough(tmp_path: Path) -> None:
    whole = ("vehicles.toml", 'source = "desk"', 'source = "bench"')
    assert changed(tmp_path / "a", "invented-unsaid", PLAIN, whole) == []
    one = (
        "vehicles.toml",
        'hub_up = "48 mm"',
        'hub_up = { is = "48 mm ± 1 mm", source = "desk" }',
    )
    (finding,) = changed(tmp_path / "b", "invented-unsaid", PLAIN, whole, one)
    assert finding.of == "chassis/one.title"


def test_parts_alone_need_no_word_in_a_title(tmp_path: Path) -> None:
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    assert changed(tmp_path, "invented-unsaid", PLAIN, ("vehicles.toml", text, "")) == []


def test_an_id_may_hold_points(tmp_path: Path) -> None:
    pointed = ("vehicles.toml", 'id = "one"', 'id = "one.5"')
    (finding,) = changed(tmp_path, "invented-unsaid", PLAIN, pointed)
    assert finding.of == "chassis/one.5.title"
