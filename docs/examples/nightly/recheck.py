"""Ask all jobs again when packs have changed, and tell whose answers are different now.

    python recheck.py jobs           # each night
    python recheck.py jobs --accept  # when the report has been read

Beside the jobs lie `barwright.lock`, the packs that the answers came from, and `answers.json`, the
answers.  As long as the packs are those of the lock, the answers are kept, those of new jobs too.
The exit code is 0 if all answers are the same, and 1 if one is different.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TypeAlias

import barwright as bw

Answers: TypeAlias = dict[str, dict[str, str]]
"""Of each job file: its customer, and the answer for each corner."""

CUSTOMER = "customer"


# -- What there was, and what there is -----------------------------------------------


def changed_packs(registry: bw.Registry, lock: Path) -> list[str]:
    """Tell what is different from the lock; where there is none, nothing is."""
    if not lock.exists():
        return []
    try:
        bw.check_lock(registry, bw.read_lock(lock), file=lock.name)
    except bw.LockError as error:
        return [str(problem) for problem in error.problems]
    return []


def answered(jobs: Path, registry: bw.Registry) -> Answers:
    """Answer all jobs of a folder, on all processors."""
    files = sorted(jobs.rglob("*.toml"))
    return {
        file.relative_to(jobs).as_posix(): {CUSTOMER: customer(file, registry), **answers(checked)}
        for file, checked in zip(files, bw.check_jobs(files, registry), strict=True)
    }


def answers(checked: bw.answers.JobCheck) -> dict[str, str]:
    """Tell the answers as a person reads them, so that a last digit is no difference."""
    if checked.problems:
        return {"the file": checked.headline}
    return {
        corner.place: f"{corner.verdict.value}: {corner.headline}" for corner in checked.corners
    }


def customer(file: Path, registry: bw.Registry) -> str:
    """Tell whose job it is; nobody knows of a file that cannot be read."""
    try:
        return bw.load_jobs(file, registry)[0].order.customer
    except bw.BarwrightError:
        return ""


# -- What has become different -------------------------------------------------------


def differences(before: Answers, now: Answers) -> Iterator[str]:
    """Tell each answer that is different, and for whom."""
    for file, answer in now.items():
        old = before.get(file, {})
        if {**old, CUSTOMER: ""} != {**answer, CUSTOMER: ""}:
            # A job whose part is gone cannot be read, but its customer was known.
            yield f"{file}, for {answer[CUSTOMER] or old.get(CUSTOMER) or 'a customer not named'}:"
            yield from changed_lines(old, answer)


def changed_lines(old: Mapping[str, str], new: Mapping[str, str]) -> Iterator[str]:
    """Tell the answers for the corners of a job that are different."""
    for place in dict.fromkeys([*old, *new]):
        if place != CUSTOMER and old.get(place) != new.get(place):
            yield f"  {place}"
            yield f"    was: {old.get(place, 'no answer')}"
            yield f"    is:  {new.get(place, 'no answer')}"


def printable(line: str) -> str:
    """Jobs and packs come from others: nothing in them is to steer a terminal."""
    return "".join(sign if sign.isprintable() else "\ufffd" for sign in line)


# -- The night -----------------------------------------------------------------------


def recheck(jobs: Path, registry: bw.Registry, *, accept: bool = False) -> int:
    """Check all jobs; print what is different; return the exit code."""
    lock, store = jobs / "barwright.lock", jobs / "answers.json"
    packs = [*map(str, registry.problems), *changed_packs(registry, lock)]
    now = answered(jobs, registry)
    if accept or not packs:
        write_whole(lock, bw.lock_text(bw.lock_of(registry)))
        write_whole(store, json.dumps(now, indent=1))
        print(f"{len(now)} job(s) are kept with their answers.")
        return 0
    before = kept(store)
    different = list(differences(before, now))
    for line in [*packs, *different]:
        print(printable(line))
    if not different:
        print(f"The answers of {len(now)} job(s) are the same.")
    return 1 if different else 0


def kept(store: Path) -> Answers:
    """Read the answers that were kept; end if they cannot be read."""
    if not store.exists():
        return {}
    try:
        found: Answers = json.loads(store.read_text("utf-8"))
    except (OSError, ValueError) as error:
        message = f"{store}: cannot be read ({error}); put it back, or run again with --accept"
        raise SystemExit(message) from None
    return found


def write_whole(path: Path, text: str) -> None:
    """Write a file that is there as a whole or not at all."""
    fresh = path.with_name(f"{path.name}.new")
    fresh.write_text(text, encoding="utf-8")
    fresh.replace(path)


def main() -> int:
    """Read the command line."""
    parser = argparse.ArgumentParser(description="Ask all jobs again when packs have changed.")
    parser.add_argument("jobs", type=Path, help="folder of the job files")
    parser.add_argument("--accept", action="store_true", help="keep the answers as they are now")
    parser.add_argument("--overlay", action="append", default=[], help="as for barwright")
    arguments = parser.parse_args()
    registry = bw.Registry.discover(overlays=arguments.overlay)
    return recheck(arguments.jobs, registry, accept=arguments.accept)


if __name__ == "__main__":
    raise SystemExit(main())
