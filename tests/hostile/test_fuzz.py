"""Spoilt inputs end in answers or in errors of barwright's own; the harness itself is sound."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from barwright.errors import FileError
from fuzz import run
from fuzz.mutations import chance_of, spoilt_bytes, spoilt_table
from fuzz.run import Ran, main, ran
from fuzz.seeds import seeds
from fuzz.targets import TARGETS, Target
from rare_cases import rarely_after

INPUTS = {"figure": 600, "proofs": 300, "words": 200, "lint": 25, "render": 12}


@pytest.mark.parametrize("name", rarely_after(5, TARGETS))
def test_no_spoilt_input_ends_in_an_untyped_error_or_otherwise_the_second_time(name: str) -> None:
    record = ran(name, inputs=INPUTS.get(name, 400), seed=5)
    # How long each took is for the long run on an idle machine.
    assert not {what: data for what, data in record.findings.items() if what != run.SLOW}
    assert len(record.outcomes) > 1


def of(ask: Callable[[bytes], str], monkeypatch: pytest.MonkeyPatch) -> Ran:
    """What is found in a target that does this."""
    monkeypatch.setitem(TARGETS, "made", Target(lambda chance: chance.randbytes(4), ask))
    return ran("made", inputs=33, seed=1)


def test_an_exception_of_no_class_of_ours_is_a_finding(monkeypatch: pytest.MonkeyPatch) -> None:
    def ask(data: bytes) -> str:
        raise KeyError(data)

    record = of(ask, monkeypatch)
    assert record.executions == 33
    (what,) = record.findings
    assert what.startswith("UNTYPED KeyError test_fuzz.py:")
    assert record.outcomes == {what: 33}


def test_an_error_of_ours_is_an_outcome(monkeypatch: pytest.MonkeyPatch) -> None:
    def ask(_: bytes) -> str:
        raise FileError("F101", value="x", expected="y", remedy="z")

    record = of(ask, monkeypatch)
    assert not record.findings
    assert record.outcomes == {"F101": 33}
    assert "33 inputs" in record.row


def test_another_outcome_the_second_time_is_a_finding(monkeypatch: pytest.MonkeyPatch) -> None:
    counted: list[bytes] = []

    def ask(data: bytes) -> str:
        counted.append(data)
        return f"call {len(counted)}"

    found = of(ask, monkeypatch).findings[run.OTHERWISE]
    assert found.reported == "call 1\nand then\ncall 2"


def test_what_takes_too_long_is_a_finding(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "_TOO_LONG", -1.0)
    assert set(of(lambda _: "read", monkeypatch).findings) == {run.SLOW}


def test_what_hangs_is_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "_HANGS", 0.01)

    def ask(_: bytes) -> str:
        while True:
            pass

    with run.stopping_what_hangs():
        record = of(ask, monkeypatch)
    assert all(what.startswith("UNTYPED HangError") for what in record.findings)


def test_a_finding_is_kept_and_told(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def ask(data: bytes) -> str:
        raise KeyError(data)

    target = Target(lambda _: b"an input", ask)
    monkeypatch.setitem(TARGETS, "words", target)
    arguments = ["--target", "words", "--inputs", "3", "--findings", str(tmp_path), "--unlimited"]
    assert main(arguments) == 1
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"an input"]
    assert "FINDING words number 0: UNTYPED KeyError" in capsys.readouterr().out
    monkeypatch.setitem(TARGETS, "words", Target(lambda _: b"", lambda _: "read"))
    assert main(arguments) == 0


def test_the_same_chance_makes_the_same_input() -> None:
    for name, target in TARGETS.items():
        first, second = (target.draw(chance_of(7, number)) for number in (1, 1))
        assert first == second, name


def test_spoiling_leaves_the_seed_as_it_is() -> None:
    before = seeds().tables[0]
    copied = repr(before)
    changed = [spoilt_table(chance_of(7, n), before, seeds().tables) for n in range(200)]
    assert repr(before) == copied
    assert sum(table != before for table in changed) > 150
    block = seeds().blocks[0]
    spoilt = [spoilt_bytes(chance_of(7, n), block, seeds().blocks) for n in range(200)]
    assert sum(data != block for data in spoilt) > 150
