"""Prints the lowest versions that pyproject.toml allows, as constraints for pip.

python .ci/lowest.py [EXTRA...]
"""

from __future__ import annotations

import itertools
import re
import sys
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path

PROJECT = Path(__file__).parents[1] / "pyproject.toml"
_LOWEST = re.compile(r"(?P<name>[A-Za-z0-9._-]+)>=(?P<version>[0-9.]+)")


def lowest(extras: Sequence[str]) -> Iterator[str]:
    """Pin each requirement of the library and of some extras to its lowest version."""
    project = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]
    chosen = [project["dependencies"], *(project["optional-dependencies"][e] for e in extras)]
    for requirement in sorted(itertools.chain.from_iterable(chosen)):
        found = _LOWEST.fullmatch(requirement)
        if found is None:
            sys.exit(f"{requirement!r} has no lower bound of the form name>=version")
        yield f"{found['name']}=={found['version']}"


if __name__ == "__main__":
    print(*lowest(sys.argv[1:]), sep="\n")
