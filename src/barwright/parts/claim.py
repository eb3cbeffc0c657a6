"""What the maker of a part says it fits."""

from __future__ import annotations

import enum

import attrs

from barwright.parts.bar import Side
from barwright.parts.chassis import AxlePlace
from barwright.parts.common.in_short import Summarised

__all__ = ["Claim", "Claimed"]


class Claimed(enum.Enum):
    """What is said of a part on a vehicle."""

    FITS = "fits"
    FITS_WITH_CHANGES = "fits with changes"


@attrs.frozen(kw_only=True, repr=False)
class Claim(Summarised):
    """What a pack says its parts fit, vehicles of other packs too.

    Parameters
    ----------
    pack : str
        Id of the pack that says it.
    parts : tuple of str
        Full ids of its parts.  Those of one kind are alternatives; those of different kinds
        go on together.
    on : tuple of str
        Full ids of the chassis, whether their packs are there or not.
    axle : AxlePlace, optional
        Of those chassis; each axle with torsion bars if left out.
    side : Side, optional
        Both if left out.
    claimed : Claimed
        What it says of them.
    source : str
        Full id of the source; empty if none is named.
    at : str
        Place in that source.
    file : str
        Name of the file within the pack's folder.
    key : str
        Place in that file, such as ``fits[3]``.
    """

    pack: str
    parts: tuple[str, ...]
    on: tuple[str, ...]
    axle: AxlePlace | None
    side: Side | None
    claimed: Claimed
    source: str
    at: str
    file: str
    key: str

    def _in_short(self) -> str:
        """Show what it says of which parts."""
        return f"{', '.join(self.parts)}: {self.claimed.value} {', '.join(self.on)}"
