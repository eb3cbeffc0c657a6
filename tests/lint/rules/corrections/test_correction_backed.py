"""Rule `correction-backed`: a correction is known at least as well as what it corrects."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import ESTIMATED
from sample_overlays import correction, found_over, overlay
from sample_packs import changed_pack


def measured_pack(folder: Path, kind: str) -> Path:
    """The good pack, with figures that come from elsewhere."""
    return changed_pack(folder, "pack.toml", 'kind = "invented"', f'kind = "{kind}"')


@pytest.mark.parametrize("kind", ["measured", "published", "maker"])
@pytest.mark.parametrize("source", ["invented", "estimated", "recalled"])
def test_what_is_guessed_in_the_place_of_what_is_known_is_found(
    tmp_path: Path, kind: str, source: str
) -> None:
    pack = measured_pack(tmp_path, kind)
    made = overlay(tmp_path, correction(source=source), header=ESTIMATED)

    found = [f for f in bw.lint_pack(made, over=[pack]).findings if f.code == "R603"]
    assert [f.message for f in found] == [f"the new figure is {source}, the old one {kind}"]
    assert (found[0].line, found[0].of) == (4, "tiny:bar/one.diameter")


@pytest.mark.parametrize("kind", ["measured", "invented", "recalled"])
@pytest.mark.parametrize("source", ["measured", "published", "maker"])
def test_what_is_known_may_take_any_place(tmp_path: Path, kind: str, source: str) -> None:
    pack = measured_pack(tmp_path, kind)
    made = overlay(tmp_path, correction(source=source))

    assert "R603" not in [f.code for f in bw.lint_pack(made, over=[pack]).findings]


@pytest.mark.parametrize("figure", ["diameter", "bore"])
def test_a_guess_may_take_the_place_of_a_guess_or_of_nothing(tmp_path: Path, figure: str) -> None:
    made = overlay(tmp_path, correction(figure, "22 mm", source="recalled"))

    assert found_over(made, "correction-backed") == []
