"""The steps of a bench sheet, and how those of two sides become one list."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence

import attrs

from barwright.parts.common.in_short import Summarised

__all__ = [
    "CornerStep",
    "SheetStage",
    "SheetStep",
    "forbidden",
    "only_if",
    "side_by_side",
    "steps_together",
    "together",
]


@attrs.frozen(kw_only=True, repr=False)
class SheetStep(Summarised):
    """One step.

    Parameters
    ----------
    text : str
        What to do.  Work that may not be needed begins with "Only if".
    branch : tuple of str
        What that work is, action by action; empty where the text says it.
    corners : tuple of str
        The corners it concerns; empty where it concerns all.
    refused : bool
        Whether it forbids something.
    """

    text: str
    branch: tuple[str, ...] = ()
    corners: tuple[str, ...] = ()
    refused: bool = False

    @property
    def line(self) -> str:
        """The step with the corners that it concerns."""
        where = f"{' and '.join(self.corners).capitalize()}: " if self.corners else ""
        return f"{'STOP: ' if self.refused else ''}{where}{self.text}"


@attrs.frozen(kw_only=True, repr=False)
class SheetStage(Summarised):
    """Steps that belong together.

    Parameters
    ----------
    title : str
        What they do.
    steps : tuple of SheetStep
        In order.
    """

    title: str
    steps: tuple[SheetStep, ...]


class CornerStep:
    """A step of one corner: words that both sides share, and figures that may differ.

    Parameters
    ----------
    *actions : str
        What to do; what follows the first is the branch of a condition.  A name in braces
        stands for a figure.
    **figures : str
        Figures, titles and senses by their names.
    """

    def __init__(self, *actions: str, **figures: str) -> None:
        self.actions = actions
        self.figures: Mapping[str, str] = figures
        self.refused = False

    @property
    def words(self) -> tuple[tuple[str, ...], bool]:
        """All that is the same for two corners whose step is the same."""
        return self.actions, self.refused


def forbidden(action: str, **figures: str) -> CornerStep:
    """Write a step that says what not to do.

    Parameters
    ----------
    action : str
        What not to do, and why.
    **figures : str
        As for :class:`CornerStep`.

    Returns
    -------
    CornerStep
    """
    step = CornerStep(action, **figures)
    step.refused = True
    return step


def only_if(condition: str, *actions: str, **figures: str) -> CornerStep:
    """Write a step that is taken in one case only.

    Parameters
    ----------
    condition : str
        The case.
    *actions : str
        What is then done; several become a branch.
    **figures : str
        As for :class:`CornerStep`.

    Returns
    -------
    CornerStep
    """
    if len(actions) > 1:
        return CornerStep(f"Only if {condition}:", *actions, **figures)
    return CornerStep(f"Only if {condition}: {actions[0]}", **figures)


def side_by_side(values: Mapping[str, str]) -> str:
    """Say a figure of several corners: once where it is the same.

    Parameters
    ----------
    values : mapping of str to str
        The figure by the name of its corner.

    Returns
    -------
    str

    Examples
    --------
    >>> side_by_side({"front left": "160.1 mm", "front right": "160.7 mm"})
    '160.1 mm (left), 160.7 mm (right)'
    >>> side_by_side({"front left": "5.3 mm", "front right": "5.3 mm"})
    '5.3 mm'
    """
    if len(set(values.values())) == 1:
        return next(iter(values.values()))
    short = len({corner.split()[0] for corner in values}) == 1
    names = (corner.split()[-1] if short else corner for corner in values)
    return ", ".join(
        f"{value} ({name})" for name, value in zip(names, values.values(), strict=True)
    )


def steps_together(corners: Mapping[str, Sequence[CornerStep]]) -> tuple[SheetStep, ...]:
    """Write the steps of an axle's corners as one list.

    A step that both sides share is written once, with the figures that differ side by side.

    Parameters
    ----------
    corners : mapping of str to sequence of CornerStep
        The steps of one or two corners by the corner's name.

    Returns
    -------
    tuple of SheetStep
    """
    if len(corners) == 1:
        ((name, steps),) = corners.items()
        return tuple(together({name: step}) for step in steps)
    return tuple(_merged(*corners.items()))


_Named = tuple[str, Sequence[CornerStep]]


def _merged(first: _Named, second: _Named) -> Iterator[SheetStep]:
    """Write what is the same once, and what is not for its own corner, in the order of both."""
    (left, lefts), (right, rights) = first, second
    words = ([step.words for step in lefts], [step.words for step in rights])
    matcher = difflib.SequenceMatcher(a=words[0], b=words[1], autojunk=False)
    for tag, start, end, other_start, other_end in matcher.get_opcodes():
        mine, other = lefts[start:end], rights[other_start:other_end]
        if tag == "equal":
            for one, two in zip(mine, other, strict=True):
                yield together({left: one, right: two})
            continue
        for name, steps in ((left, mine), (right, other)):
            for step in steps:
                yield attrs.evolve(together({name: step}), corners=(name,))


def together(corners: Mapping[str, CornerStep]) -> SheetStep:
    """Write one step of the corners that share it.

    Parameters
    ----------
    corners : mapping of str to CornerStep
        The step by the name of its corner, in the same words.

    Returns
    -------
    SheetStep
    """
    step = next(iter(corners.values()))
    # The words are constants of this room; what packs and jobs say is in the figures alone.
    figures = {
        name: side_by_side({corner: each.figures[name] for corner, each in corners.items()})
        for name in step.figures
    }
    text, *branch = (action.format_map(figures) for action in step.actions)
    return SheetStep(text=text, branch=tuple(branch), refused=step.refused)
