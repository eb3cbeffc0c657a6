"""What forbids a plan is said alike by the plan, the sheet and the question it comes from."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.parts import PropertyClass
from sample_packs import discovered_once

EXAMPLES = Path(__file__).parents[4] / "docs" / "examples"
TEXT = "full bump stretches the bolt permanently, beyond the proof load of class 8.8"


def job_with_bolt(diameter: str, pitch: str) -> bw.Job:
    """A van whose adjusters have a bolt of class 8.8."""
    job = bw.load_job(EXAMPLES / "shorter-dampers.toml", discovered_once())
    return attrs.evolve(
        job,
        corners=tuple(
            attrs.evolve(corner, setup=with_bolt(corner.setup, diameter, pitch))
            for corner in job.corners
        ),
    )


def with_bolt(setup: bw.Setup, diameter: str, pitch: str) -> bw.Setup:
    assert setup.adjuster is not None
    bolt = attrs.evolve(
        setup.adjuster,
        property_class=PropertyClass.CLASS_8_8,
        thread_diameter=diameter,
        thread_pitch=pitch,
    )
    return attrs.evolve(setup, adjuster=bolt)


@pytest.mark.parametrize(
    ("diameter", "pitch", "bears"), [("6 mm", "1 mm", False), ("12 mm", "1.75 mm", True)]
)
def test_no_plan_lets_a_bolt_take_a_set(
    diameter: str,
    pitch: str,
    bears: bool,  # noqa: FBT001 - a parameter of the test
) -> None:
    """The bolt carries some 17 kN at full bump; an M6 of class 8.8 bears 11.6 kN."""
    job = job_with_bolt(diameter, pitch)

    for answer in bw.reindex_job(job):
        assert (answer.outcome is not bw.Outcome.NO) is bears
        assert (TEXT in [finding.text for finding in answer.findings]) is not bears
        assert bears or answer.verdict is bw.Verdict.NOT_SAFE
    sheet = bw.bench_sheet(job)
    assert (sheet.outcome is not bw.Outcome.NO) is bears
    assert (TEXT in sheet.headline) is not bears


def job_with_fillet(share: float) -> bw.Job:
    """The same van, on bars whose arm ends have fillets in the place of their cones.

    Their steel yields in shear at a share of the greatest stress that their bodies come to.
    """
    job = bw.load_job(EXAMPLES / "shorter-dampers.toml", discovered_once())
    greatest = max(answer.plans[0].bump.shear_stress for answer in bw.reindex_job(job))
    return attrs.evolve(
        job,
        corners=tuple(
            attrs.evolve(
                corner,
                setup=with_fillet(corner.setup, proof=share * greatest * 3**0.5),
                present=with_fillet(corner.present, proof=share * greatest * 3**0.5),
            )
            for corner in job.corners
        ),
    )


def with_fillet(setup: bw.Setup, *, proof: bw.Quantity) -> bw.Setup:
    bar = setup.bar
    steel = bw.parts.Material(
        id="t:material/steel",
        title="Steel",
        shear_modulus=bar.material.shear_modulus,
        proof_strength=proof,
    )
    end = attrs.evolve(bar.arm_end, taper="0 mm", fillet_radius="2.5 mm")
    return attrs.evolve(setup, bar=attrs.evolve(bar, material=steel, arm_end=end))


@pytest.mark.parametrize(("share", "bears"), [(1.1, False), (2.0, True)])
def test_no_plan_lets_the_steel_yield_in_a_fillet(
    share: float,
    bears: bool,  # noqa: FBT001 - a parameter of the test
) -> None:
    """A fillet of 2.5 mm raises the stress by some 30 to 40 %."""
    job = job_with_fillet(share)
    text = "the steel yields in the fillet (caller, by distortion energy): cracks start there"

    for answer in bw.reindex_job(job):
        assert (answer.outcome is not bw.Outcome.NO) is bears
        assert (text in [finding.text for finding in answer.findings]) is not bears
        assert bears or answer.verdict is bw.Verdict.OVERSTRESSED
    sheet = bw.bench_sheet(job)
    assert (sheet.outcome is not bw.Outcome.NO) is bears
    assert (text in sheet.headline) is not bears
