"""Which figures a finding on a corner rests on, so that they can be measured again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from barwright.analysis.finding import Topic
from barwright.lint.corners.suspects import figure_name
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.units import is_quantity, shown

__all__ = ["compared", "names_with_values"]


def compared(setup: Setup, topic: Topic, end: BarEndName | None = None) -> str:
    """Say which figures to compare.

    Parameters
    ----------
    setup : Setup
        The corner.
    topic : Topic
        What the finding is about.
    end : BarEndName, optional
        End of the bar that it is about.

    Returns
    -------
    str
        Empty where the finding rests on no figures in particular.
    """
    names = {"end": "arm", "other": "anchor"}
    if end is not BarEndName.ARM:
        names = {"end": "anchor", "other": "arm"}
    paths = (path.format_map(names) for path in _FIGURES.get(topic, ()))
    found = ", ".join(names_with_values(setup, paths))
    return f"compare {found}; one of them is wrong or has another datum" if found else ""


def names_with_values(setup: Setup, paths: Iterable[str]) -> Iterator[str]:
    """Name the figures that there are, each with its value.

    Parameters
    ----------
    setup : Setup
        The corner.
    paths : iterable of str
        Fields of the setup that lead to each.

    Yields
    ------
    str
    """
    for path in paths:
        value: object = setup
        for step in path.split("."):
            value = getattr(value, step, None)
        if is_quantity(value):
            yield f"{figure_name(setup, path)} {shown(value)}"
        elif value is not None:
            yield f"{figure_name(setup, path)} {getattr(value, 'value', value)}"


_IN_THE_LINKAGE = (
    "arm.radius",
    *(
        f"axle.suspension.{name}"
        for name in (
            *("top_outboard", "top_up", "offset", "length_below"),
            *("upper_outboard", "upper_up", "upper_radius", "upright"),
            *("mount_outboard", "mount_up", "foot_along", "foot_above"),
        )
    ),
    "axle.measured_angle",
    "axle.droop_stop",
    "axle.bump_stop",
)

_AXIAL = (
    "bar.length",
    "bar.{end}_end.length",
    "anchor.socket_position",
    "axle.tube_position",
    "{end}.socket.length",
)

_THREAD = (
    "adjuster.thread_start",
    "adjuster.thread_end",
    "adjuster.nut_height",
    *(
        f"adjuster.mounting.{name}"
        for name in ("pivot_distance", "line_distance", "foot_position", "end_radius")
    ),
    *(f"anchor.{name}" for name in ("lever_radius", "face_offset", "face_start", "face_end")),
)

_WAY_IN = (
    "bar.{end}_end.major_diameter",
    "{other}.socket.minor_diameter",
    "anchor.bore",
    "bar.diameter",
    "axle.entry",
)

_FIGURES: Mapping[Topic, tuple[str, ...]] = {
    Topic.WAY_IN: _WAY_IN,
    Topic.TOOTH_COUNT: ("bar.{end}_end.teeth", "{end}.socket.teeth"),
    Topic.TOOTH_FORM: ("bar.{end}_end.form", "{end}.socket.form"),
    Topic.TOOTH_DEPTH: (
        "bar.{end}_end.major_diameter",
        "bar.{end}_end.root_diameter",
        "{end}.socket.minor_diameter",
    ),
    Topic.ENGAGEMENT: (*_AXIAL, "{end}.socket.required_engagement"),
    Topic.NO_OVERLAP: ("bar.length", "anchor.socket_position", "axle.tube_position"),
    Topic.STOPS: ("bar.length", "bar.arm_end.nose", "axle.arm_stop", "axle.anchor_stop"),
    Topic.SPACE_BEHIND: (
        *("bar.length", "bar.anchor_end.nose", "axle.space_behind"),
        *("anchor.socket_position", "axle.tube_position"),
    ),
    Topic.LEVER_OFF_BOLT: (
        *("anchor.lever_position", "axle.tube_position", "axle.bolt_position"),
        "axle.lever_allowance",
    ),
    Topic.NEW_CAP_HOLES: (
        *("anchor.cap_position", "axle.tube_position", "axle.cap_holes_position"),
        "axle.cap_allowance",
    ),
    Topic.WRONG_SIDE: ("bar.made_for", "bar.blank_angle", "arm.made_for", "anchor.made_for"),
    Topic.TRAVEL: ("damper.open_length", "damper.closed_length", *_IN_THE_LINKAGE),
    Topic.THREAD: _THREAD,
}
