"""``python -m barwright``: the command line."""

from __future__ import annotations

from barwright.cli import main

main()
