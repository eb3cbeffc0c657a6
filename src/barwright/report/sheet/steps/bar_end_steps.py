"""What is to be done at one end of a bar, in a step."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.reindex.plan.plan import BlankTooth, EndAction, EndWork, ToothDatum
from barwright.parts.chassis import BarEndName
from barwright.report.drawing.bar_end_view import datum_of, viewer
from barwright.report.sheet.steps.step import CornerStep, only_if
from barwright.units import shown

__all__ = ["end_steps", "on_key", "painting"]

_ARM_LINE = "the arm's centreline"


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
    end = work.end.value.capitalize()
    datum = datum_of(work)
    tooth = f"tooth {{tooth}} {{sense}} from {datum}" if work.direction else datum
    tooth += f", {viewer(work)}"
    figures = {
        "tooth": str(work.tooth),
        "sense": work.direction.value if work.direction else "",
    }
    if work.action is EndAction.STAYS:
        yield CornerStep(f"{end}: nothing to remove; it goes back as it was.")
    elif work.action is EndAction.REMOVE_TOOTH:
        yield CornerStep(f"{end}: paint X on {tooth}.", **figures)
        if work.key_may_be_cleared:
            yield _spared()
    elif work.action is EndAction.NO_KEY:
        key = {
            "angle": shown(work.key_angle, 1),
            "turned": work.key_direction.value if work.key_direction else "",
            "line": _ARM_LINE if work.end is BarEndName.ARM else anchor_line,
        }
        place = "goes {angle} {turned} from {line}"
        no_key = f"{end}: nothing to remove; the socket has no key."
        if _is_painted_beside(work):
            yield CornerStep(f"{no_key} Mark {tooth}: it goes to the paint beside it.", **figures)
        elif work.direction:
            yield CornerStep(f"{no_key} Mark {tooth}: it {place}.", **key, **figures)
        else:
            yield CornerStep(f"{no_key} {datum.capitalize()} {place}, {viewer(work)}.", **key)
    elif work.on_key is BlankTooth.MAKERS:
        yield CornerStep(f"{end}: nothing to remove; the maker's blank goes on the key.")
    else:
        yield CornerStep(
            f"{end}: nothing to remove; the blank cut earlier goes on the key: {tooth}.", **figures
        )


def _is_painted_beside(work: EndWork) -> bool:
    """Whether paint on the socket shows where the painted tooth was."""
    return work.tooth_datum is ToothDatum.PRESENT and work.datum_angle is None


def painting(work: EndWork, *, anchor: str, anchor_line: str) -> CornerStep:
    """Say which tooth to paint before the bar comes out, where nothing else shows the count.

    Parameters
    ----------
    work : EndWork
        What the plan asks for there.
    anchor : str
        What holds the anchor end now.
    anchor_line : str
        Line that the key angle of that socket is counted from.

    Returns
    -------
    CornerStep
    """
    is_arm = work.end is BarEndName.ARM
    end = work.end.value.capitalize()
    if work.datum_angle is None:
        return CornerStep(
            f"{end}: it has no blank. Paint one tooth, and the {{part}} beside it.",
            part="arm" if is_arm else anchor,
        )
    return CornerStep(
        f"{end}: it has no blank. Paint the tooth {{angle}} {{turned}} from {{line}}, "
        f"{viewer(work)}.",
        angle=shown(work.datum_angle, 1),
        turned=work.datum_direction.value if work.datum_direction else "",
        line=_ARM_LINE if is_arm else anchor_line,
    )


def _spared() -> CornerStep:
    """Say how the tooth may be left.  Common practice, no source."""
    return only_if(
        "you keep the tooth",
        "remove this socket's key. The tooth goes there.",
    )


def on_key(work: EndWork) -> str:
    """Say what lies on the key."""
    if work.on_key is not BlankTooth.NONE:
        return f"{work.on_key.value} on the key"
    if work.action is EndAction.STAYS:
        sense = f" {work.direction.value}" if work.direction else ""
        if work.tooth:
            return f"tooth {work.tooth}{sense} where it was"
        return f"{_OWN[work.tooth_datum]} where it was"
    if _is_painted_beside(work):
        return "the tooth that you marked beside the paint"
    return "the marked tooth at its angle" if work.tooth else f"{datum_of(work)} at its angle"


_OWN = {
    ToothDatum.BLANK: "its blank",
    ToothDatum.MARK: "its marked tooth",
    ToothDatum.PRESENT: "its painted tooth",
}
