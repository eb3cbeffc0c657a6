"""Rule `check-holds`: what a check says is what barwright computes."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from flawed_packs import added, found, reported

# A solid shaft of the tube's section and free length, by the formula of any textbook on
# strength: G·π/32·(D⁴-d⁴)/l. The pack gives 77 GPa, 46 mm, 38.4 mm, 772 mm - 31 mm.
TUBE_RATE = 77e9 * math.pi / 32 * (0.046**4 - 0.0384**4) / 0.741 * math.pi / 180

CHECK = """
[[check]]
computes = "{}"
of = "{}"
{}
is = "{}"
source = "bench"
at = "sheet 4"
"""


def tube(figure: str) -> str:
    return CHECK.format("tube_rate", "tube/one", "", figure)


@pytest.mark.parametrize(
    ("share", "tolerance", "holds"),
    [
        (1.0, "", True),
        (1.009, "", True),
        (1.011, "", False),
        (0.989, "", False),
        (1.011, " ± 10 N*m/deg", True),
        (1.03, " ± 10 N*m/deg", False),
        (1.009, " ± 1 N*m/deg", False),
    ],
)
def test_a_figure_holds_within_its_tolerance_or_one_percent(
    tmp_path: Path, share: float, tolerance: str, *, holds: bool
) -> None:
    figure = f"{share * TUBE_RATE:.3f} N*m/deg{tolerance}"
    findings = found(added(tmp_path, tube(figure)), "check-holds")
    assert [f.of for f in findings] == ([] if holds else ["tube/one.tube_rate"])


@pytest.mark.parametrize(("spread", "proves"), [(359, True), (360, False), (9000, False)])
def test_a_tolerance_as_large_as_a_rate_proves_nothing(
    tmp_path: Path, spread: int, *, proves: bool
) -> None:
    findings = found(added(tmp_path, tube(f"360 N*m/deg ± {spread} N*m/deg")), "check-holds")
    assert [f.message[:15] for f in findings] == ([] if proves else ["proves nothing:"])


def test_a_figure_that_may_be_zero_can_be_checked_near_it(tmp_path: Path) -> None:
    angle = CHECK.format("ride.arm_angle", "chassis/one", 'corner = "front left"', "1 deg ± 7 deg")
    assert found(added(tmp_path, angle), "check-holds") == []


def test_what_is_said_of_it_is_in_the_unit_of_the_check(tmp_path: Path) -> None:
    (finding,) = found(added(tmp_path, tube("300 lbf*ft/deg ± 1 lbf*ft/deg")), "check-holds")
    pounds = TUBE_RATE / 1.3558179483314004
    message = f"barwright computes {pounds:.6g} lbf·ft/deg, not 300 lbf·ft/deg ± 1 lbf·ft/deg"
    assert reported(finding) == ("more.toml", 2, "tube/one.tube_rate", message)
    assert (finding.code, finding.key) == ("R401", "check[0]")


CORNER = 'corner = "front left"'


@pytest.mark.parametrize(
    ("computes", "of", "keys", "figure"),
    [
        # Turns of 360°, divided by the least common multiple of 39 and 42.
        ("clocking_step", "bar/one", "", "0.6593 deg ± 0.0001 deg"),
        ("clocking_step", "tiny:bar/one", "", "0.6593 deg ± 0.0001 deg"),
        # Height in standard trim, by the definition of the question.
        ("ride.height", "chassis/one", CORNER, "404 mm ± 0.001 mm"),
        ("ride.wheel_load", "chassis/one", CORNER, "2853.74 N ± 0.01 N"),  # 291 kg · 9.80665 m/s²
        ("tube_rate", "chassis/one", CORNER, f"{TUBE_RATE:.4f} N*m/deg ± 0.001 N*m/deg"),
        ("droop.stroke_to_open", "chassis/one", CORNER, "0 mm ± 0.001 mm"),
    ],
)
def test_figures_of_parts_and_of_corners_are_computed(
    tmp_path: Path, computes: str, of: str, keys: str, figure: str
) -> None:
    pack = added(tmp_path, CHECK.format(computes, of, keys, figure))
    assert found(pack, "loads") + found(pack, "check-holds") == []


def test_another_bar_takes_the_place_of_the_standard_one(tmp_path: Path) -> None:
    """Half as thick again, a bar has five times the rate."""
    parts = added(tmp_path / "x") / "parts.toml"
    text = parts.read_text(encoding="utf-8")
    bar = "[[bar]]" + text.partition("[[bar]]")[2].partition("[[tube]]")[0]
    soft = bar.replace('"one"', '"soft"').replace("23.3 mm", "15.5 mm").replace("22 mm", "0 mm")
    soft = soft.replace("26 mm", "0 mm")
    firm = soft.replace('"soft"', '"firm"').replace("15.5 mm", "23.25 mm")
    bars = soft + firm
    checks = [
        CHECK.format("bar_rate", "chassis/one", f'{CORNER}\nbar = "bar/{name}"', f"{rate} N*m/deg")
        for name, rate in (("soft", 2.8), ("firm", 1.5**4 * 2.8))
    ]
    one, other = (f.message for f in found(added(tmp_path, bars, *checks), "check-holds"))
    rates = [float(message.split()[2]) for message in (one, other)]
    assert rates[1] == pytest.approx(1.5**4 * rates[0], rel=0.02)


def test_a_corner_without_an_answer_is_told(tmp_path: Path) -> None:
    pack = added(tmp_path, CHECK.format("ride.height", "chassis/one", CORNER, "404 mm"))
    parts = pack / "parts.toml"
    text = parts.read_text(encoding="utf-8")
    parts.write_text(text.replace('length = "904 mm"', 'length = "990 mm"'), encoding="utf-8")
    (finding,) = found(pack, "check-holds")
    assert finding.message == "cannot be computed: the corner has no such figure"


def test_a_corner_that_does_not_close_is_told(tmp_path: Path) -> None:
    pack = added(tmp_path, CHECK.format("ride.height", "chassis/one", CORNER, "404 mm"))
    vehicles = pack / "vehicles.toml"
    text = vehicles.read_text(encoding="utf-8")
    vehicles.write_text(text.replace('top_up = "611 mm"', 'top_up = "61 mm"'), encoding="utf-8")
    (finding,) = found(pack, "check-holds")
    assert finding.message.startswith("cannot be computed: got 'stops of -24° and 17°', expected a")
