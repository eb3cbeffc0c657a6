"""Where something stands in a pack."""

from __future__ import annotations

import attrs

__all__ = ["Place", "short"]


@attrs.frozen
class Place:
    """Where something stands.

    Parameters
    ----------
    of : str
        As a waiver names it.
    file : str
        Name of the file within the pack's folder.
    key : str
        Path of the key in that file.
    """

    of: str
    file: str
    key: str

    def within(self, path: str) -> Place:
        """Return the place of a field in what stands here."""
        return Place(f"{self.of}.{path}", self.file, f"{self.key}.{path}")


def short(full_id: str) -> str:
    """Return an id without its pack."""
    return full_id.rpartition(":")[2]
