"""Where something stands in a pack, and what lies in what."""

from __future__ import annotations

import attrs

__all__ = ["Place", "lies_in", "short"]


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


def lies_in(inner: str, outer: str) -> bool:
    """Tell whether a name is that of a thing, or of something in it.

    Parameters
    ----------
    inner, outer : str
        As a waiver names them.

    Returns
    -------
    bool

    Examples
    --------
    >>> lies_in("bar/short.arm_end.teeth", "bar/short")
    True
    """
    return inner == outer or inner.startswith((f"{outer}.", f"{outer}["))


def short(full_id: str) -> str:
    """Return an id without its pack."""
    return full_id.rpartition(":")[2]
