"""First order and Monte Carlo against `uncertainties`, GTC, scipy, and each other.

A number marked "from memory" was recalled, not read in its source.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import scipy.stats
import uncertainties
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.mechanics.uncertainty.coverage import (
    coverage_factor,
)
from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    variance_shares,
)
from barwright.mechanics.uncertainty.sampling import Distribution, draw_inputs
from draws import draws
from sample_packs import discovered_once

FREEDOMS = st.one_of(st.integers(1, 200).map(float), st.floats(1e3, 1e9), st.just(np.inf))


@settings(max_examples=draws(60))
@given(share=st.floats(0.01, 0.9999), freedom=FREEDOMS)
def test_factors_are_quantiles_of_students_distribution(share: float, freedom: float) -> None:
    held = scipy.stats.norm if freedom == np.inf else scipy.stats.t(np.floor(freedom))

    assert coverage_factor(share, degrees_of_freedom=freedom) == pytest.approx(
        held.ppf((1.0 + share) / 2.0), rel=1e-9
    )


@pytest.mark.parametrize(
    ("kind", "held"),
    [
        (Distribution.NORMAL, scipy.stats.norm(5.0, 0.2)),
        (Distribution.RECTANGULAR, scipy.stats.uniform(5.0 - 0.2 * 3**0.5, 0.4 * 3**0.5)),
        (Distribution.TRIANGULAR, scipy.stats.triang(0.5, 5.0 - 0.2 * 6**0.5, 0.4 * 6**0.5)),
    ],
)
def test_draws_are_of_the_distribution_that_scipy_knows(kind: Distribution, held: Any) -> None:
    (drawn,) = draw_inputs(
        values=[5.0], uncertainties=[0.2], distributions=kind, draws=20_000, seed=11
    )

    assert scipy.stats.kstest(drawn, held.cdf).pvalue > 0.01


def test_a_bar_of_29_mm_has_eighty_eight_to_twelve_in_half_widths() -> None:
    contributions = [4.0 * 0.05 / 29.0, 0.05]

    assert contributions[1] / sum(contributions) == pytest.approx(0.88, abs=0.002)
    assert variance_shares(contributions)[1] == pytest.approx(0.981, abs=0.001)
    assert combined_uncertainty(contributions) == pytest.approx(0.0505, abs=1e-4)


def test_an_answer_is_as_unsure_as_uncertainties_has_it() -> None:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    tube = setup.anchor
    assert isinstance(tube, bw.parts.Tube)
    modulus = uncertainties.ufloat(79.3e9, 1.6e9 / 3.0**0.5)
    outside = uncertainties.ufloat(0.046, 0.1e-3 / 3.0**0.5)
    assert str(tube.material.about["shear_modulus"].tolerance) == "1.6 gigapascal"
    assert str(tube.about["outside_diameter"].tolerance) == "0.1 millimeter"
    length = (tube.socket_position - tube.lever_position).m_as("m")
    rate = modulus * np.pi / 32.0 * (outside**4 - tube.bore.m_as("m") ** 4) / length
    answer = bw.tolerance(bw.rates, setup)
    (row,) = [row for row in answer.rows if row.figure == "tube_rate"]

    assert row.nominal.m_as("N*m/rad") == pytest.approx(rate.nominal_value, rel=1e-12)
    assert row.uncertainty is not None
    # Moved to both ends of a tolerance, a fourth power bends by some millionths.
    assert row.uncertainty.m_as("N*m/rad") == pytest.approx(2.0 * rate.std_dev, rel=1e-5)
    share = (rate.error_components()[modulus] / rate.std_dev) ** 2
    assert row.shares[0].figure == "anchor.material.shear_modulus"
    assert row.shares[0].percent == pytest.approx(100.0 * share, rel=1e-4)
