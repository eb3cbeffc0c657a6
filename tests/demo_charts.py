"""Charts of the demo families, made once for all tests that look at one."""

from __future__ import annotations

import barwright as bw

__all__ = ["DEMO", "TRUCKS", "VANS"]

DEMO = bw.Registry.demo()

VANS = bw.family_chart(DEMO, "fells", processes=1)

TRUCKS = bw.family_chart(DEMO, "hodmule", processes=1)
