"""Reading a history of wheel travel."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw


def written(folder: Path, text: str) -> Path:
    path = folder / "road.txt"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_line_is_a_travel_and_the_rest_is_passed_over(tmp_path: Path) -> None:
    path = written(tmp_path, "# a road\n0 mm\n\n  -12.5 mm  # a hole\n1 in\n")
    history = bw.load_history(path)
    assert history.m_as("mm").tolist() == pytest.approx([0.0, -12.5, 25.4])
    assert not history.magnitude.flags.writeable
    assert bw.load_history(str(path)).magnitude.tolist() == history.magnitude.tolist()


def test_a_file_without_travels_is_an_empty_history(tmp_path: Path) -> None:
    assert bw.load_history(written(tmp_path, "# nothing\n")).magnitude.tolist() == []


def test_every_wrong_line_is_told_with_its_number(tmp_path: Path) -> None:
    path = written(tmp_path, "0 mm\n12,5 mm\n3 mm\n7 N\n")
    with pytest.raises(bw.DocumentError) as caught:
        bw.load_history(path)
    assert (caught.value.code, caught.value.file) == ("D101", str(path))
    reported = [(p.code, p.line, p.file, p.key) for p in caught.value.problems]
    assert reported == [("Q101", 2, str(path), "travel"), ("Q202", 4, str(path), "travel")]
    assert all(isinstance(problem, bw.QuantityError) for problem in caught.value.problems)


def test_a_file_of_another_form_is_left_after_twenty_lines(tmp_path: Path) -> None:
    path = written(tmp_path, "1;2;3\n" * 21)
    with pytest.raises(bw.DocumentError) as caught:
        bw.load_history(path)
    assert [problem.line for problem in caught.value.problems] == list(range(1, 21))


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    with pytest.raises(bw.FileError) as caught:
        bw.load_history(tmp_path / "none.txt")
    assert caught.value.code == "F101"
