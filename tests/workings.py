"""The printed text of a working, read and computed again by nothing but what stands in it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

import attrs

__all__ = ["PrintedStep", "computed_again", "printed_steps", "put_in_wrongly", "value_of"]

_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")
_NUMBER = r"\d+(?:\.\d+)?"
_FUNCTIONS = {
    "cos": math.cos,
    "sin": math.sin,
    "arctan": math.atan,
    "arccos": math.acos,
    "arcsin": math.asin,
    "sqrt": math.sqrt,
    "ln": math.log,
    "abs": abs,
    "min": min,
    "max": max,
    "pi": math.pi,
    "__builtins__": {},
}
# Fewer digits than this are all that a figure has.
_GUARDED = 7
# What a change of units leaves of a figure that is given: twelve digits.
_FULL = 1e-11


@attrs.frozen
class PrintedStep:
    """A step as it is printed: its symbol, and its rows without their marks."""

    symbol: str
    rows: tuple[str, ...]

    @property
    def is_balance(self) -> bool:
        """Whether it puts a solved figure in."""
        return not self.symbol


def printed_steps(text: str) -> Iterator[PrintedStep]:
    """Read the steps of a printed working; rows that are folded are joined."""
    for block in re.split(r"\n\s*\n", text):
        rows = _rows(block)
        if rows:
            symbol = rows[0].partition(" = ")[0].strip() if " left: " not in block else ""
            yield PrintedStep(symbol, tuple(_without_mark(row, symbol) for row in rows))


def _rows(block: str) -> list[str]:
    rows: list[str] = []
    for line in block.splitlines():
        if re.match(r" {4}\S.* = |  +(?:= |left: |right: )", line) and "from:" not in line:
            rows.append(line.strip())
        elif rows and line.startswith("        "):
            rows[-1] += f" {line.strip()}"
    return rows


def _without_mark(row: str, symbol: str) -> str:
    return re.sub(rf"^(?:{re.escape(symbol)} )?= |^(?:left|right): ", "", row)


def computed_again(step: PrintedStep) -> Iterator[tuple[float, float, float]]:
    """Compute each row with numbers again: what comes out, what is printed, what may differ."""
    if step.is_balance:
        for row in step.rows[1:]:
            left, _, result = row.rpartition(" = ")
            yield _compared(left, result)
        first, second = (_number(row.rpartition(" = ")[2]) for row in step.rows[1:])
        yield first[0], second[0], first[1] + second[1]
    elif len(step.rows) > 1:
        yield _compared(step.rows[1], step.rows[2].partition(" = ")[0])


def _compared(sides: str, result: str) -> tuple[float, float, float]:
    printed, half = _number(result)
    found = value_of(sides)
    spread = sum(abs(value_of(sides, shifted=place) - found) for place in range(_many(sides)))
    return found, printed, spread + half + 1e-9 * abs(found)


def _number(text: str) -> tuple[float, float]:
    """Value of a printed result, and half of its last place; degrees as radians."""
    found = re.match(rf"-?{_NUMBER}", text)
    assert found, text
    places = len(found[0].partition(".")[2])
    size = math.pi / 180.0 if re.search(r"°$", text.strip()) else 1.0
    return float(found[0]) * size, 0.5000001 * 10.0**-places * size


def _many(sides: str) -> int:
    return len(re.findall(_NUMBER, sides))


def value_of(sides: str, *, shifted: int = -1) -> float:
    """Work a side out, with one of its numbers half of its last place greater."""
    counted = iter(range(10**6))

    def put(found: re.Match[str]) -> str:
        number = float(found[1])
        if next(counted) == shifted:
            number += _half(found[1])
        return f"({number!r} * pi / 180)" if found[2] else f"{number!r}"

    text = re.sub(r"([⁰¹²³⁴⁵⁶⁷⁸⁹]+)", lambda found: f"**§{found[1].translate(_RAISED)}", sides)
    text = re.sub(rf"(?<![\d§.])({_NUMBER})(°?)", put, text).replace("§", "")
    text = text.replace("·", "*").replace("√", "sqrt").replace("π", "pi")
    value: float = eval(text, dict(_FUNCTIONS))  # noqa: S307 - a formula that was printed here
    return value


def _half(number: str) -> float:
    """Half of the last place of a computed figure; rounding of units alone of a given one."""
    digits = len(number.replace(".", "").lstrip("0"))
    is_zero = not float(number)
    if digits < _GUARDED and not is_zero:
        return 0.0
    if digits > _GUARDED + 2 and "." in number:
        return _FULL * float(number)
    return 0.5 * 10.0 ** -len(number.partition(".")[2])


# -- Whether the figures are those that were found -----------------------------------

_NAME = r"[^\W\d⁰¹²³⁴⁵⁶⁷⁸⁹](?:(?![⁰¹²³⁴⁵⁶⁷⁸⁹])[\w'])*"
_TOKEN = re.compile(
    rf"(?P<number>\d+(?:\.\d+)?°?)|(?P<word>{_NAME})|(?P<sign>[-+·/(),√⁰¹²³⁴⁵⁶⁷⁸⁹])"
)
_WORDS = frozenset({*_FUNCTIONS, "π"})


def put_in_wrongly(step: PrintedStep, known: dict[str, set[str]]) -> list[str]:
    """List the symbols of a step for which another number is put in than was printed for it."""
    pairs = [step.rows[:2]] if not step.is_balance else _sides(step)
    return [fault for names, numbers in pairs for fault in _faults(names, numbers, known)]


def _sides(step: PrintedStep) -> list[tuple[str, ...]]:
    names = step.rows[0].split(" = ")
    return list(zip(names, (row.rpartition(" = ")[0] for row in step.rows[1:]), strict=True))


def _faults(names: str, numbers: str, known: dict[str, set[str]]) -> Iterator[str]:
    """Compare an equation with the figures put in; where parentheses stand is for the sums."""
    pattern, used = "", []
    for token in _TOKEN.finditer(names):
        if token["word"] is None or token["word"] in _WORDS:
            pattern += "" if token[0] in "()" else re.escape(token[0])
        elif token["word"] not in known:
            yield f"{token['word']} is not explained"
            return
        else:
            used.append(token["word"])
            pattern += f"({'|'.join(map(re.escape, known[token['word']]))})"
    bare = re.sub(r"[\s()]", "", numbers)
    found = re.fullmatch(pattern, bare)
    if found is None:
        yield f"{names}: {numbers}"
        return
    put_in = iter(found.groups())
    again = re.sub(_NAME, lambda name: name[0] if name[0] in _WORDS else f"({next(put_in)})", names)
    if not math.isclose(value_of(again), value_of(numbers), rel_tol=1e-12, abs_tol=1e-12):
        yield f"{names}: {numbers}, and not {again}"
