"""A new pack of every choice works where nothing but the library is installed."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from barwright.registry.authoring.scaffold import ANCHORAGES, SUSPENSIONS
from pack_reader import Reader, reader_in

# Each suspension and each anchorage once; the tests of the scaffold lint every pair.
CHOICES = list(itertools.product(SUSPENSIONS, ANCHORAGES))[::4]


@pytest.fixture(scope="module")
def author(tmp_path_factory: pytest.TempPathFactory) -> Reader:
    """Someone with a new environment and an empty folder."""
    return reader_in(tmp_path_factory.mktemp("author"))


@pytest.mark.slow
@pytest.mark.parametrize("option", ["", " --unknown"])
def test_a_new_pack_of_each_choice_is_installed_linted_and_tested(
    author: Reader, option: str
) -> None:
    names = {
        f"{suspension}-{anchorage}{option[3:]}": (suspension, anchorage)
        for suspension, anchorage in CHOICES
    }
    author.run(
        "\n".join(
            f"barwright new-pack {name} --id {name} --suspension {suspension} "
            f"--anchorage {anchorage}{option}"
            for name, (suspension, anchorage) in names.items()
        )
    )
    author.run("pip install " + " ".join(f"./{name}" for name in names))
    author.run("barwright vehicles")
    assert all(f"{name}:chassis/one" in author.printed for name in names)
    first, *others = names
    # What the workflow and the README of a new pack do in its folder.
    author.run(f"cd {first} && barwright lint src && pytest -q")
    assert " passed" in author.printed
    author.run("barwright lint " + " ".join(f"{name}/src" for name in others))
    author.run("pytest -q --import-mode=importlib " + " ".join(others))
    assert " passed" in author.printed
    for name in names:
        author.run(f"barwright reindex {name}/jobs/lower.toml || true")
        assert ("needed for a plan" in author.printed) == bool(option)


@pytest.mark.slow
def test_the_tests_of_an_installed_pack_see_a_change_that_is_not_installed(
    author: Reader,
) -> None:
    author.run("barwright new-pack tree --id tree && pip install ./tree")
    parts: Path = author.folder / "tree/src/barwright_pack_tree/parts.toml"
    parts.write_text(parts.read_text("utf-8").replace("teeth = 39", "teeth = 0"), "utf-8")

    author.run("pytest -q tree || echo failed with $?")
    assert "failed with 1" in author.printed
    assert "a whole number above zero" in author.printed
