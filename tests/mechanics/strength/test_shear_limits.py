"""Laws and refusals of `barwright.mechanics.strength.shear_limits`."""

from __future__ import annotations

import math

import attrs
import numpy as np
import pytest

from barwright.errors import QuantityError
from barwright.mechanics.strength.shear_limits import (
    DIN_2091,
    PermissibleShear,
    corrected_endurance,
    ultimate_shear,
    yield_shear,
)

NEUTRAL = {
    "surface_factor": 1.0,
    "size_factor": 1.0,
    "loading_factor": 1.0,
    "temperature_factor": 1.0,
    "reliability_factor": 1.0,
    "notch_factor": 1.0,
}


# -- Permissible stresses -----------------------------------------------------------------


def test_limits_of_a_source_say_how_they_are_known_and_can_be_replaced() -> None:
    assert (DIN_2091.not_preset, DIN_2091.preset) == (700e6, 1020e6)
    assert DIN_2091.source == "DIN 2091 (1981-06), round figure from memory, unconfirmed"
    mine = attrs.evolve(DIN_2091, not_preset=650e6, source="own tests")
    assert mine == PermissibleShear(not_preset=650e6, preset=1020e6, source="own tests")
    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        DIN_2091.preset = 1e9  # type: ignore[misc]


# -- Strengths --------------------------------------------------------------------------


def test_ultimate_shear_is_the_named_share() -> None:
    assert ultimate_shear(1500e6, shear_ratio=0.8) == 1200e6


def test_yield_in_shear_is_that_of_distortion_energy() -> None:
    assert yield_shear(1200e6) == pytest.approx(692.820323e6, rel=1e-9)
    assert np.asarray(yield_shear(np.array([0.0, 1200e6]))).tolist() == [0.0, yield_shear(1200e6)]


def test_factors_of_one_correct_nothing() -> None:
    assert corrected_endurance(400e6, **NEUTRAL) == 400e6


@pytest.mark.parametrize("name", NEUTRAL)
def test_each_factor_is_multiplied_once(name: str) -> None:
    assert corrected_endurance(400e6, **(NEUTRAL | {name: 0.7})) == pytest.approx(280e6, rel=1e-14)


@pytest.mark.parametrize("name", NEUTRAL)
def test_no_factor_is_taken_for_granted(name: str) -> None:
    given_ = {key: value for key, value in NEUTRAL.items() if key != name}

    with pytest.raises(TypeError, match=name):
        corrected_endurance(400e6, **given_)


@pytest.mark.parametrize(
    ("notch", "shown"), [(1.6, "1.6"), (np.array([0.5, 1.25]), "1.25"), (math.nan, "nan")]
)
def test_a_notch_that_strengthens_is_refused(notch: float, shown: str) -> None:
    with pytest.raises(QuantityError) as caught:
        corrected_endurance(400e6, **(NEUTRAL | {"notch_factor": notch}))

    assert caught.value.fields == {
        "code": "Q302",
        "value": shown,
        "expected": "the share of strength left by the notch, at most 1",
        "remedy": "give 1 divided by the fatigue notch factor",
        "key": "notch_factor",
        "file": "",
        "line": 0,
    }


def test_factors_broadcast_over_arrays() -> None:
    surface, notch = np.array([[0.8], [0.9]]), np.array([0.5, 0.75, 1.0])
    grid = corrected_endurance(
        400e6, **(NEUTRAL | {"surface_factor": surface, "notch_factor": notch})
    )

    assert np.shape(grid) == (2, 3)
    assert np.asarray(grid)[1, 1] == pytest.approx(270e6, rel=1e-14)
