"""Kills itself at every operation on the cache in turn, and looks at what the next one answers.

Run by `test_cached_faults`, in a process of its own since it forks; prints the count.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from pathlib import Path

import barwright as bw
from barwright.registry import open_packs as opening
from barwright.registry.files import snapshot
from file_faults import killed_at
from index_packs import short_answers
from sample_packs import changed_pack

_MOST = 500


def main() -> None:
    """Begin with no cache, and with one that is to be brought up to date."""
    opening._WORTHWHILE = 0  # noqa: SLF001 - a small pack will do
    snapshot.TICK = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["BARWRIGHT_CACHE"] = str(folder / "cache")
        pack = changed_pack(folder, "pack.toml", "", "")
        counts = [kill_at_all(folder / "cache", pack, is_new=new) for new in (True, False)]
    print(sum(counts))  # noqa: T201 - for the test


def kill_at_all(cache: Path, pack: Path, *, is_new: bool) -> int:
    """Kill a process at every operation until one gets to its end; count them."""
    vehicles = pack / "vehicles.toml"
    for at in range(1, _MOST):
        text = vehicles.read_text("utf-8")
        vehicles.write_text(text + "# changed\n", "utf-8")
        if is_new:
            shutil.rmtree(cache, ignore_errors=True)
        right = short_answers(bw.Registry.from_folders(pack, cache=False))
        code = killed_at(cache, at, lambda: bw.Registry.from_folders(pack))
        assert short_answers(bw.Registry.from_folders(pack)) == right
        if code == 0:
            return at - 1
        assert code == 9, code
    raise AssertionError


if __name__ == "__main__":
    main()
