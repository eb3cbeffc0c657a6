"""Checks and waivers as they are written, and all that can be wrong with them."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import added, found
from sample_packs import GOOD_PACK, changed_pack, problems_in

CHECK = {
    "computes": "ride.height",
    "of": "chassis/one",
    "corner": "front left",
    "is": "404 mm",
    "source": "bench",
    "at": "sheet 4",
}
WAIVER = {"rule": "plausible", "of": "bar/one", "why": "It is so on every one of them."}


def table(kind: str, keys: dict[str, str]) -> str:
    return "\n".join([f"[[{kind}]]", *(f'{key} = "{value}"' for key, value in keys.items()), ""])


def problems(pack: Path) -> list[tuple[str, str, int]]:
    return [(f.code, f.key, f.line) for f in found(pack, "loads")]


def test_a_good_check_and_a_good_waiver_are_no_problem(tmp_path: Path) -> None:
    assert problems(added(tmp_path, table("check", CHECK), table("waiver", WAIVER))) == []


CHECKS = {
    "no figure": ({"computes": None}, "S202", "computes", 1),
    "no value": ({"is": None}, "S202", "is", 1),
    "no source": ({"source": None}, "S202", "source", 1),
    "no place": ({"at": None}, "S202", "at", 1),
    "place of nothing": ({"at": " "}, "S203", "at", 7),
    "unknown key": ({"tolerance": "1 mm"}, "S201", "tolerance", 8),
    "unknown figure": ({"computes": "ride.hight"}, "S204", "computes", 2),
    "unknown record": ({"of": "chassis/two"}, "S206", "of", 3),
    "unknown source": ({"source": "book"}, "S206", "source", 6),
    "unknown bar": ({"bar": "bar/two"}, "S206", "bar", 8),
    "a bar that is none": ({"bar": "tube/one"}, "S206", "bar", 8),
    "unknown corner": ({"corner": "rear left"}, "L103", "corner", 4),
    "no corner": ({"corner": None}, "L103", "corner", 1),
    "a figure of corners, of a part": ({"of": "bar/one"}, "S207", "of", 3),
    "a record without figures": ({"of": "damper/one"}, "S207", "of", 3),
    "a corner beside a part": ({"computes": "bar_rate", "of": "bar/one"}, "S207", "corner", 4),
    "a bar beside a part": (
        {"computes": "clocking_step", "of": "bar/one", "corner": None, "bar": "bar/one"},
        "S207",
        "bar",
        7,
    ),
    "no unit": ({"is": "404"}, "Q105", "is", 5),
    "another unit": ({"is": "404 N"}, "Q202", "is", 5),
}


@pytest.mark.parametrize(("change", "code", "key", "line"), CHECKS.values(), ids=CHECKS)
def test_a_bad_check(
    tmp_path: Path, change: dict[str, str | None], code: str, key: str, line: int
) -> None:
    keys = {name: value for name, value in (CHECK | change).items() if value is not None}
    pack = added(tmp_path, table("check", keys))
    assert problems(pack) == [(code, f"check[0].{key}", line)]


def test_every_problem_of_a_check_says_what_would_do(tmp_path: Path) -> None:
    pack = added(tmp_path, table("check", CHECK | {"computes": "ride.hight"}))
    (finding,) = found(pack, "loads")
    assert finding.message == "got 'ride.hight', expected a figure that can be computed"
    assert finding.remedy.startswith("did you mean 'ride.height'")


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            {"computes": "bar_rate", "of": "arm/one"},
            "got bar_rate of arm/one, expected the id of a chassis or a bar",
        ),
        (
            {"computes": "bar_rate", "of": "bar/one"},
            "got front left, expected no corner or bar, because the figure belongs to a part",
        ),
        (
            {"computes": "bar_rate", "of": "bar/one", "corner": None, "bar": "bar/one"},
            "got bar/one, expected no corner or bar, because the figure belongs to a part",
        ),
    ],
)
def test_what_a_check_is_of_is_said_where_it_does_not_fit(
    tmp_path: Path, change: dict[str, str | None], message: str
) -> None:
    keys = {name: value for name, value in (CHECK | change).items() if value is not None}
    (finding,) = found(added(tmp_path, table("check", keys)), "loads")
    assert finding.message.replace("'", "") == message


WAIVERS = {
    "no rule": ({"rule": None}, "S202", "rule", 1),
    "nothing concerned": ({"of": None}, "S202", "of", 1),
    "unknown key": ({"line": "3"}, "S201", "line", 5),
}


@pytest.mark.parametrize(("change", "code", "key", "line"), WAIVERS.values(), ids=WAIVERS)
def test_a_bad_waiver(
    tmp_path: Path, change: dict[str, str | None], code: str, key: str, line: int
) -> None:
    keys = {name: value for name, value in (WAIVER | change).items() if value is not None}
    pack = added(tmp_path, table("waiver", keys))
    assert problems(pack) == [(code, f"waiver[0].{key}", line)]
    # In pack.toml it stands behind what is there.
    header = (pack / "more.toml").rename(pack / "pack.toml")
    before = (GOOD_PACK / "pack.toml").read_text(encoding="utf-8")
    header.write_text(before + table("waiver", keys), encoding="utf-8")
    assert problems(pack) == [(code, f"waiver[0].{key}", line + before.count("\n"))]


@pytest.mark.parametrize("kind", ["check", "waiver"])
@pytest.mark.parametrize("text", ["[{}]\n", '{} = "x"\n'])
def test_brackets_are_doubled(tmp_path: Path, kind: str, text: str) -> None:
    pack = added(tmp_path, text.format(kind))
    (finding,) = found(pack, "loads")
    assert (finding.code, finding.key, finding.remedy) == ("S203", kind, "use double brackets")


@pytest.mark.parametrize("kind", ["check", "waiver"])
def test_an_entry_is_a_table(tmp_path: Path, kind: str) -> None:
    assert problems(added(tmp_path, f"{kind} = [3]\n")) == [("S203", f"{kind}[0]", 1)]


def test_a_check_does_not_stand_in_pack_toml(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    text = (pack / "pack.toml").read_text(encoding="utf-8")
    (pack / "pack.toml").write_text(text + table("check", CHECK), encoding="utf-8")
    assert [code for code, *_ in problems(pack)] == ["S201"]


def test_a_check_of_what_is_broken_is_left_alone(tmp_path: Path) -> None:
    check = CHECK | {"computes": "tube_rate", "of": "tube/two", "is": "4 N*m/deg"}
    del check["corner"]
    pack = added(tmp_path, '[[tube]]\nid = "two"\n', table("check", check))
    assert {key.partition("[")[0] for _, key, _ in problems(pack)} == {"tube"}


def test_a_bad_check_or_waiver_does_not_keep_a_pack_from_its_users(tmp_path: Path) -> None:
    pack = added(tmp_path, "[[check]]\n", "[[waiver]]\nx = 3\n")
    assert problems_in(pack) == []
    assert bw.Registry.from_folders(pack).chassis("chassis/one").title == "Vehicle"


@pytest.mark.parametrize("kind", ["check", "waiver"])
def test_all_that_is_wrong_is_told_at_once(tmp_path: Path, kind: str) -> None:
    good = {"check": CHECK, "waiver": WAIVER}[kind]
    keys = {"check": "at", "waiver": "rule"}[kind]
    bad = {name: value for name, value in good.items() if name != keys}
    pack = added(tmp_path, table(kind, bad), table(kind, good), table(kind, bad))
    assert [key for _, key, _ in problems(pack)] == [f"{kind}[0].{keys}", f"{kind}[2].{keys}"]
