"""Place of a record or field in a pack."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

__all__ = ["PackPlace", "holders", "short"]


@attrs.frozen
class PackPlace:
    """Where something stands.

    Parameters
    ----------
    of : str
        As a waiver names it.
    file : str
        Name of the file within the pack's folder.
    key : str
        Path of the key in that file.
    side : str
        ``.right`` for figures of the right corners of a vehicle whose sides differ.
    """

    of: str
    file: str
    key: str
    side: str = ""

    def within(self, path: str) -> PackPlace:
        """Return the place of a field in what stands here."""
        within = f".{path}{self.side}"
        return PackPlace(f"{self.of}{within}", self.file, f"{self.key}{within}")


def holders(name: str) -> Iterator[str]:
    """List the names of all that something lies in, its own first.

    Parameters
    ----------
    name : str
        As a waiver names it.

    Yields
    ------
    str

    Examples
    --------
    >>> list(holders("chassis/one.axles[0].left"))
    ['chassis/one.axles[0].left', 'chassis/one.axles[0]', 'chassis/one.axles', 'chassis/one']
    """
    yield name
    for end in range(len(name) - 1, 0, -1):
        if name[end] in ".[":
            yield name[:end]


def short(full_id: str) -> str:
    """Return an id without its pack."""
    return full_id.rpartition(":")[2]
