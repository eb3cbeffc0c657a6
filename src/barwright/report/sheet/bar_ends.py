"""What is to be done at one end of a bar, in a step."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.reindex.plan import BlankTooth, EndAction, EndWork
from barwright.parts.chassis import BarEndName
from barwright.report.sheet.step import CornerStep, only_if
from barwright.units import shown

__all__ = ["end_steps", "on_key", "viewer"]

_ARM_LINE = "the arm's centreline"
_TOOTH = "tooth {tooth} {sense} from the maker's blank, {viewer}"


def viewer(work: EndWork) -> str:
    """Say where to look from."""
    other = BarEndName.ANCHOR if work.seen_from is BarEndName.ARM else BarEndName.ARM
    return f"seen from the {work.seen_from.value} toward the {other.value}"


def end_steps(
    work: EndWork, *, anchor_line: str = "the lever's centreline"
) -> Iterator[CornerStep]:
    """Say what to do at one end of the bar.

    Parameters
    ----------
    work : EndWork
        What the plan asks for there.
    anchor_line : str
        Line that the key angle of the anchor's socket is counted from.

    Yields
    ------
    CornerStep
    """
    figures = {
        "end": work.end.value.capitalize(),
        "tooth": str(work.tooth),
        "sense": work.direction.value if work.direction else "",
        "viewer": viewer(work),
    }
    if work.action is EndAction.STAYS:
        yield CornerStep(
            "{end}: nothing to cut; it goes back with {on_key}.",
            end=figures["end"],
            on_key=on_key(work),
        )
    elif work.action is EndAction.REMOVE_TOOTH:
        yield from _removal(work, figures)
    elif work.action is EndAction.NO_KEY:
        yield _without_key(work, figures, anchor_line)
    elif work.on_key is BlankTooth.MAKERS:
        yield CornerStep(
            "{end}: nothing to cut; the maker's blank goes on the key.", end=figures["end"]
        )
    else:
        yield CornerStep(
            f"{{end}}: nothing to cut; the blank cut earlier goes on the key: {_TOOTH}.",
            **figures,
        )


def _removal(work: EndWork, figures: dict[str, str]) -> Iterator[CornerStep]:
    """Say which tooth comes off, how, and how it may be spared.  Common practice, no source."""
    yield CornerStep(f"{{end}}: remove {_TOOTH}.", **figures)
    if work.key_may_be_cleared:
        yield only_if(
            "you spare the tooth",
            "take the key out of the socket, and mark that tooth: it goes where the key was.",
        )


def _without_key(work: EndWork, figures: dict[str, str], anchor_line: str) -> CornerStep:
    figures["place"] = (
        f"{shown(work.key_angle, 1)} {work.key_direction.value} from "
        f"{_ARM_LINE if work.end is BarEndName.ARM else anchor_line}"
    )
    no_key = "{end}: nothing to cut; the socket has no key."
    if work.direction:
        return CornerStep(f"{no_key} Mark {_TOOTH}: it goes {{place}}.", **figures)
    return CornerStep(f"{no_key} The maker's blank goes {{place}}, {{viewer}}.", **figures)


def on_key(work: EndWork) -> str:
    """Say what lies on the key."""
    if work.on_key is not BlankTooth.NONE:
        return f"{work.on_key.value} on the key"
    if work.action is EndAction.STAYS:
        sense = f" {work.direction.value}" if work.direction else ""
        return f"tooth {work.tooth}{sense} where it was" if work.tooth else "its blank where it was"
    return "no key: placed by its angle"
