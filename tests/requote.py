"""Write anew what the pages quote of the program: ``python tests/requote.py [PAGE ...]``.

Without a page, all are looked at, and the pages and drawings that are made whole are made again.
The words around a quotation are left alone, and so is a quotation that nothing printed is like:
the tests of the pages say which.
"""

from __future__ import annotations

import re
import runpy
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from pathlib import Path

import pytest

import barwright as bw
import standards_page
import validation
from barwright.lint.catalogue import OVERLAY_RULES
from barwright.report.forms.notices import notices
from doc_pages import DOCS, ROOT, output, shell
from error_messages import BY_HAND, NAME, reported_lines
from flawed_packs import POOR_PACK
from pack_reader import reader_in, steps
from page_quotes import excerpts_anew, nearest, shown_anew
from sample_overlays import POOR_OVERLAY

__all__ = ["main"]

_BLOCK = re.compile(r"(?<=^```)(\w+)\n(.*?)(?=^```$)", re.MULTILINE | re.DOTALL)


def main(names: Sequence[str]) -> None:
    """Write the pages of these names, or all."""
    for name in names or PAGES:
        path = DOCS / name
        old = path.read_text(encoding="utf-8")
        new = PAGES[name](old)
        path.write_text(new, encoding="utf-8", newline="\n")
        sys.stdout.write(f"{name}: {'as before' if new == old else 'quoted anew'}\n")
    if not names:
        for script in ("figures.py", "kernel_figures.py"):
            sys.path.insert(0, str(DOCS))
            runpy.run_path(str(DOCS / script))["main"]([])


# -- Pages that show output below the script that prints it ----------------------------


def _excerpts(page: str, *, joined_up_to: Callable[[list[str]], int] = lambda _: 0) -> str:
    """Excerpts of commands that are run at the root of the repository."""
    blocks = list(_BLOCK.finditer(page))
    anew = [block[2] for block in blocks]
    for number, block in enumerate(blocks):
        if block[1] == "sh":
            below = list(_texts_below(blocks, number))
            if not below:
                continue
            old = [blocks[place][2].splitlines() for place in below]
            printed = output(block[2].strip())
            new = excerpts_anew(old, printed, joined_up_to=joined_up_to(printed))
            for place, lines in zip(below, new, strict=True):
                anew[place] = "".join(f"{line}\n" for line in lines)
    return _with_blocks(page, blocks, anew)


def _texts_below(blocks: Sequence[re.Match[str]], number: int) -> Iterator[int]:
    """Places of the texts between a script and the next one."""
    for place in range(number + 1, len(blocks)):
        if blocks[place][1] == "sh":
            return
        if blocks[place][1] == "text":
            yield place


def _line_by_line(page: str) -> str:
    """Excerpts that leave out no line before a third plan."""
    return _excerpts(page, joined_up_to=_place_of_the_third_plan)


def _place_of_the_third_plan(printed: list[str]) -> int:
    return printed.index("Plan 3") if "Plan 3" in printed else len(printed)


def _scripts(page: str) -> str:
    """Outputs of scripts, each in a folder of its own."""

    def printed(script: str) -> str:
        with tempfile.TemporaryDirectory() as folder:
            shutil.copytree(ROOT / "docs/examples", Path(folder, "docs/examples"))
            return shell(script, _folder(folder, "twenty", "packs")).stdout

    return _shown(page, printed)


def _overlays(page: str) -> str:
    """Outputs of scripts that go on in one folder."""
    with tempfile.TemporaryDirectory() as name:
        folder = _folder(name, "twenty")
        shutil.copytree(
            ROOT / "plugins/barwright-pack-fells", folder / "plugins/barwright-pack-fells"
        )
        return _shown(page, lambda script: shell(script, folder).stdout)


def _in_one_folder(page: str) -> str:
    """Outputs of scripts that go on in one folder, which is empty at first."""
    with tempfile.TemporaryDirectory() as name:
        return _shown(page, lambda script: shell(script, Path(name)).stdout)


