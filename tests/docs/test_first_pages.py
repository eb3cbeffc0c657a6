"""The pages that a newcomer meets first: what they show is real, and every word leads on."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli import command as command_module
from barwright.registry.authoring.job_schema import job_schema
from barwright.registry.authoring.schema import pack_schema
from doc_pages import ROOT, fenced, read, scripts, shell, shown_as
from site_build import command_list, key_lists, question_list

PATHS = ("at-the-bench.md", "in-a-program.md", "your-own-data.md")


@pytest.mark.slow
@pytest.mark.parametrize("page", ["five-minutes.md", "your-own-data.md"])
def test_each_script_prints_what_the_page_shows_after_those_before_it(
    page: str, tmp_path: Path
) -> None:
    shown = scripts(page)
    assert shown
    for script, expected in shown:
        done = shell(script, tmp_path)
        assert shown_as(expected).fullmatch(done.stdout), done.stdout
        assert done.returncode == 0


def test_it_is_installed_as_the_readme_says() -> None:
    (script,) = [text for language, text in fenced(read("five-minutes.md")) if language == "bash"]
    # Without the packs and the job that follow there.
    assert script.splitlines()[0] in (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("page", PATHS)
def test_a_path_names_commands_that_exist(page: str) -> None:
    for name in re.findall(r"`barwright ([\w-]+)", read(page)):
        assert name in command_module._ROOM_OF  # noqa: SLF001


def test_the_glossary_is_in_order_and_says_where_each_term_comes_from() -> None:
    entries = re.search(
        r"^```\{glossary\}\n(.*?)^```$", read("glossary.md"), re.MULTILINE | re.DOTALL
    )
    assert entries is not None
    found = re.findall(r"^(\w.*)\n((?:  .*\n)+)", entries[1], re.MULTILINE)
    terms = [term for term, _ in found]
    assert len(terms) >= 40
    assert terms == sorted(terms, key=str.lower)
    assert len(set(terms)) == len(terms)
    for term, meaning in found:
        assert re.search(r"\*[^*]+\.\*$", " ".join(meaning.split())), f"{term}: no source"


def test_the_list_of_commands_has_each_with_its_options() -> None:
    listed = command_list.markdown()
    headings = re.findall(r"^## `barwright ([\w-]+)`$", listed, re.MULTILINE)
    assert sorted(headings) == sorted(command_module._ROOM_OF)  # noqa: SLF001
    assert listed.count("| `--help` |") == len(headings)
    assert "| `--units [metric\\|inch]` |" in listed


def test_the_list_of_functions_has_each_with_its_first_line() -> None:
    listed = question_list.markdown()

    functions = [name for name in bw.__all__ if inspect.isfunction(getattr(bw, name))]
    assert re.findall(r"^\| \{func\}`~barwright\.(\w+)` \| \w", listed, re.MULTILINE) == functions
    assert ":func:" not in listed


@pytest.mark.rare
def test_the_list_of_keys_has_every_key_of_every_table() -> None:
    listed = key_lists.of_packs()
    for name, table in pack_schema()["$defs"].items():
        if f"## `{name}`" in listed:
            section = listed.split(f"## `{name}`\n")[1].split("\n## ")[0]
            for key in table["properties"]:
                assert f"| `{key}`" in section, (name, key)
    for name in ("pack", "bar", "chassis", "socket"):
        assert f"## `{name}`\n" in listed
    assert "| `diameter` | length positive |" in listed
    assert "| `material`, required without `like` | text" in listed
    assert "## `correction`" in key_lists.of_overlays()


@pytest.mark.rare
def test_the_list_of_keys_has_every_key_of_a_job() -> None:
    listed = key_lists.of_jobs()
    for key in job_schema()["properties"]:
        assert f"| `{key}`" in listed, key
    for name in ("job", "wanted", "measured", "weighed-wheel", "axle"):
        assert f"## `{name}`\n" in listed
    for kind in ("tube", "key-lever", "fixed-socket"):
        assert f"## `tube` of kind `{kind}`\n" in listed
    assert "| `corners`, required | list of `front left`," in listed
    assert "| `nut_turns` | number of nut turns or `unknown` |" in listed
    assert "| `scale_reading` | mass positive |" in listed
    assert "| `left` | table of the same keys |" in listed
    assert "of-one-side" not in listed
