"""Check the built site: python .ci/site_check.py build/docs [--thoroughly].

Without a browser: every link and anchor leads somewhere, no page loads anything from another
host, every picture has a text. What is seen in a browser, where one is there, says
`site_shown.py`. --thoroughly gives every page to the slowest check.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

_LOADED = {"img": "src", "script": "src", "link": "href", "source": "src", "iframe": "src"}


class Page(HTMLParser):
    """What a page refers to, and what of it can be referred to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.anchors: set[str] = set()
        self.links: list[str] = []
        self.loaded: list[str] = []
        self.without_text: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note one element."""
        given = {name: value or "" for name, value in attrs}
        self.anchors |= {given[name] for name in ("id", "name") if name in given}
        if tag == "a" and "href" in given:
            self.links.append(given["href"])
        if given.get(_LOADED.get(tag, "")):
            self.loaded.append(given[_LOADED[tag]])
        if tag == "img" and not given.get("alt", "").strip():
            self.without_text.append(given.get("src", ""))


def read(site: Path) -> dict[Path, Page]:
    """Parse every page of the site."""
    files = (file for file in site.rglob("*.html") if "_static" not in file.parts)
    return {file: Page(file.read_text(encoding="utf-8")) for file in sorted(files)}


def faults_of_pages(pages: dict[Path, Page]) -> Iterator[str]:
    """Find what is wrong in the files."""
    for file, page in pages.items():
        for target in (*page.links, *page.loaded):
            if "://" not in target and not target.startswith(("mailto:", "data:")):
                yield from _faults_of_link(file, target, pages)
        yield from (f"{file}: loads {one}" for one in page.loaded if one.startswith(("http", "//")))
        yield from (f"{file}: a picture without a text: {one}" for one in page.without_text)


def _faults_of_link(file: Path, target: str, pages: dict[Path, Page]) -> Iterator[str]:
    name, _, anchor = unquote(target).partition("#")
    aim = (file.parent / name.partition("?")[0]).resolve() if name else file
    if not aim.exists():
        yield f"{file}: leads nowhere: {target}"
    elif anchor and aim in pages and anchor not in pages[aim].anchors:
        yield f"{file}: no such place: {target}"


def main(arguments: list[str]) -> int:
    """Print every fault, and how much was looked at."""
    import site_shown  # noqa: PLC0415 - beside this file; the check of files needs none of it

    site = Path(arguments[0]).resolve()
    pages = read(site)
    faults = list(faults_of_pages(pages))
    links = {str(file.relative_to(site)): page.links for file, page in pages.items()}
    seen = site_shown.faults(site, links, thoroughly="--thoroughly" in arguments)
    for fault in (*faults, *(seen or ())):
        print(fault)
    print(f"site: {len(pages)} pages, {sum(map(len, links.values()))} links, {len(faults)} faults")
    if seen is None:
        print("NOT LOOKED AT IN A BROWSER: none is here. To have one: apt-get install chromium")
    else:
        print(f"in a browser: {len(seen)} faults")
    return 1 if faults or seen else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
