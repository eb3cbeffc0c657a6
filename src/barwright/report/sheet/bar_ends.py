"""What is to be done at one end of a bar, in a sentence."""

from __future__ import annotations

from barwright.analysis.reindex.plan import BlankTooth, EndAction, EndWork
from barwright.parts.chassis import BarEndName
from barwright.units import shown

__all__ = ["marked_out", "on_key", "viewer", "work_text"]


def viewer(work: EndWork) -> str:
    """Say where to look from."""
    other = BarEndName.ANCHOR if work.seen_from is BarEndName.ARM else BarEndName.ARM
    return f"seen from the {work.seen_from.value}, looking toward the {other.value}"


def work_text(work: EndWork, *, anchor_line: str = "the lever's centreline") -> str:
    """Say in a sentence what to do at one end of the bar."""
    name = work.end.value.capitalize()
    sense = f" {work.direction.value}" if work.direction else ""
    tooth = f"tooth {work.tooth}{sense} from the maker's blank, {viewer(work)}"
    if work.action is EndAction.STAYS:
        return f"{name}: nothing to cut; it goes back as it was ({on_key(work)})."
    if work.action is EndAction.REMOVE_TOOTH:
        clear = (
            " Or clear the key in the socket instead, and mark that tooth, which will go where the "
            "key was: the bar then stays whole."
            if work.key_may_be_cleared
            else ""
        )
        return f"{name}: remove {tooth}. This new blank will go on the key.{clear}"
    if work.action is EndAction.NO_KEY:
        what = tooth if work.direction else "the maker's blank"
        line = "the arm's centreline" if work.end is BarEndName.ARM else anchor_line
        return (
            f"{name}: nothing to cut; the socket has no key, and {what} will go where it would be: "
            f"{shown(work.key_angle, 1)} {work.key_direction.value} from {line}."
        )
    if work.on_key is BlankTooth.MAKERS:
        return f"{name}: nothing to cut; the maker's blank will go on the key."
    return f"{name}: nothing to cut; the blank cut earlier will go on the key: {tooth}."


def marked_out(work: EndWork) -> str:
    """Name what goes where the key is, or was before it was cleared."""
    instead = " (or the tooth marked in its stead)" if work.key_may_be_cleared else ""
    return f"{work.on_key.value}{instead}"


def on_key(work: EndWork) -> str:
    """Say what lies on the key."""
    if work.on_key is not BlankTooth.NONE:
        return f"{marked_out(work)} on the key"
    if work.action is EndAction.STAYS:
        sense = f" {work.direction.value}" if work.direction else ""
        return f"no key: tooth {work.tooth}{sense} where it was" if work.tooth else "as it was"
    return "no key; as said above"
