"""A step of a bench sheet."""

from __future__ import annotations

import attrs

__all__ = ["NO_WAY", "SheetStep"]


@attrs.frozen(kw_only=True)
class SheetStep:
    """One step.

    Parameters
    ----------
    text : str
        What to do.
    refused : bool
        Whether it is a thing not to do before what it names is done.
    """

    text: str
    refused: bool = False


NO_WAY = SheetStep(
    text="This sheet knows no safe way to take that torque out. Take nothing apart, and have a "
    "workshop that has the means for it draw the bar.",
    refused=True,
)
