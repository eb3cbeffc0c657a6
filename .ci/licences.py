"""Prints the licence of each component of a bill of materials; ends with those that are in doubt.

python .ci/licences.py BILL
"""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any

# Those under which a shop may sell what it builds on the library; MPL asks only that changes
# to the component itself are published.
_ALLOWED = re.compile(
    r"(0BSD|Apache|BSD|CC0|ISC|MIT|MPL|PSF|Python Software Foundation|Zlib)\b", re.IGNORECASE
)


def main(bill: Path) -> None:
    """Print name, version and licences of all components; end with those not allowed."""
    components = json.loads(bill.read_text(encoding="utf-8"))["components"]
    named = {
        f"{found['name']} {found.get('version', '')}": sorted(set(_licences(found)))
        for found in components
    }
    for component, licences in sorted(named.items()):
        print(f"{component}: {'; '.join(licences) or 'none named'}")
    doubtful = [component for component, licences in named.items() if not _allowed(licences)]
    if doubtful:
        sys.exit(f"read the licences of {', '.join(doubtful)}")


def _licences(component: dict[str, Any]) -> list[str]:
    """Licences of a component, by name: as an expression, an identifier or in words."""
    return [
        stated.get("expression") or stated["license"].get("id") or stated["license"]["name"]
        for stated in component.get("licenses", [])
    ]


def _allowed(licences: list[str]) -> bool:
    return any(_ALLOWED.search(licence) for licence in licences)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
