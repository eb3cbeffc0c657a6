"""Check the built site: python .ci/site.py build/docs [--thoroughly].

Without a browser: every link and anchor leads somewhere, no page loads anything from another
host, every picture has a text. In a browser, where one is there: no message in the console, no
page wider than a phone or a small desk, and what axe finds against WCAG 2 at level AA (contrast
among it), in light and dark. Axe looks at pages that have every kind of content; --thoroughly, at
all.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote

WIDTHS = (360, 1280)
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
OF_EVERY_KIND = (
    "index.html",
    "five-minutes.html",
    "gallery.html",
    "glossary.html",
    "conventions.html",
    "kernels/torsion.html",
    "api/errors.html",
    "search.html",
)
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


def faults_in_browser(
    browser: Any,  # noqa: ANN401 - of playwright
    pages: list[Path],
    *,
    axe: str,
    looked_at: set[Path],
) -> Iterator[str]:
    """Find what is wrong when a page is shown."""
    for scheme in ("light", "dark"):
        tab = browser.new_context(color_scheme=scheme).new_page()
        said: list[str] = []
        tab.on("console", lambda message, said=said: said.append(message.text))
        tab.on("pageerror", lambda error, said=said: said.append(str(error)))
        for file in pages if scheme == "light" else sorted(looked_at):
            said.clear()
            tab.goto(file.as_uri())
            yield from (f"{file}, {scheme}: {fault}" for fault in _too_wide(tab))
            yield from (f"{file}, {scheme}: the console says {text}" for text in said)
            if file in looked_at:
                tab.evaluate(axe)
                yield from (f"{file}, {scheme}: {fault}" for fault in _inaccessible(tab))
        tab.context.close()


def _too_wide(tab: Any) -> Iterator[str]:  # noqa: ANN401 - of playwright
    for width in WIDTHS:
        tab.set_viewport_size({"width": width, "height": 900})
        beyond = tab.evaluate("document.documentElement.scrollWidth - innerWidth")
        if beyond > 0:
            yield f"{beyond} px wider than {width} px"


def _inaccessible(tab: Any) -> list[str]:  # noqa: ANN401 - of playwright
    found: list[str] = tab.evaluate(
        """() => axe.run(document, {preload: false, runOnly: ["wcag2a", "wcag2aa"]}).then(
            found => found.violations.flatMap(rule => rule.nodes.slice(0, 3).map(
                node => `${rule.id}: ${node.target[0]}: ${node.any[0]?.message ?? rule.help}`)))"""
    )
    return found


def shown(pages: list[Path], looked_at: set[Path]) -> list[str] | None:
    """List the faults seen in a browser, or None without one."""
    import axe_playwright_python  # noqa: PLC0415 - the check of files needs neither
    from playwright.sync_api import Error, sync_playwright  # noqa: PLC0415

    axe = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
    path = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    with sync_playwright() as engine:
        try:
            # A container has no sandbox of its own, and these pages are ours.
            browser = engine.chromium.launch(executable_path=path, args=["--no-sandbox"])
        except Error:
            return None
        return list(faults_in_browser(browser, pages, axe=axe, looked_at=looked_at))


def main(arguments: list[str]) -> int:
    """Print every fault, and how much was looked at."""
    site = Path(arguments[0]).resolve()
    pages = read(site)
    kinds = {site / name for name in OF_EVERY_KIND}
    missing = [f"{file}: not built" for file in sorted(kinds - set(pages))]
    faults = missing + list(faults_of_pages(pages))
    seen = shown(list(pages), set(pages) if "--thoroughly" in arguments else kinds & set(pages))
    for fault in (*faults, *(seen or ())):
        print(fault)
    links = sum(len(page.links) for page in pages.values())
    print(f"site: {len(pages)} pages, {links} links, {len(faults)} faults")
    if seen is None:
        print("NOT LOOKED AT IN A BROWSER: none is here. To have one: apt-get install chromium")
    else:
        print(f"in a browser: {len(seen)} faults")
    return 1 if faults or seen else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
