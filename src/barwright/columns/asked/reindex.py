"""How the bars of a column of corners are re-indexed: the preferred plan of each."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.fit.changes import without_blank
from barwright.analysis.reindex.plan.end_work import clocked_ends
from barwright.analysis.reindex.plan.plan import EndAction, Plan
from barwright.analysis.reindex.plan.plan_figures import height_per_angle
from barwright.analysis.reindex.preference import FLATS
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.columns.asked.question import Figures, Found, Question
from barwright.columns.asked.states import STATE, state_figures, state_found
from barwright.columns.column_corner import ColumnCorner, Wished
from barwright.columns.planning.clockings import FixedClockings, ThreadClockings
from barwright.columns.planning.ends import ColumnEnds, ends_of
from barwright.columns.planning.fitting import Fitting
from barwright.columns.planning.groups import groups_of
from barwright.columns.planning.planner import ColumnPlanner
from barwright.columns.verdicts import LONGEST, Verdicts
from barwright.parts.chassis import BarEndName
from barwright.units import ANGLE, HEIGHT_PER_TURN, LENGTH, TURNS, Kind

__all__ = ["REINDEX"]

_WAYS = ("damper_on", "damper_off")

_ANSWER: dict[str, Kind | None] = {
    "wanted_height": LENGTH,
    "reachable_from": LENGTH,
    "reachable_to": LENGTH,
    "free_angle": ANGLE,
    "free_angle_uncertainty": ANGLE,
    "lever_angle_uncertainty": ANGLE,
    "enough_thread_reserve": TURNS,
    "uncut_height": LENGTH,
    "pin_now": LENGTH,
    "plans": None,
}

_SET: dict[str, Kind | None] = {
    "nut_turns": TURNS,
    "pin_distance": LENGTH,
    "turns_left_clockwise": TURNS,
    "turns_left_counter_clockwise": TURNS,
    "thread_reserve": TURNS,
    "height": LENGTH,
    "height_rounding": LENGTH,
    "height_uncertainty": LENGTH,
    "height_per_turn": HEIGHT_PER_TURN,
    "droop_left": LENGTH,
    "bump_left": LENGTH,
}

_TEETH: dict[str, Kind | None] = dict.fromkeys(
    ("arm_tooth", "anchor_tooth", "arm_cuts", "anchor_cuts", "arm_moves", "anchor_moves", "cuts")
)

_RESERVES: dict[str, Kind | None] = {
    f"{way}.{name}": ANGLE
    for way in _WAYS
    for name in ("unloading_reserve", "unloading_reserve_uncertainty")
}

_STATES: dict[str, Kind | None] = {
    f"{place}.{name}": kind for place in ("droop", "bump") for name, kind in STATE.items()
}

_NOW = {f"now.{name}": kind for name, kind in _RESERVES.items()}

_KINDS = _ANSWER | _TEETH | _SET | _RESERVES | _NOW | _STATES


class _Answered:
    """Verdicts and numbers of some rows, which are found part by part."""

    def __init__(self, rows: int) -> None:
        self.verdicts: Verdicts = np.zeros(rows, dtype=LONGEST)
        self.numbers: dict[str, NDArray[np.float64]] = {
            name: np.full(rows, np.nan) for name in _KINDS
        }

    def say(self, verdict: Any, rows: NDArray[np.intp]) -> None:  # noqa: ANN401 - one or a column
        """Set the verdict of some rows."""
        self.verdicts[rows] = verdict.value if isinstance(verdict, Verdict) else verdict

    def put(self, found: Found, rows: NDArray[np.intp], where: Any = True) -> None:  # noqa: ANN401, FBT002
        """Set the numbers of some rows where flags are raised."""
        for name, numbers in found.items():
            self.numbers[name][rows] = np.where(where, numbers, np.nan)


def _of_column(corner: ColumnCorner) -> tuple[Verdicts, Found]:
    rows = np.arange(corner.of_rows.numbers.size)
    answered = _Answered(rows.size)
    low, high = corner.height_span
    wanted = _wanted_height(corner)
    answered.put({"wanted_height": wanted, "reachable_from": low, "reachable_to": high}, rows)
    fits = np.broadcast_to(corner.has_place & ~corner.does_not_fit, rows.shape)
    answered.say(Verdict.DOES_NOT_FIT, rows[~fits])
    if any(without_blank(corner.setup)):
        answered.say(Verdict.CANNOT_BE_ASSEMBLED, rows[fits])
        return answered.verdicts, dict(answered.numbers)
    held = np.broadcast_to(corner.holds_nut, rows.shape)
    for group in groups_of(corner, rows[fits & held]):
        _answer_group(corner, group, answered)
    return answered.verdicts, dict(answered.numbers)


def _wanted_height(corner: ColumnCorner) -> Any:  # noqa: ANN401 - a number or a column
    if corner.heights is not None:
        return corner.heights
    return metres(corner.setup.axle.standard_height)


def _answer_group(corner: ColumnCorner, rows: NDArray[np.intp], answered: _Answered) -> None:
    """Answer of rows whose figures have the same tolerances."""
    part = corner.of_rows.part_at(rows)
    ends = ends_of(part, part.of_rows.setup_at(0), height=_wanted_height(part))
    if not ends.is_whole.all():
        # The others have no corner at some end of a tolerance, and are asked about alone.
        if ends.is_whole.any():
            _answer_group(corner, rows[ends.is_whole], answered)
        return
    now = Fitting(ends, part.clocked_angle)
    found: Found = {f"now.{name}": number for name, number in _reserves(now).items()}
    if part.setup.adjuster is not None:
        found["pin_now"] = part.setting_now
    known = np.broadcast_to(~now.is_unknown, rows.shape)
    answered.put(found, rows, known)
    wished = part.wished(ends.height)
    answered.say(Verdict.OUT_OF_REACH, rows[known & ~wished.in_travel])
    is_plain = known & wished.in_travel & ~wished.is_unbearable
    answered.say(Verdict.OUT_OF_REACH, rows[is_plain & wished.is_slack])
    planned = is_plain & ~wished.is_slack
    if planned.all():
        _plan(ends, wished, rows, answered)
    elif planned.any():
        _answer_group(corner, rows[planned], answered)


def _plan(ends: ColumnEnds, wished: Wished, rows: NDArray[np.intp], answered: _Answered) -> None:
    """Plan for rows that have the height in reach."""
    part = ends.corner
    one = part.of_rows.setup_at(0)
    clockings = (FixedClockings if one.adjuster is None else ThreadClockings)(
        ends=ends,
        clocked_ends=clocked_ends(Corner(one), present=one),
        free=wished.free,
        height_per_angle=height_per_angle(part, part.spring, part.linkage.motion(wished.angle)),
    )
    planner = ColumnPlanner(
        wished=wished,
        clockings=clockings,
        can_be_unloaded=Fitting(ends, part.clocked_angle).can_be_unloaded(),
    )
    is_known = ~planner.is_unknown
    answered.say(np.where(is_known, planner.verdicts(), ""), rows)
    found: Found = {
        "free_angle": wished.free,
        "free_angle_uncertainty": ends.free_angle.by,
        "lever_angle_uncertainty": ends.lever_angle.by,
        "uncut_height": planner.uncut_height,
        "plans": planner.count,
    }
    if isinstance(clockings, ThreadClockings):
        found["enough_thread_reserve"] = clockings.enough / FLATS
    answered.put(found, rows, is_known)
    answered.put(_plan_found(planner, ends), rows, is_known & (planner.count > 0))


def _plan_found(planner: ColumnPlanner, ends: ColumnEnds) -> Found:
    """Figures of the preferred plans."""
    plan, clockings, corner = planner.preferred, planner.clockings, planner.corner
    candidates = plan.candidates
    wanted_height = corner.height(planner.wished.angle)
    found: Found = clockings.set_figures(candidates, wanted_height=wanted_height)
    droop, bump = (state_found(corner, state) for state in (plan.states.droop, plan.states.bump))
    found |= {
        "arm_tooth": candidates.arm_tooth,
        "anchor_tooth": candidates.anchor_tooth,
        "arm_cuts": candidates.arm_is_cut,
        "anchor_cuts": candidates.anchor_is_cut,
        "arm_moves": candidates.arm_moves,
        "anchor_moves": candidates.anchor_moves,
        "cuts": candidates.cuts,
        "height_uncertainty": ends.at_rest(
            turns=clockings.turns(candidates), clocked=clockings.clocked(candidates)
        ).by,
        "droop_left": droop["height"] - found["height"],
        "bump_left": found["height"] - bump["height"],
        **_reserves(plan.fitting),
        **{f"droop.{name}": number for name, number in droop.items()},
        **{f"bump.{name}": number for name, number in bump.items()},
    }
    return {name: _only_row(number) for name, number in found.items()}


def _only_row(numbers: Any) -> Any:  # noqa: ANN401 - a table of one row, or a column
    """Return the row of a table that has but one."""
    return numbers[0] if np.ndim(numbers) > 1 else numbers


def _reserves(fitting: Fitting) -> Found:
    ways = {"damper_on": fitting.damper_on, "damper_off": fitting.damper_off}
    return {
        f"{name}.{figure}": number
        for name, way in ways.items()
        for figure, number in (
            ("unloading_reserve", way.reserve),
            ("unloading_reserve_uncertainty", way.open_by.by),
        )
    }


# -- Of one corner -----------------------------------------------------------------------


def _figures(answer: Reindex) -> Figures:
    return {
        **{name: getattr(answer, name) for name in _ANSWER if name != "plans"},
        "plans": len(answer.plans) if answer.free_angle is not None else None,
        **(_reserve_figures("now.", answer.removal) if answer.removal else {}),
        **(_plan_figures(answer.preferred) if answer.plans else {}),
    }


def _plan_figures(plan: Plan) -> Figures:
    work = dict(zip(("arm", "anchor"), plan.ends, strict=True))
    moves = {"arm": BarEndName.ARM, "anchor": BarEndName.ANCHOR}
    return {
        **{name: getattr(plan, name) for name in ("arm_tooth", "anchor_tooth", "cuts", *_SET)},
        **{f"{e}_cuts": float(w.action is EndAction.REMOVE_TOOTH) for e, w in work.items()},
        **{f"{end}_moves": float(name in plan.disturbed) for end, name in moves.items()},
        **_reserve_figures("", plan.fitting),
        **{f"droop.{name}": figure for name, figure in state_figures(plan.droop).items()},
        **{f"bump.{name}": figure for name, figure in state_figures(plan.bump).items()},
    }


def _reserve_figures(prefix: str, ways: tuple[Assembly, ...]) -> Figures:
    names = ("unloading_reserve", "unloading_reserve_uncertainty")
    return {
        f"{prefix}{name}.{figure}": getattr(way, figure)
        for name, way in zip(_WAYS, ways, strict=True)
        for figure in names
    }


REINDEX = Question(
    kinds=_KINDS,
    of_column=_of_column,
    of_row=lambda setup, wanted: reindex(setup, wanted=wanted),
    figures=_figures,
    takes_height=True,
    at_a_time=4096,
)
"""Question of :func:`barwright.reindex`."""
