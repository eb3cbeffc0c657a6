"""The standards pack: steels that ship with the library, each figure with its source."""

from __future__ import annotations

import pytest

import barwright as bw
from barwright.parts.common.fields import figure_fields
from barwright.registry.packs.load import standards
from each_case import each_case

STEELS = [part for part in standards().parts.values() if isinstance(part, bw.parts.Material)]
SOURCES = {f"standards:{source.id}": source for source in standards().header.source}


def named(name: str) -> bw.parts.Material:
    """One steel of the standards."""
    return next(steel for steel in STEELS if steel.id == f"standards:material/{name}")


def test_no_source_is_listed_for_nothing() -> None:
    used = {figure.source for steel in STEELS for figure in steel.about.values()}

    assert used == set(SOURCES)


@each_case("steel", STEELS)
def test_every_figure_has_a_source_that_finds_it_again(steel: bw.parts.Material) -> None:
    for name in figure_fields(bw.parts.Material):
        figure = steel.about.get(name)
        assert (figure is None) == (getattr(steel, name) is None)
        if figure is not None:
            assert figure.source_kind is SOURCES[figure.source].kind
            assert figure.source_kind is not bw.parts.SourceKind.INVENTED


@each_case("steel", STEELS)
def test_the_interval_of_a_modulus_holds_the_published_spread(steel: bw.parts.Material) -> None:
    # Shear moduli published for bar steels: 72.4 GPa (5160H) to 80 GPa (4340).
    figure = steel.about["shear_modulus"]
    assert figure.tolerance is not None
    low = (figure.value - figure.tolerance).m_as("GPa")
    high = (figure.value + figure.tolerance).m_as("GPa")

    assert low <= 76.2 <= high
    assert figure.tolerance.m_as("GPa") == pytest.approx(3.9)


@each_case(
    "name, field, megapascal",
    [
        ("51crv4", "shear_modulus", 77_200),
        ("52crmov4", "shear_modulus", 77_200),
        ("54sicr6", "shear_modulus", 77_200),
        ("61sicr7", "shear_modulus", 77_200),
        ("sae-6150", "shear_modulus", 77_200),
        ("sae-9254", "shear_modulus", 77_200),
        ("sae-9260", "shear_modulus", 74_100),
        ("sae-5160h", "shear_modulus", 72_400),
        ("sae-51b60h", "shear_modulus", 75_800),
        ("sae-4340", "shear_modulus", 80_000),
        ("sae-4340", "youngs_modulus", 200_000),
        ("sae-4340", "tensile_strength", 1855),
        ("sae-4340", "proof_strength", 1550),
        ("52crmov4", "proof_strength", 1200),
        ("51crv4-40-mm", "proof_strength", 800),
    ],
)
def test_a_figure_is_the_one_that_was_read(name: str, field: str, megapascal: float) -> None:
    """Sources as the pack names them; each of these figures was read, none recalled."""
    figure = named(name).about[field]

    assert figure.value.m_as("MPa") == pytest.approx(megapascal)
    assert figure.source_kind in (bw.parts.SourceKind.PUBLISHED, bw.parts.SourceKind.MAKER)


@each_case("steel", STEELS)
def test_nothing_is_recalled_and_no_shear_is_permitted_that_no_source_gives(
    steel: bw.parts.Material,
) -> None:
    kinds = {figure.source_kind for figure in steel.about.values()}

    assert kinds <= {bw.parts.SourceKind.PUBLISHED, bw.parts.SourceKind.MAKER}
    assert (steel.permissible_shear, steel.preset_permissible_shear) == (None, None)


@pytest.mark.parametrize(
    "source", SOURCES.values(), ids=[name.partition(":")[2] for name in SOURCES]
)
def test_a_source_has_a_name_or_says_that_nobody_wrote_it_down(source: bw.parts.Source) -> None:
    assert source.id == "moduli" or "was not written down" in source.note


def test_the_pack_says_in_its_title_what_its_figures_rest_on() -> None:
    assert "sheets without a name" in standards().header.title
