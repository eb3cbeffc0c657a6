"""The text of a bar's rate says what it must."""

from __future__ import annotations

import re

import barwright as bw
from sample_packs import SPECIMENS
from sample_records import make_bar

RACK = bw.Registry.from_folders(SPECIMENS / "rack", cache=False)


def test_rates_come_with_their_uncertainty_and_what_it_means() -> None:
    shown = bw.text(bw.bar_rate(RACK.bar("bar/thin"), tube=RACK.tube("tube/plain")))

    assert re.search(r"^bar alone +[\d.]+ N·m/deg ± [\d.]+ N·m/deg$", shown, re.MULTILINE)
    assert re.search(r"^torque tube +[\d.]+ N·m/deg$", shown, re.MULTILINE)
    assert re.search(r"^twist of bar and tube +[\d.]+° ± [\d.]+°$", shown, re.MULTILINE)
    assert "shear modulus of the bar  79.0 GPa ± 2.5 GPa\n" in shown
    assert re.search(r"^smallest clocking step +0\.909°$", shown, re.MULTILINE)
    assert re.search(r"^torque at that stress +\d+ N·m$", shown, re.MULTILINE)
    assert "Each ± is about 95 %, from the tolerances of the figures.\n" in shown


def test_without_a_tube_or_a_tolerance_nothing_is_said_of_either() -> None:
    shown = bw.text(bw.bar_rate(make_bar()))

    assert "tube" not in shown
    assert "Each ±" not in shown
    assert "permissible" not in shown
    assert re.search(r"^twist +[\d.]+°$", shown, re.MULTILINE)
    note = "* note: no tolerance of the shear modulus is known, and the ± leaves it out"
    assert note in " ".join(shown.split())
