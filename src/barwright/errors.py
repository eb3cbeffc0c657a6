"""Every error that barwright raises on purpose, and the catalogue of their codes.

A code is never used again for anything else.  ``docs/errors.md`` explains each
one, and a test raises each one.
"""

from __future__ import annotations

import enum
from typing import Any, ClassVar, Self

__all__ = [
    "CODES",
    "BarwrightError",
    "ClusterError",
    "DocumentError",
    "ExitCode",
    "FileError",
    "GeometryError",
    "JobError",
    "LockError",
    "MissingExtraError",
    "NeedsError",
    "NoFigureError",
    "NotConvergedError",
    "PackError",
    "QuantityError",
    "SchemaError",
    "TableError",
    "UnknownNameError",
]

CODES = {
    "Q101": "a comma where a decimal point is expected",
    "Q102": "a fraction instead of a decimal number",
    "Q103": "a quotation mark instead of a unit of length",
    "Q104": "text that is not one number and one unit",
    "Q105": "a number without a unit",
    "Q201": "a unit that is not on the list of spellings",
    "Q202": "a unit of another kind of quantity",
    "Q301": "a figure that is not a finite number",
    "Q302": "a figure outside the range that is physically possible",
    "Q303": "a tolerance that is not a tolerance of its figure",
    "Q304": "an estimated figure without its range",
    "Q401": "a figure of a record or an answer changed in place",
    "Q402": "an application's registry of units without our units",
    "G101": "an arm that cannot reach its damper or strut",
    "G102": "a lever and bolt that do not form a triangle",
    "G103": "a bar whose ends and tapers do not fit into its length",
    "G104": "a bore that leaves no wall",
    "G105": "a bar axis or an arm without a usable direction",
    "G106": "limits of travel that leave no travel",
    "G107": "a spline whose roots lie outside its tips",
    "G108": "a damper that does not shorten all the way from droop to bump",
    "G109": "a tube whose lever does not lie before its socket",
    "G110": "an arm axis that is not parallel to the bar axis",
    "G111": "an upright that lies down between its wishbones",
    "N101": "an iteration that did not converge",
    "N201": "a figure that an answer does not have",
    "N301": "a figure that is not known and is needed",
    "F101": "a file that cannot be read",
    "F102": "a file that is not UTF-8 text",
    "F103": "a file that is not TOML",
    "F104": "a file that is too large or too deeply nested",
    "F105": "a folder without job files",
    "F106": "a key, a text or a number that is too long",
    "F107": "a pack that is too large",
    "F108": "a data file whose name is not plain",
    "F109": "a data file that is not a regular file",
    "F110": "a file that is not a table",
    "F201": "an output that cannot be written",
    "F202": "an output that would overwrite an input",
    "F203": "parts of other work beside an output",
    "S201": "a key that is not allowed there",
    "S202": "a key that is missing",
    "S203": "a value of the wrong type",
    "S204": "a word that is not on the list",
    "S205": "an identifier that is not written as one",
    "S206": "a reference to nothing",
    "S207": "a value that does not go together with another",
    "S208": "an answer in JSON that this version cannot read",
    "D101": "a job file with problems",
    "L101": "an unknown vehicle",
    "L102": "an unknown part",
    "L103": "an unknown corner of a vehicle",
    "L104": "a description that fits several vehicles",
    "L105": "an unknown code or rule",
    "J101": "a part of another kind than the key needs",
    "J102": "several jobs where one is expected, or too many jobs",
    "J103": "two jobs without a corner in common",
    "J104": "readings from which no rate can be kept",
    "J105": "a figure of a job that contradicts the vehicle's pack",
    "P101": "a pack with problems",
    "P201": "a pack whose folder cannot be found",
    "P202": "an installed pack in an archive",
    "P301": "an identifier claimed by two packs",
    "P401": "a pack written for another version of the format",
    "P402": "a pack that requires another version of barwright",
    "P501": "a pack that differs from the lock",
    "P502": "a lock with problems",
    "T101": "a table with rows that cannot be used",
    "U101": "a fault of the program",
    "C101": "a cluster that cannot do a part of the work",
    "X101": "an optional dependency that is not installed",
}
"""What each code stands for, in one line."""


class ExitCode(enum.IntEnum):
    """Exit code of a command; :attr:`meaning` explains it."""

    FINE = 0
    NO = 1
    BAD_INPUT = 2
    FAULT = 3
    INTERRUPTED = 130

    @property
    def meaning(self) -> str:
        """The code in words."""
        return _MEANINGS[self]

    @classmethod
    def listed(cls) -> str:
        """All codes with their meanings, in one line."""
        return "; ".join(f"{code.value} {code.meaning}" for code in cls)


_MEANINGS = {
    ExitCode.FINE: "fine",
    ExitCode.NO: "the answer is no, or needs more figures",
    ExitCode.BAD_INPUT: "bad input",
    ExitCode.FAULT: "a fault of the program or of a data pack",
    ExitCode.INTERRUPTED: "interrupted",
}

_LONGEST = 80


