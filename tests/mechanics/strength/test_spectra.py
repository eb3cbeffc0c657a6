"""Laws of `barwright.mechanics.strength.spectra`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.strength.spectra import straight_line_spectrum


@given(strokes=st.floats(1.5, 1e9), classes=st.integers(1, 200))
def test_no_stroke_is_lost_and_few_are_large(strokes: float, classes: int) -> None:
    shares, numbers = straight_line_spectrum(strokes=strokes, classes=classes)

    assert shares.shape == numbers.shape == (classes,)
    assert shares[-1] == 1.0
    assert np.all(numbers > 0.0)
    assert numbers.sum() == pytest.approx(strokes, rel=1e-9)


@given(strokes=st.floats(10.0, 1e9), exponent=st.floats(2.0, 12.0))
def test_more_classes_do_less_damage_and_never_less_than_the_line(
    strokes: float, exponent: float
) -> None:
    """Each stroke counts as large as its class allows."""
    damage = []
    for classes in (5, 10, 20, 40):
        shares, numbers = straight_line_spectrum(strokes=strokes, classes=classes)
        damage.append(float(np.sum(numbers * shares**exponent)))

    assert damage == sorted(damage, reverse=True)
    assert damage[-1] > 1.0


@pytest.mark.parametrize(
    ("figures", "key"),
    [
        ({"strokes": 1.0, "classes": 4}, "strokes"),
        ({"strokes": math.nan, "classes": 4}, "strokes"),
        ({"strokes": 10.0, "classes": 0}, "classes"),
    ],
)
def test_a_spectrum_of_nothing_is_refused(figures: dict[str, float], key: str) -> None:
    with pytest.raises(QuantityError) as caught:
        straight_line_spectrum(**figures)  # type: ignore[arg-type]
    assert (caught.value.code, caught.value.key) == ("Q302", key)
