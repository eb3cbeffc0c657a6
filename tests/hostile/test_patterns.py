"""No regular expression of the library is known to take very long over any text.

How the time grows is measured by `benchmarks.patterns`; here each pattern meets the same
texts, so that one which hangs, or a way of using patterns that is not known, is seen.
"""

from __future__ import annotations

from benchmarks import patterns as benchmark
from hostile.patterns import SHAPES, uses


def test_all_patterns_are_found() -> None:
    places = {use.place for use in uses()}

    assert len(places) > 30
    assert {
        "barwright.registry.files.key_lines._VALUE",
        "barwright.registry.files.toml_limits._TOKEN",
    } <= places
    assert "barwright.parts.common.identity '[1-9][0-9]{3}-(?:0[1-9]|1[0-2])'" in places


def test_no_pattern_hangs() -> None:
    """Which one does stands in the frame of ``apply`` where the test is interrupted."""
    for use in uses():
        for before, piece, after in SHAPES:
            use.apply(before + piece * 32 + after)


def test_the_benchmark_tells_a_square_from_a_line() -> None:
    assert benchmark.growth(float) < benchmark.MOST
    assert benchmark.growth(lambda size: size * float(size)) > benchmark.MOST
