"""What a pack says for its own good: figures from outside to check it by, and waivers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import attrs

__all__ = ["PROOFS", "Check", "Waiver"]


@attrs.frozen(kw_only=True)
class Check:
    """A figure that barwright computes of a pack's records, as someone else found it.

    Parameters
    ----------
    computes : str
        Name of the figure.
    of : str
        Id of the chassis, bar or tube for which it is computed; with its pack, of another one.
    corner : str
        Corner of the chassis, such as "front left".
    bar : str
        Id of a bar to use instead of the standard one.
    is_ : str
        The figure found elsewhere, with its unit and, if known, its tolerance.
    source : str
        Id of the source of that figure.
    at : str
        Place in that source.
    """

    computes: str
    of: str
    corner: str = ""
    bar: str = ""
    is_: str
    source: str
    at: str


@attrs.frozen(kw_only=True)
class Waiver:
    """A finding of a rule that is to stand, with the reason for it.

    Parameters
    ----------
    rule : str
        Name of the rule.
    of : str
        Id of what the finding concerns, with or without a field.
    why : str
        Reason why the finding is right as it is.
    """

    rule: str
    of: str
    why: str


PROOFS: Mapping[str, type[Any]] = {"check": Check, "waiver": Waiver}
"""By the name of their table; they stand beside records, and the loader passes over them."""
