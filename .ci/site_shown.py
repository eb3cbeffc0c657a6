"""What is seen of the built site in a browser.

No message in the console, no page wider than a phone or a small desk, nothing that axe finds
against WCAG 2 at level AA (contrast among it), in light and dark. Axe looks at pages that have
every kind of content. What a stranger searches for is found in two clicks (`searches.toml`).
"""

from __future__ import annotations

import functools
import shutil
import threading
import tomllib
from collections.abc import Iterator, Mapping
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import quote

WIDTHS = (360, 1280)
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
OF_EVERY_KIND = {
    "index.html",
    "five-minutes.html",
    "gallery.html",
    "glossary.html",
    "conventions.html",
    "kernels/torsion.html",
    "api/errors.html",
    "search.html",
}
_AXE = """() => axe.run(document, {preload: false, runOnly: ["wcag2a", "wcag2aa"]}).then(
    found => found.violations.flatMap(rule => rule.nodes.slice(0, 3).map(
        node => `${rule.id}: ${node.target[0]}: ${node.any[0]?.message ?? rule.help}`)))"""
_ENDED = (
    "!/Searching/.test(document.querySelector('#search-results h2')?.textContent ?? 'Searching')"
)
_FOUND = """() => [...document.querySelectorAll("#search-results ul.search li a:first-child")].map(
    link => link.getAttribute("href").split(/[?#]/)[0])"""
# Each page that is found would be loaded for a line of its text.
_WITHOUT_SUMMARIES = "window.fetch = () => new Promise(() => {})"
_SEEN_AT_ONCE = 5
_OPENED = 3


class _Quiet(SimpleHTTPRequestHandler):
    """Serves files and prints nothing."""

    def log_message(self, *_: object) -> None:
        """Keep the output to the faults."""


class _Server(ThreadingHTTPServer):
    """Takes it as it is if a page is left before all of it has come."""

    def handle_error(self, *_: object) -> None:
        """Keep the output to the faults."""


def faults(
    site: Path, links: Mapping[str, list[str]], *, thoroughly: bool = False
) -> list[str] | None:
    """List the faults that are seen, or nothing at all without a browser."""
    from playwright.sync_api import Error, sync_playwright  # noqa: PLC0415 - files need none of it

    path = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    server = _Server(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    at = f"http://127.0.0.1:{server.server_port}"
    try:
        with sync_playwright() as engine:
            try:
                # A container has no sandbox of its own, and these pages are ours.
                browser = engine.chromium.launch(executable_path=path, args=["--no-sandbox"])
            except Error:
                return None
            examined = set(links) if thoroughly else OF_EVERY_KIND
            return [
                *_of_pages(browser, at, sorted(links), examined),
                *_of_searches(browser.new_page(), at, links),
            ]
    finally:
        server.shutdown()


def _of_pages(browser: Any, at: str, pages: list[str], examined: set[str]) -> Iterator[str]:  # noqa: ANN401 - of playwright
    import axe_playwright_python  # noqa: PLC0415

    axe = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
    for scheme in ("light", "dark"):
        tab = browser.new_context(color_scheme=scheme).new_page()
        said: list[str] = []
        tab.on("console", lambda message, said=said: said.append(message.text))
        tab.on("pageerror", lambda error, said=said: said.append(str(error)))
        for page in pages if scheme == "light" else sorted(examined):
            said.clear()
            tab.goto(f"{at}/{page}")
            found = [*_too_wide(tab), *(f"the console says {text}" for text in said)]
            if page in examined:
                tab.evaluate(axe)
                found += tab.evaluate(_AXE)
            yield from (f"{page}, {scheme}: {fault}" for fault in found)
        tab.context.close()


def _too_wide(tab: Any) -> Iterator[str]:  # noqa: ANN401 - of playwright
    for width in WIDTHS:
        tab.set_viewport_size({"width": width, "height": 900})
        beyond = tab.evaluate("document.documentElement.scrollWidth - innerWidth")
        if beyond > 0:
            yield f"{beyond} px wider than {width} px"


def _of_searches(tab: Any, at: str, links: Mapping[str, list[str]]) -> Iterator[str]:  # noqa: ANN401 - of playwright
    tab.add_init_script(_WITHOUT_SUMMARIES)
    searches = tomllib.loads(Path(__file__).with_name("searches.toml").read_text(encoding="utf-8"))
    for words, page in (search for part in searches.values() for search in part.items()):
        tab.goto(f"{at}/search.html?q={quote(words)}")
        tab.wait_for_function(_ENDED)
        found = tab.evaluate(_FOUND)[:_SEEN_AT_ONCE]
        if page not in found and not any(_leads(links, by, page) for by in found[:_OPENED]):
            yield f"search for {words!r}: {page} is more than two clicks away; found {found}"


def _leads(links: Mapping[str, list[str]], by: str, page: str) -> bool:
    """Whether the text of a page links to another one, as the sidebar of every page does."""
    to = [link for link in links.get(by, ()) if link.partition("#")[0] == page]
    return len(to) > links["search.html"].count(page)
