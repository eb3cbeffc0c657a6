"""Tests of `barwright.registry.packs.format.requirement`: which versions a pack asks for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from packaging.specifiers import SpecifierSet

import barwright as bw
from barwright.registry.packs.format.requirement import REQUIREMENT, is_met, own_version
from index_packs import fresh_cache
from sample_packs import GOOD_PACK, changed_pack, problems_in

LICENCE = 'licence = "CC0-1.0"\n'

VERSIONS = st.lists(st.integers(0, 3), min_size=1, max_size=4).map(
    lambda numbers: ".".join(map(str, numbers))
)
CLAUSES = st.builds(str.__add__, st.sampled_from([">=", ">", "<=", "<", "==", "!="]), VERSIONS)


@given(st.lists(CLAUSES, min_size=1, max_size=4), VERSIONS)
def test_a_requirement_means_what_it_means_to_installers(clauses: list[str], version: str) -> None:
    requirement = ", ".join(clauses)
    assert re.fullmatch(REQUIREMENT, requirement)
    assert is_met(requirement, version) == SpecifierSet(requirement).contains(version)


@pytest.mark.parametrize("version", ["0.4rc1", "0.4.dev3", "0.4+shop", "0.4.0.post1"])
def test_only_the_numbers_count(version: str) -> None:
    assert is_met("==0.4", version)


def test_what_has_no_number_is_older_than_all() -> None:
    assert not is_met(">0", "unknown")


@pytest.mark.parametrize(
    "text", ["0.4", "~=0.4", ">=0.4.*", ">= 0.4 <2", ">=v1", "latest", ">=1.2.3.4.5", ">=01"]
)
def test_what_is_no_requirement_is_refused(tmp_path: Path, text: str) -> None:
    assert problems_in(required(tmp_path, text)) == ["S204 requires_barwright"]


def required(folder: Path, text: str) -> Path:
    """The good pack, which asks for versions."""
    return changed_pack(
        folder, "pack.toml", LICENCE, f'{LICENCE}requires_barwright = "{text}"\nnews = 1\n'
    )


def test_another_version_is_refused_before_anything_else(tmp_path: Path) -> None:
    pack = required(tmp_path, "<0")
    (error,) = bw.Registry.from_folders(pack).problems
    (problem,) = error.problems
    assert (problem.code, problem.line) == ("P402", 6)
    assert problem.value == f"barwright {own_version()}"
    assert [f.code for f in bw.lint_pack(pack).findings] == ["P402"]


def test_a_requirement_that_is_met_is_no_news(tmp_path: Path) -> None:
    met = f'{LICENCE}requires_barwright = ">=0, < 99"\n'
    assert problems_in(changed_pack(tmp_path, "pack.toml", LICENCE, met)) == []


def test_a_number_for_a_requirement_is_refused_like_any_other_text(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", LICENCE, f"{LICENCE}requires_barwright = 0.4\n")
    assert problems_in(pack) == ["S203 requires_barwright"]


@pytest.mark.parametrize("text", ["", " 1", "1 2", "-1", "1" * 33, "1\\n"])
def test_what_is_no_version_is_refused(tmp_path: Path, text: str) -> None:
    pack = changed_pack(tmp_path, "pack.toml", LICENCE, f'{LICENCE}version = "{text}"\n')
    assert problems_in(pack) in (["S204 version"], ["S203 version"])


def test_a_pack_s_own_version_is_that_of_its_records(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fresh_cache(tmp_path, monkeypatch)
    monkeypatch.setattr("barwright.registry.open_packs._WORTHWHILE", 0)
    pack = changed_pack(tmp_path, "pack.toml", LICENCE, f'{LICENCE}version = "1.2.0"\n')
    for cache in (True, False):
        registry = bw.Registry.from_folders(pack, cache=cache)
        assert [info.version for info in registry.packs] == ["1.2.0"]
        assert registry.bar("bar/one").pack_version == "1.2.0"
        assert registry.store.version("no-such") == ""
        (locked,) = (one for one in bw.lock_of(registry).pack if one.id == "tiny")
        assert (locked.version, locked.origin) == ("1.2.0", "pack")
    assert bw.Registry.from_folders(GOOD_PACK).bar("bar/one").pack_version == ""


def test_a_demo_pack_has_the_version_of_its_distribution() -> None:
    installed = {info.id: info for info in bw.Registry.discover().packs}
    for info in bw.Registry.demo().packs:
        assert info.header.version == info.version == installed[info.id].distribution_version
