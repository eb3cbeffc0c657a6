"""DEVELOPERS.md leads to files and folders that are there, and to every room."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

from each_case import each_case

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "barwright"
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
# What a command makes, and is not kept.
MADE = {"build/reached.coverage"}


def named() -> set[str]:
    """Files and folders that the page names."""
    quoted = re.findall(r"`([\w./-]+?(?:/|\.py|\.toml|\.md))`", TEXT)
    return set(quoted) - MADE


def test_every_path_that_is_named_exists() -> None:
    # After a folder or a file of it, a row names other files of it by their own names.
    folders = {PACKAGE, ROOT, *((PACKAGE / name).parent for name in named())}
    folders |= {root / name for root in (PACKAGE, ROOT) for name in named() if name.endswith("/")}
    missing = [n for n in named() if not any((folder / n).exists() for folder in folders)]

    assert missing == []


def test_every_room_is_named_or_a_file_of_it() -> None:
    rooms = {
        f"{init.parent.relative_to(PACKAGE)}/"
        for init in PACKAGE.glob("*/*/__init__.py")
        if init.parent.parent.name != "mechanics"
    }

    assert [room for room in rooms if not any(name.startswith(room) for name in named())] == []


def test_every_room_says_what_it_holds_in_a_line() -> None:
    lines = {
        init: init.read_text(encoding="utf-8").strip()
        for init in PACKAGE.glob("*/**/__init__.py")
        if init.parent.parent != PACKAGE
    }

    assert [
        init for init, text in lines.items() if not re.fullmatch(r'"""[^\n]{20,}\."""', text)
    ] == []


# More than somebody finds a file among at a look.
MOST_MODULES = 14


def test_no_room_is_full() -> None:
    counts = Counter(
        path.parent.relative_to(PACKAGE).as_posix()
        for path in PACKAGE.rglob("*.py")
        if path.name != "__init__.py"
    )

    assert {room: count for room, count in counts.items() if count > MOST_MODULES} == {}


# Questions of somebody who is new here: words of the row that answers it, the file with the
# answer, and what stands there.
WALK = {
    "What does a year among a vehicle's words match?": (
        "matched to a vehicle",
        ("registry/search/query.py", "def _built_in_year"),
    ),
    "Who proposes another name for one that is mistyped?": (
        "suggested for a name",
        ("registry/nearest_name.py", "def nearest"),
    ),
    "Two packs have one id: which one is used?": (
        "two packs with one id",
        ("registry/discovery/duplicate_ids.py", "def without_clashes"),
    ),
    "Where does a measured height in a job become a reading?": (
        "keys of a job file",
        ("registry/jobs/measured.py", "def reading"),
    ),
    "Where does the sign of left and right come in?": (
        "left differs from right",
        ("analysis/corner/suspension.py", "def _on_side"),
    ),
    "What force has a bump stop?": (
        "bump stop",
        ("mechanics/corner/springs.py", "class BumpStop"),
    ),
    "How much thread has to stay in reserve?": (
        "how much thread",
        ("analysis/reindex/preference.py", "def sufficient_thread"),
    ),
    "Which teeth carry where the socket has gaps?": (
        "teeth of a head carry",
        ("analysis/fit/head_load.py", "def missing_teeth"),
    ),
    "Does the bolt bear full bump?": (
        "adjuster's bolt carries",
        ("analysis/rates/bolt_load.py", "def overloaded_bolt"),
    ),
    "Which tolerances of a setup are counted?": (
        "uncertainty of a figure",
        ("analysis/tolerance/figures.py", "def toleranced_figures"),
    ),
    "Where are millimetres turned into inches?": (
        "millimetres or inches",
        ("report/unit_system.py", "def in_units"),
    ),
    "How does a setup look after a plan?": (
        "a plan carried out",
        ("analysis/reindex/plan/setup_after.py", "def carry_out"),
    ),
    "Which invented figures does an answer depend on?": (
        "nobody has measured",
        ("analysis/tolerance/unmeasured.py", "def rests_on"),
    ),
    "Who refuses a key that a pack should not have?": (
        "a table becomes a record",
        ("registry/packs/tables/refusals.py", "def unknown_key"),
    ),
    "Where is the tooth chosen?": (
        "which tooth lies on the key",
        ("analysis/reindex/planner.py", "def planned"),
    ),
    "Where would a new kind of adjuster go?": (
        "a new kind of adjuster",
        ("parts/adjuster.py", "class Adjuster"),
    ),
    "Who says that no tooth is removed?": (
        "what a plan is, and its words",
        ("analysis/reindex/plan/plan.py", "remove no tooth"),
    ),
    "What computes the ride frequency?": (
        "its frequency and damping",
        ("analysis/rates/vibration.py", "def ride_frequency"),
    ),
    "Where is the version of the answers in JSON raised?": (
        "an answer for a program",
        ("report/forms/documents.py", "ANSWER_SCHEMA ="),
    ),
    "How does a page get into a PDF file from a command?": (
        "a command and its options",
        ("cli/printing.py", '"pdf"'),
    ),
    "Who reads the unit in a column's heading of a shop's table?": (
        "a table becomes a pack",
        ("registry/importing/heading.py", "class Heading"),
    ),
    "How far does a damper let the wheel travel?": (
        "how far a corner travels",
        ("analysis/corner/geometry.py", "def travel"),
    ),
    "Which slip would explain that a corner stands wrong?": (
        "which slip of the pen",
        ("lint/corners/suspects.py", "def "),
    ),
    "What did somebody measure of a loose bar?": (
        "what somebody measured",
        ("parts/measurements/measured_bar.py", "class MeasuredBar"),
    ),
    "What does a bar weigh?": (
        "a bar's mass",
        ("analysis/corner/bar/bar_mass.py", "def mass_of"),
    ),
    "Which base class has the kernel of a new kind of anchor?": (
        "a new kind of adjuster or anchor",
        ("mechanics/anchorage/interface.py", "class Anchorage"),
    ),
    "Why does a plan say to remove no tooth yet?": (
        "remove no tooth yet",
        ("analysis/reindex/reading_check.py", "Remove no tooth yet"),
    ),
    "Why does a plan remove this tooth?": (
        "which tooth a plan removes",
        ("analysis/reindex/preference.py", "def rank"),
    ),
    "What is printed in the first lines of a sheet?": (
        "first lines of a sheet",
        ("report/sheet/headline.py", "def planned_lines"),
    ),
    "Which tooth counts give the finest step?": (
        "finest step",
        ("mechanics/spline/clocking.py", "def smallest_step"),
    ),
    "Who compares a damper with the arm's stops?": (
        "damper's length suits the arm's stops",
        ("lint/rules/vehicles/damper_stops.py", "Rule("),
    ),
    "Where is a tolerance read?": (
        "its tolerance (±)",
        ("units/reader.py", "tolerance"),
    ),
    "Where is the text of a caution?": (
        "text of a caution",
        ("analysis/finding.py", "A twisted bar can maim"),
    ),
    "When is a record read in the fast way?": (
        "the fast way or the careful one",
        ("registry/packs/tables/part_maker.py", "self._in_order.record"),
    ),
    "What does the letter of a code mean?": (
        "the letter of a code",
        ("errors.py", "CODES = {"),
    ),
    "When is the kept index built anew?": (
        "kept index",
        ("registry/index/shelf.py", "def _built"),
    ),
    "What writes the PDF?": (
        "bench sheet on paper",
        ("report/page/pdf.py", "def "),
    ),
}


@each_case("question", WALK)
def test_a_question_is_answered_in_two_steps(question: str) -> None:
    """A step to the row's file; or one to its folder, and one to the file of that name."""
    words, (file, answer) = WALK[question]
    (row,) = [line for line in TEXT.splitlines() if line.startswith("|") and words in line]
    places = re.findall(r"`([\w./-]+)`", row.split("|")[2])
    folder, _, name = file.rpartition("/")
    leads_there = {file, f"{folder}/"} & set(places) or (
        name in places and any(place.startswith(f"{folder}/") for place in places)
    )

    assert leads_there
    assert answer in (PACKAGE / file).read_text(encoding="utf-8")
