"""Rule `check-copied`: a check is not barwright's own answer, written down."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import added, found, reported
from sample_packs import GOOD_PACK

# 360° divided by the least common multiple of 39 and 42.
STEP = 360.0 / 546.0


def step(figure: str) -> str:
    return (
        f'[[check]]\ncomputes = "clocking_step"\nof = "bar/one"\nis = "{figure}"\n'
        'source = "bench"\nat = "sheet 4"\n'
    )


@pytest.mark.parametrize(
    ("figure", "is_copied"),
    [
        (f"{STEP:.12f} deg", True),
        (f"{STEP:.7f} deg", True),
        (f"{STEP:.6f} deg", False),
        (f"{STEP:.4f} deg", False),
        (f"{STEP:.8f} deg ± 0.001 deg", True),
        (f"{STEP + 1e-5:.9f} deg", False),
        (f"+{STEP / 57.29577951308232:.10f} rad", True),
    ],
)
def test_more_digits_than_anyone_knows_are_suspicious(
    tmp_path: Path, figure: str, *, is_copied: bool
) -> None:
    findings = found(added(tmp_path, step(figure)), "check-copied")
    expected = ("more.toml", 1, "bar/one.clocking_step")
    assert [reported(f)[:3] for f in findings] == [expected] * is_copied
    assert all(f.message.startswith("agrees with barwright in all of its ") for f in findings)
    assert all((f.code, f.severity) == ("R403", bw.answers.Severity.WARNING) for f in findings)


@pytest.mark.parametrize("digits", [3, 4, 5, 6, 7, 8])
@pytest.mark.parametrize("off", [0.0, 3.0])
def test_what_is_measured_agrees_in_three_digits_at_most(
    tmp_path: Path, digits: int, off: float
) -> None:
    """From four digits on, a rate that agrees in all of them was copied."""
    bar = bw.Registry.from_folders(GOOD_PACK).part("tiny:bar/one")
    assert isinstance(bar, bw.parts.Bar)
    rate = bw.bar_rate(bar).bar_rate.m_as("N*m/deg")
    decimals = digits - 2
    figure = f"{rate + off * 10.0**-decimals:.{decimals}f} N*m/deg"
    check = step(figure).replace("clocking_step", "bar_rate")
    copied = len(found(added(tmp_path, check), "check-copied"))
    assert copied == (digits > 3 and off == 0.0) or (digits > 6 and off)


@pytest.mark.parametrize("break_with", [("904 mm", "990 mm"), ('top_up = "611', 'top_up = "61')])
def test_a_corner_without_an_answer_is_left_to_another_rule(
    tmp_path: Path, break_with: tuple[str, str]
) -> None:
    check = step("404.00000001 mm").replace("clocking_step", "ride.height")
    check = check.replace('"bar/one"', '"chassis/one"\ncorner = "front left"')
    pack = added(tmp_path, check)
    assert len(found(pack, "check-copied")) == 1
    for file in ("parts.toml", "vehicles.toml"):
        text = (pack / file).read_text(encoding="utf-8")
        (pack / file).write_text(text.replace(*break_with), encoding="utf-8")
    assert found(pack, "check-copied") == []


@pytest.mark.parametrize(("note", "copied"), [("Worked by hand", 0), ("Printed", 1)])
def test_a_formula_worked_by_hand_agrees_too(tmp_path: Path, note: str, copied: int) -> None:
    bar = bw.Registry.from_folders(GOOD_PACK).part("tiny:bar/one")
    assert isinstance(bar, bw.parts.Bar)
    rate = bw.bar_rate(bar).bar_rate.m_as("N*m/deg")
    pack = added(tmp_path, step(f"{rate:.3f} N*m/deg").replace("clocking_step", "bar_rate"))
    header = (pack / "pack.toml").read_text(encoding="utf-8")
    said = header.replace("Invented too, and said to be measured", note)
    (pack / "pack.toml").write_text(said, encoding="utf-8")
    assert len(found(pack, "check-copied")) == copied