def _folder(name: str, *specimens: str) -> Path:
    """A folder with some specimens where the pages have them."""
    for specimen in specimens:
        place = Path("tests/specimens") / specimen
        shutil.copytree(ROOT / place, Path(name) / place)
    return Path(name)


def _shown(page: str, printed: Callable[[str], str]) -> str:
    blocks = list(_BLOCK.finditer(page))
    anew, last = [], ""
    for block in blocks:
        if block[1] == "sh":
            last = printed(block[2])
        shown = block[1] == "text"
        anew.append(shown_anew(block[2], last.splitlines()) if shown else block[2])
    return _with_blocks(page, blocks, anew)


def _pack(page: str) -> str:
    """Outputs of the page on writing a pack, whose files are written on the way."""
    blocks, anew = list(_BLOCK.finditer(page)), []
    with tempfile.TemporaryDirectory() as folder:
        reader = reader_in(Path(folder))
        for step in steps():
            if step.language == "text":
                anew.append(shown_anew(step.content, reader.printed.splitlines()))
            else:
                reader.follow(step)
                anew.append(step.content)
    return _with_blocks(page, blocks, anew)


def _with_blocks(page: str, blocks: Sequence[re.Match[str]], anew: Sequence[str]) -> str:
    for block, content in reversed(list(zip(blocks, anew, strict=True))):
        page = page[: block.start(2)] + content + page[block.end(2) :]
    return page


# -- Pages that show messages below a heading -----------------------------------------


def _errors(page: str) -> str:
    """Messages of errors, with the names that the page gives to files."""

    def anew(match: re.Match[str]) -> str:
        return match[1] + "".join(f"{_message(line, match[2])}\n" for line in match[3].splitlines())

    return re.sub(
        r"(^## (\w\d{3}) (?:(?!^```).)*?^```text\n)(.*?)(?=^```$)", anew, page, flags=_OVER
    )


_OVER = re.MULTILINE | re.DOTALL


def _message(line: str, code: str) -> str:
    reported = _reported(code)
    if NAME.sub("", line) in {NAME.sub("", one) for one in reported}:
        return line
    said = nearest(line, reported)
    names = NAME.findall(line)
    if len(names) != len(NAME.findall(said)):
        return line
    kept = iter(names)
    return NAME.sub(lambda _: next(kept), said)


@cache
def _reported(code: str) -> list[str]:
    if code in BY_HAND:
        return []
    with tempfile.TemporaryDirectory() as name, pytest.MonkeyPatch.context() as patch:
        return reported_lines(code, Path(name), patch)


def _lint(page: str) -> str:
    """Findings of the rules, in the poor pack and the poor overlay."""

    def anew(match: re.Match[str]) -> str:
        poor = POOR_OVERLAY if match[2] in {rule.name for rule in OVERLAY_RULES} else POOR_PACK
        linted = bw.lint_pack(poor)
        said = [
            notice.line_of_text.removeprefix(f"{poor}/")
            for finding, notice in zip(linted.findings, notices(linted), strict=True)
            if finding.rule == match[2]
        ]
        return match[1] + nearest(match[3], said) + "\n"

    return re.sub(
        r"(^### `([a-z-]+)`\n(?:(?!^```).)*?^```text\n)([^\n]*)\n(?=```$)", anew, page, flags=_OVER
    )


PAGES: dict[str, Callable[[str], str]] = {
    "../README.md": _excerpts,
    "reading-a-plan.md": _line_by_line,
    "other-vehicles.md": _excerpts,
    "which-bar.md": _excerpts,
    "working.md": _excerpts,
    "corner-weights.md": _excerpts,
    "scripts.md": _scripts,
    "overlays.md": _overlays,
    "unknown-vehicle.md": _in_one_folder,
    "five-minutes.md": _in_one_folder,
    "your-own-data.md": _in_one_folder,
    "from-a-sheet.md": _in_one_folder,
    "from-a-table.md": _in_one_folder,
    "write-a-pack.md": _pack,
    "errors.md": _errors,
    "lint.md": _lint,
    "standards.md": lambda _: standards_page.page(),
    "validation.md": lambda _: validation.page(),
}
"""How each page is written anew."""


if __name__ == "__main__":
    main(sys.argv[1:])