class BarwrightError(Exception):
    """Base of all errors that barwright raises.

    Parameters
    ----------
    code : str
        Stable code, a key of :data:`CODES`.
    value : object
        The value that was refused.
    expected : str
        What would have been accepted.
    remedy : str
        What to do about it.
    key : str
        Argument, field or path of keys with the value.
    file : str
        File that the value was read from, if any.
    line : int
        Line of that file, 0 where it is not known.

    Examples
    --------
    >>> from barwright.errors import QuantityError
    >>> print(QuantityError("Q105", value="25", expected="a length",
    ...                     remedy="write '25 mm'", key="diameter"))
    Q105: diameter: got '25', expected a length; write '25 mm'
    """

    exit_code: int = ExitCode.BAD_INPUT

    def __init__(
        self,
        code: str,
        *,
        value: object,
        expected: str,
        remedy: str,
        key: str = "",
        file: str = "",
        line: int = 0,
    ) -> None:
        super().__init__(code)
        self.code = code
        self.value = _shown(value)
        self.expected = expected
        self.remedy = remedy
        self.key = key
        self.file = file
        self.line = line

    @property
    def fields(self) -> dict[str, Any]:
        """All fields by name, the code first: what a script reads."""
        names = ("code", "value", "expected", "remedy", "key", "file", "line")
        return {name: getattr(self, name) for name in names}

    @property
    def where(self) -> str:
        """File, line and key in one piece of text; empty if nothing is known."""
        file = f"{self.file}:{self.line}" if self.line else self.file
        return ": ".join(part for part in (file, self.key) if part)

    def within(self, *, key: str = "", file: str = "") -> Self:
        """Return the same error, seen from one level further out.

        Parameters
        ----------
        key : str
            Key of the table that holds :attr:`key`.
        file : str
            File that it stands in, unless one is already named.
        """
        joined = key + self.key if self.key.startswith("[") else f"{key}.{self.key}"
        outer = {"key": joined.strip("."), "file": self.file or file}
        return type(self)(**(self.fields | outer))

    def __str__(self) -> str:
        """Code, place, value, expectation and remedy in one line, all of it visible."""
        place = f"{self.where}: " if self.where else ""
        return _visible(
            f"{self.code}: {place}got {self.value!r}, expected {self.expected}; {self.remedy}"
        )

    def __reduce__(self) -> tuple[Any, ...]:
        """Survive pickling although every field but the code is keyword-only."""
        return _rebuild, (type(self), self.fields)


class QuantityError(BarwrightError, ValueError):
    """A figure, its unit or its size cannot be accepted."""


class GeometryError(BarwrightError, ValueError):
    """Dimensions that no real part or linkage can have together."""


class NotConvergedError(BarwrightError, ArithmeticError):
    """An iteration ended without an answer: a fault of the program."""

    exit_code = ExitCode.FAULT


class FileError(BarwrightError, OSError):
    """A file cannot be read, understood or written."""


class SchemaError(BarwrightError, ValueError):
    """A file or a call contains a key or a value that does not belong there."""


class UnknownNameError(BarwrightError, LookupError):
    """No vehicle, part or corner of that name, or several; the remedy says what to name instead."""


class NoFigureError(BarwrightError, LookupError):
    """An answer lacks the figure, because it is a no or the figure was not requested."""


class NeedsError(BarwrightError, LookupError):
    """A question needs a figure that is not known.

    Parameters
    ----------
    code, value, expected, remedy, key, file, line : object
        As for every error.
    needed : object
        The unknown itself: where it stands in a setup tells which figure it is.
    """

    exit_code = ExitCode.NO

    def __init__(self, code: str, *, needed: object = None, **fields: Any) -> None:  # noqa: ANN401
        super().__init__(code, **fields)
        self.needed = needed

    def within(self, *, key: str = "", file: str = "") -> Self:
        """Return the same need, seen from one level further out."""
        outer = super().within(key=key, file=file)
        outer.needed = self.needed
        return outer


class JobError(BarwrightError, ValueError):
    """A job asks for something that contradicts itself."""


class MissingExtraError(BarwrightError, ImportError):
    """A feature needs an optional dependency that is not installed."""


class ClusterError(BarwrightError, RuntimeError):
    """A cluster of machines cannot do what it is asked for."""

    exit_code = ExitCode.FAULT


class DocumentError(BarwrightError, ValueError):
    """All problems of one document at once.

    Parameters
    ----------
    code : str
        Stable code.
    problems : tuple of BarwrightError
        Every problem found, in the order of the document.
    file : str
        The document.
    """

    _name: ClassVar[str] = "the job file"

    def __init__(self, code: str, *, problems: tuple[BarwrightError, ...], file: str) -> None:
        super().__init__(
            code,
            value=f"{len(problems)} problem(s)",
            expected=f"none in {self._name}",
            remedy="see each problem",
            file=file,
        )
        self.problems = problems

    def within(self, *, key: str = "", file: str = "") -> Self:
        """Return the same problems, each seen from one level further out."""
        problems = tuple(problem.within(key=key, file=file) for problem in self.problems)
        return type(self)(self.code, problems=problems, file=self.file or file)

    def __str__(self) -> str:
        """Every problem on a line of its own."""
        return "\n".join(str(problem) for problem in self.problems)

    def __reduce__(self) -> tuple[Any, ...]:
        """Survive pickling with all problems."""
        held = {"code": self.code, "problems": self.problems, "file": self.file}
        return _rebuild, (type(self), held)


class PackError(DocumentError):
    """All problems of one data pack at once; the pack is left out."""

    exit_code = ExitCode.FAULT
    _name = "the pack"


class TableError(DocumentError):
    """All problems of the rows of a table at once; nothing is made of it."""

    _name = "the table"


class LockError(DocumentError):
    """A registry differs from its lock, or a lock cannot be read."""

    _name = "the lock or the packs"


def _rebuild(cls: type[BarwrightError], fields: dict[str, Any]) -> BarwrightError:
    return cls(**fields)


def _visible(text: str) -> str:
    """Escape invisible characters in a key or a file name."""
    return "".join(c if c.isprintable() else repr(c)[1:-1] for c in text)


def _shown(value: object) -> str:
    """Text of a value, shortened to fit a terminal."""
    try:
        text = value if isinstance(value, str) else repr(value)
    except (ValueError, RecursionError):
        text = f"{type(value).__name__}, too large to show"
    return text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
