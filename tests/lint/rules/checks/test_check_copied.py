"""Rule `check-copied`: a check is not barwright's own answer, written down."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import added, found, reported

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
    message = "agrees with barwright in more digits than are known"
    expected = ("more.toml", 1, "bar/one.clocking_step", message)
    assert [reported(f) for f in findings] == [expected] * is_copied
    assert all((f.code, f.severity) == ("R403", bw.answers.Severity.WARNING) for f in findings)


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
