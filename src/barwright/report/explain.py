"""What a code or a rule means, as its page has it, and whole pages."""

from __future__ import annotations

import functools
import re
import textwrap
from collections.abc import Mapping

from barwright.errors import CODES, UnknownNameError
from barwright.lint.catalogue import OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.registry.discovery.shipped import carried_page
from barwright.registry.nearest_name import nearest

__all__ = ["PAGES", "code_lines", "explanation"]

_ERROR = r"^## (?P<name>[A-Z]\d{3}) "
_RULE = r"^### `(?P<name>[a-z-]+)`$"
_HEADING = re.compile(r"^##? ", re.MULTILINE)
_IMAGE = re.compile(r"!\[([^\]]*)\]\([^)]*\)")
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")
_BLOCK = re.compile(r"^```\w*\n(.*?)^```$", re.MULTILINE | re.DOTALL)

PAGES = ("job-file", "pack-file", "overlays", "units", "conventions")
"""Pages that can be asked for by their names."""

_RULES = {rule.code: rule for rule in (*RULES, *OVERLAY_RULES, *WAIVER_RULES)}


def code_lines() -> tuple[str, ...]:
    """List everything that can be explained, a line each.

    Returns
    -------
    tuple of str
    """
    rules = (f"{code}  {rule.name}: {rule.wants}" for code, rule in sorted(_RULES.items()))
    pages = (f"{name}  the whole page: {_title(name)}" for name in PAGES)
    return (*(f"{code}  {meaning}" for code, meaning in CODES.items()), *rules, *pages)


def _title(name: str) -> str:
    return carried_page(f"{name}.md").partition("\n")[0].removeprefix("# ")


def explanation(name: str) -> str:
    """Explain a code of an error or of a rule, as its page does.

    Parameters
    ----------
    name : str
        The code, or the name of a rule or of one of :data:`PAGES`; small letters will do.

    Returns
    -------
    str
        Plain text.

    Raises
    ------
    UnknownNameError
        L105.

    Examples
    --------
    >>> print(explanation("Q103").splitlines()[0])
    Q103: a quotation mark instead of a unit of length
    """
    if name in PAGES:
        return _plain(carried_page(f"{name}.md"))
    code = _codes().get(name.lower())
    if code is None:
        raise UnknownNameError(
            "L105",
            value=name,
            expected="the code of an error or a rule, or the name of a rule or a page",
            remedy=f"{nearest(name.lower(), [*_codes(), *PAGES])}; barwright explain lists all",
        )
    if code in _RULES:
        rule = _RULES[code]
        title = f"{code} {rule.name} ({rule.severity.value}): {rule.wants}"
        section = _sections("lint.md", _RULE)[rule.name]
    else:
        title = f"{code}: {CODES[code]}"
        section = _sections("errors.md", _ERROR)[code]
    return f"{title}\n\n{_plain(section)}"


def _codes() -> Mapping[str, str]:
    """Every code by what it may be called, in small letters."""
    own = {code.lower(): code for code in (*CODES, *_RULES)}
    return own | {rule.name: code for code, rule in _RULES.items()}


@functools.cache
def _sections(page: str, heading: str) -> Mapping[str, str]:
    """Text below each heading of a page, up to the next one."""
    _, *pieces = re.compile(heading, re.MULTILINE).split(carried_page(page))
    names, texts = pieces[::2], pieces[1::2]
    return {
        name: _HEADING.split(text.partition("\n")[2])[0]
        for name, text in zip(names, texts, strict=True)
    }


def _plain(section: str) -> str:
    """Turn links into their text, and blocks into indented lines."""
    text = _LINK.sub(r"\1", _IMAGE.sub(r"[\1]", section))
    text = _BLOCK.sub(lambda block: textwrap.indent(block[1].rstrip("\n"), "    "), text)
    return text.strip()
