"""Laws and refusals of `barwright.mechanics.common.solve`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import scipy.optimize
from hypothesis import assume, example, given
from hypothesis import strategies as st

from barwright.errors import NotConvergedError
from barwright.mechanics.common import solve
from barwright.mechanics.common.solve import first_root, rising_root

Function = Callable[[Any], tuple[Any, Any]]

BOTH = pytest.mark.parametrize("root", [rising_root, first_root], ids=lambda root: root.__name__)


def _soft_then_stiff(contact: float, soft: float, stiff: float, zero: float) -> Function:
    """A spring that meets a stiff one, zero at a place."""

    def force(x: Any) -> tuple[Any, Any]:
        pressed = np.maximum(x - contact, 0.0)
        return soft * x + stiff * pressed - offset, soft + stiff * (pressed > 0.0)

    offset = soft * zero + stiff * max(zero - contact, 0.0)
    return force


HARD: dict[str, tuple[Function, float]] = {
    "a line": (lambda x: (x - 0.3, 1.0 + 0.0 * x), 0.3),
    "a steep one": (lambda x: (1e9 * (x - 0.3), 1e9 + 0.0 * x), 0.3),
    "a flat one": (lambda x: (1e-9 * (x - 0.3), 1e-9 + 0.0 * x), 0.3),
    "a cube": (lambda x: ((x - 0.3) ** 3, 3.0 * (x - 0.3) ** 2), 0.3),
    "a ninth power": (lambda x: ((x - 0.25) ** 9, 9.0 * (x - 0.25) ** 8), 0.25),
    "a cube root": (
        lambda x: (np.cbrt(x - 0.3), 1.0 / (3.0 * np.maximum(np.abs(x - 0.3), 1e-30) ** (2 / 3))),
        0.3,
    ),
    "an exponential": (
        lambda x: (np.exp(60.0 * x) - math.exp(18.0), 60.0 * np.exp(60.0 * x)),
        0.3,
    ),
    "a saturation": (
        lambda x: (np.arctan(1e5 * (x - 0.3)), 1e5 / (1.0 + (1e5 * (x - 0.3)) ** 2)),
        0.3,
    ),
    "a jump": (lambda x: (np.where(x < 0.3, -1.0, 1.0), 0.0 * x), 0.3),
    "a slope that misleads": (lambda x: (x - 0.3, -1.0 + 0.0 * x), 0.3),
    "a slope without end": (lambda x: (x - 0.3, np.inf + 0.0 * x), 0.3),
    "a slope that is no number": (lambda x: (x - 0.3, np.nan * x), 0.3),
    "a contact before": (_soft_then_stiff(0.2, 1.0, 1e6, 0.3), 0.3),
    "a contact after": (_soft_then_stiff(0.4, 1.0, 1e6, 0.3), 0.3),
    "a contact at it": (_soft_then_stiff(0.3, 1.0, 1e9, 0.3), 0.3),
}


@BOTH
@pytest.mark.parametrize("name", HARD)
@pytest.mark.parametrize(("low", "high"), [(-1.0, 1.0), (0.0, 0.31), (0.299, 7.0), (-50.0, 0.9)])
def test_root_is_found_whatever_the_function(root: Any, name: str, low: float, high: float) -> None:
    function, expected = HARD[name]
    # Flat functions are zero to rounding in a neighbourhood of their root.
    within = {"a cube": 1e-5, "a ninth power": 0.05}.get(name, 2e-15)

    assert root(function, low=low, high=high) == pytest.approx(expected, abs=within)


@given(
    contact=st.floats(-1.0, 1.0),
    soft=st.floats(1e-3, 1e3),
    stiff=st.floats(0.0, 1e9),
    zero=st.floats(-0.9, 0.9),
)
def test_root_at_a_corner_agrees_with_a_bracketing_search(
    contact: float, soft: float, stiff: float, zero: float
) -> None:
    force = _soft_then_stiff(contact, soft, stiff, zero)
    assume(force(-1.0)[0] < 0.0 < force(1.0)[0])
    expected = scipy.optimize.brentq(
        lambda x: float(force(x)[0]), -1.0, 1.0, xtol=1e-15, rtol=1e-14
    )

    # The offset itself is rounded, which the softer spring turns into a place.
    slack = 4e-15 + 4e-16 * stiff / soft
    assert rising_root(force, low=-1.0, high=1.0) == pytest.approx(expected, abs=slack)


@BOTH
def test_interval_ends_where_the_function_does_not_change_its_sign(root: Any) -> None:
    assert root(lambda x: (x - 2.0, 1.0), low=0.0, high=1.0) == 1.0
    assert root(lambda x: (x + 2.0, 1.0), low=0.0, high=1.0) == 0.0
    assert root(lambda x: (x, 1.0), low=0.0, high=1.0) == 0.0
    assert root(lambda x: (x - 1.0, 1.0), low=0.0, high=1.0) == 1.0
    assert root(lambda x: (x - 7.0, 1.0), low=0.5, high=0.5) == 0.5


@BOTH
def test_float_for_floats_and_array_for_arrays(root: Any) -> None:
    targets = np.linspace(-0.5, 1.5, 6).reshape(2, 3)
    found = root(lambda x: (x**3 - targets, 3.0 * x**2), low=0.0, high=np.array([[1.0], [2.0]]))

    assert type(root(lambda x: (x - 0.3, 1.0), low=0.0, high=1.0)) is float
    assert found.shape == (2, 3)
    assert found == pytest.approx(np.clip(np.cbrt(targets), 0.0, [[1.0], [2.0]]), abs=1e-14)


@BOTH
def test_nothing_has_no_root(root: Any) -> None:
    assert root(lambda x: (x, 1.0 + x), low=np.zeros(0), high=np.ones(0)).shape == (0,)


@BOTH
def test_neighbours_do_not_change_an_element(root: Any) -> None:
    def root_of(targets: list[float]) -> list[float]:
        column = np.array(targets)
        zeros = np.zeros(column.size)
        found = root(lambda x: (x**3 - column, 3.0 * x**2), low=zeros, high=zeros + 2.0)
        return list(found)

    assert root_of([0.5, 3.0, -1.0, 7.9, 0.1])[:2] == root_of([0.5, 3.0])
    assert root_of([0.5, 3.0])[0] == root_of([0.5])[0]


@BOTH
def test_limits_are_left_as_they_were(root: Any) -> None:
    low, high = np.array([0.0, -1.0]), np.array([2.0, 3.0])
    root(lambda x: (x - 0.7, 1.0), low=low, high=high)

    assert low.tolist() == [0.0, -1.0]
    assert high.tolist() == [2.0, 3.0]


@BOTH
@pytest.mark.parametrize(
    "lost",
    [
        lambda x: (np.nan * x, 1.0 + 0.0 * x),
        lambda x: (np.where(np.abs(x) < 0.5, np.nan, x), 1.0 + 0.0 * x),
        lambda x: (np.where(x < -0.7, np.nan, x), 1.0 + 0.0 * x),
    ],
    ids=["nowhere a number", "none where the root is", "none at first"],
)
def test_value_that_is_no_number_never_settles(root: Any, lost: Function) -> None:
    with pytest.raises(NotConvergedError) as caught:
        root(lost, low=-1.0, high=1.0)

    assert caught.value.code == "N101"
    assert caught.value.exit_code == 3
    assert caught.value.value.endswith(" between the limits")
    assert caught.value.expected == "a root within 100 steps"
    assert caught.value.remedy == "report this setup"


def test_no_number_before_the_first_root_leaves_it_unknown() -> None:
    def gap(x: Any) -> tuple[Any, Any]:
        return np.where(np.abs(x + 0.5) < 0.1, np.nan, x), 1.0 + 0.0 * x

    assert rising_root(gap, low=-1.0, high=1.0) == 0.0
    with pytest.raises(NotConvergedError):
        first_root(gap, low=-1.0, high=1.0)


@pytest.mark.parametrize("end", [-1.0, 1.0])
def test_value_without_end_is_none_either(end: float) -> None:
    with pytest.raises(NotConvergedError):
        rising_root(lambda x: (np.where(x == end, np.inf * end, x), 1.0), low=-1.0, high=1.0)


def test_what_is_left_of_the_interval_is_told() -> None:
    with pytest.raises(NotConvergedError) as caught:
        rising_root(lambda x: (np.nan * x, 1.0), low=np.array([0.0, 0.0]), high=1.0)

    assert caught.value.value == "0 between the limits"


def _line(at: float) -> Function:
    return lambda x: (x - at, 1.0 + 0.0 * x)


class _Counted:
    """A function that counts how often it is asked."""

    def __init__(self, function: Function) -> None:
        self.function, self.asked = function, 0

    def __call__(self, x: Any) -> tuple[Any, Any]:
        """Value and slope."""
        self.asked += 1
        return self.function(x)


@BOTH
@pytest.mark.parametrize(
    ("function", "expected", "most"),
    [
        (lambda x: (x**2 - 2.0, 2.0 * x), math.sqrt(2.0), 11),
        (lambda x: (0.5 * np.tanh(x - 0.3), 0.5 / np.cosh(x - 0.3) ** 2), 0.3, 11),
        (lambda x: (1e-6 * (x - 0.3), 1e-6 + 0.0 * x), 0.3, 6),
        (lambda x: (1e-6 * (x - 1.3), 1e-6 + 0.0 * x), 1.3, 6),
    ],
    ids=["a parabola", "a bend", "a flat line", "a flat line further up"],
)
def test_newton_s_steps_are_few(root: Any, function: Function, expected: float, most: int) -> None:
    counted = _Counted(function)

    assert root(counted, low=-0.1, high=2.0) == pytest.approx(expected, abs=2e-15)
    assert counted.asked <= most


@pytest.mark.parametrize("place", [-0.7, 0.7])
def test_first_step_may_be_half_of_the_interval(place: float) -> None:
    # A line is met in one step wherever the interval lies: both ends, middle, root.
    for shift in (-10.0, 0.0, 10.0):
        at = place / 2.0 + shift
        counted = _Counted(_line(at))
        rising_root(counted, low=shift - 1.0, high=shift + 1.0)
        assert counted.asked <= 4


def test_ends_that_decide_are_all_that_is_looked_at() -> None:
    for at in (-2.0, 2.0):
        counted = _Counted(_line(at))
        assert rising_root(counted, low=-1.0, high=1.0) == math.copysign(1.0, at)
        assert counted.asked == 2


def test_level_stretch_at_zero_is_a_root() -> None:
    def level(x: Any) -> tuple[Any, Any]:
        beyond = np.sign(x) * np.maximum(np.abs(x) - 0.1, 0.0)
        return beyond, 1.0 * (np.abs(x) > 0.1)

    assert rising_root(level, low=-1.0, high=1.0) == 0.0
    assert first_root(level, low=-1.0, high=1.0) == pytest.approx(-0.1, abs=1.0 / 32.0)


@BOTH
def test_whole_numbers_are_limits_too(root: Any) -> None:
    limits = np.array([0, 0, 0]), np.array([1, 2, 3])
    found = root(lambda x: (x - 1.5, 1.0 + 0.0 * x), low=limits[0], high=limits[1])

    assert np.asarray(found).tolist() == [1.0, 1.5, 1.5]
    assert type(root(lambda x: (x + 1.0, 1.0 + 0.0 * x), low=0, high=1)) is float


# -- The first of several -----------------------------------------------------------------


def _between(roots: list[float]) -> Function:
    """A polynomial that rises through the first of its roots, falls through the second …."""
    sign = -1.0 if len(roots) % 2 == 0 else 1.0
    value = np.poly1d(roots, r=True) * sign
    return lambda x: (value(x), value.deriv()(x))


@given(
    roots=st.lists(st.floats(-0.95, 0.95), min_size=1, max_size=6)
    .map(sorted)
    .filter(lambda roots: np.all(np.diff(roots) > 0.04))
)
def test_first_of_the_roots_of_a_polynomial(roots: list[float]) -> None:
    # A polynomial of an even number of roots turns its far end down, not up.
    assert first_root(_between(roots), low=-1.0, high=1.0) == pytest.approx(roots[0], abs=1e-10)


@given(middle=st.floats(-0.9, 0.9), width=st.floats(1e-6, 0.01))
@example(middle=-1 / 256, width=1 / 256)  # falls through zero where it is looked at
def test_narrow_hump_is_seen(middle: float, width: float) -> None:
    # Comes up to zero between two of the places that are looked at.
    def hump(x: Any) -> tuple[Any, Any]:
        return width**2 - (x - middle) ** 2, -2.0 * (x - middle)

    assert first_root(hump, low=-1.0, high=1.0) == pytest.approx(middle - width, abs=1e-9)


@given(middle=st.floats(-0.9, 0.9), short=st.floats(1e-6, 0.5))
def test_hump_that_stays_below_is_passed_over(middle: float, short: float) -> None:
    def hump(x: Any) -> tuple[Any, Any]:
        late = np.maximum(x - 0.95, 0.0)
        return -short - (x - middle) ** 2 + 1e5 * late, -2.0 * (x - middle) + 1e5 * (late > 0.0)

    root = first_root(hump, low=-1.0, high=1.0)
    assert root > 0.95
    assert hump(root)[0] == pytest.approx(0.0, abs=1e-9)


@given(peak=st.floats(-0.9, 0.9), height=st.floats(1e-4, 0.01))
def test_hump_with_a_sharp_top_is_seen(peak: float, height: float) -> None:
    def roof(x: Any) -> tuple[Any, Any]:
        return height - np.abs(x - peak), -np.sign(x - peak)

    assert first_root(roof, low=-1.0, high=1.0) == pytest.approx(peak - height, abs=1e-12)


def test_value_that_is_not_below_zero_at_once_is_the_first() -> None:
    for function in (
        lambda x: (x * (x - 0.5), 2.0 * x - 0.5),
        lambda x: ((x - 0.2) * (x - 0.7), 2.0 * x - 0.9),
    ):
        assert first_root(function, low=0.0, high=1.0) == 0.0


def test_narrow_crest_of_a_wave_that_begins_by_falling_is_seen() -> None:
    def wave(x: Any) -> tuple[Any, Any]:
        return np.sin(20.0 * x) - 0.9999, 20.0 * np.cos(20.0 * x)

    expected = (2.5 * math.pi - math.acos(0.9999)) / 20.0
    assert first_root(wave, low=0.1, high=1.0) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    "function",
    [
        lambda x: (0.5 * x - 0.3, 0.5 + 0.0 * x),
        lambda x: (-0.5 * x - 2.0, -0.5 + 0.0 * x),
        lambda x: (x**2 - 4.0, 2.0 * x),
        lambda x: (-3.0 + 0.0 * x, 0.0 * x),
    ],
    ids=["rises", "falls", "has a bottom", "is level"],
)
def test_no_top_is_looked_for_where_there_is_none(function: Function) -> None:
    counted = _Counted(function)
    first_root(counted, low=-1.01, high=1.0)

    assert counted.asked <= 8


def test_each_element_has_its_own_first_root() -> None:
    # Elements that start above zero, stay below it, hump early, hump late and rise.
    shift = np.array([-9.0, 9.0, 0.0])

    def function(x: Any) -> tuple[Any, Any]:
        return (x + 0.5) * (x - 0.1) * (x - 0.7) - shift, 3.0 * x**2 - 0.6 * x - 0.33

    found = np.asarray(first_root(function, low=np.full(3, -1.0), high=1.0))
    assert found == pytest.approx([-1.0, 1.0, -0.5], abs=1e-12)


def test_root_in_the_last_and_in_the_first_part_is_found() -> None:
    for place in (-0.9999, 0.9999):
        assert first_root(_between([place]), low=-1.0, high=1.0) == pytest.approx(place, abs=1e-15)


@pytest.mark.parametrize("size", [1, 3, 1500, 70_000])
def test_any_number_of_elements_is_looked_at_alike(size: int) -> None:
    # As many values are asked for at a time as keep memory small.
    asked: list[int] = []

    def function(x: Any) -> tuple[Any, Any]:
        asked.append(x.size)
        return (x + 0.5) * (x - 0.1) * (x - 0.7), 3.0 * x**2 - 0.6 * x - 0.33

    found = np.asarray(first_root(function, low=np.full(size, -1.0), high=1.0))
    assert found == pytest.approx(np.full(size, -0.5), abs=1e-12)
    assert max(asked) <= max(2 * size, (1 << 16) + size)
    # As often as blocks ask for, and some steps more.
    assert len(asked) <= math.ceil(64 / max(1, (1 << 16) // size)) + 12


def test_functions_and_intervals_go_without_names_and_with_them() -> None:
    for root in (rising_root, first_root):
        kinds = [parameter.kind for parameter in inspect.signature(root).parameters.values()]
        assert kinds[1:] == [inspect.Parameter.KEYWORD_ONLY] * 2
        assert root.__name__ in solve.__all__


@BOTH
@given(st.lists(st.floats(-0.99, 0.99), min_size=3, max_size=3))
def test_one_root_alone_is_the_one_among_many(root: Any, zeros: list[float]) -> None:
    one, other, last = zeros

    def cubic(x: Any) -> tuple[Any, Any]:
        near, far, end = x - one, x - other, x - last
        return near * far * end, near * far + near * end + far * end

    alone = root(cubic, low=-1.0, high=1.0)
    assert isinstance(alone, float)
    assert root(cubic, low=np.array([-1.0, -1.0]), high=1.0).tolist() == [alone, alone]
