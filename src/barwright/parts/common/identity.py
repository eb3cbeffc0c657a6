"""Months in which a vehicle was built, as in ISO 8601, and numbers of parts."""

from __future__ import annotations

import re
from typing import ClassVar, Self

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.fields import count, named
from barwright.parts.common.in_short import Summarised

__all__ = ["LONGEST_NUMBER", "SYSTEM", "Month", "PartNumber", "month"]

_MONTHS = 12

SYSTEM = r"[a-z0-9][a-z0-9.-]{0,63}"
"""Pattern of the name of a system of part numbers."""

LONGEST_NUMBER = 64
"""Characters of a part number."""


@attrs.frozen(order=True, field_transformer=named, repr=False)
class Month(Summarised):
    """A month of a year; earlier ones are less than later ones.

    Parameters
    ----------
    year : int
        With four digits.
    month : int
        From 1 for January to 12 for December.

    Examples
    --------
    >>> str(Month(2011, 3))
    '2011-03'
    >>> Month.of("2011-03") < Month.of("2011-11")
    True
    """

    PATTERN: ClassVar[str] = r"[1-9][0-9]{3}-(?:0[1-9]|1[0-2])"

    year: int = attrs.field(converter=count)
    month: int = attrs.field(converter=count)

    def __attrs_post_init__(self) -> None:
        """Refuse what has no place in a calendar."""
        _check_spelling(str(self))

    @classmethod
    def of(cls, text: str) -> Self:
        """Read a month.

        Parameters
        ----------
        text : str
            Year and month, such as ``"2011-03"``.

        Returns
        -------
        Month

        Raises
        ------
        SchemaError
            S203 if it is no text, S204 if it is not spelled as a month.
        """
        if not isinstance(text, str):
            raise SchemaError(
                "S203", value=text, expected="a month as text", remedy="write it like '2011-03'"
            )
        _check_spelling(text)
        year, _, month = text.partition("-")
        return cls(int(year), int(month))

    @property
    def number(self) -> int:
        """Count of months from January of the year 0."""
        return self.year * _MONTHS + self.month - 1

    def __str__(self) -> str:
        """Year and month, such as "2011-03"."""
        return f"{self.year}-{self.month:02}"


@attrs.frozen(field_transformer=named, repr=False)
class PartNumber(Summarised):
    """A number that a part is ordered or filed by.

    Parameters
    ----------
    number_system : str
        Whose numbers these are: a name of small letters, digits, points and hyphens.
    number : str
        As it is written there: one line with a letter or a digit, at most 64 characters.

    Raises
    ------
    SchemaError
        S205 for a name of a system, S204 for a number that is spelled otherwise.

    Examples
    --------
    >>> str(PartNumber("works", "71-20 455"))
    'works 71-20 455'
    """

    number_system: str
    number: str

    def __attrs_post_init__(self) -> None:
        """Refuse what nobody could order by."""
        if not re.fullmatch(SYSTEM, self.number_system):
            raise SchemaError(
                "S205",
                value=self.number_system,
                expected="small letters, digits, points and hyphens, at most 64",
                remedy="name the system of the numbers like 'works' or 'counter'",
            )
        if not _is_number(self.number):
            raise SchemaError(
                "S204",
                value=self.number,
                expected="a part number: one line with a letter or a digit, "
                f"at most {LONGEST_NUMBER} characters",
                remedy="write it as it stands on the part, like '71-20 455'",
                key=self.number_system,
            )

    def __str__(self) -> str:
        """System and number, such as "works 71-20 455"."""
        return f"{self.number_system} {self.number}"


def _is_number(text: str) -> bool:
    readable = text.isprintable() and any(map(str.isalnum, text))
    return readable and len(text) <= LONGEST_NUMBER


def month(value: str | Month) -> Month:
    """Accept a month, or the text of one."""
    return value if isinstance(value, Month) else Month.of(value)


def _check_spelling(text: str) -> None:
    if not re.fullmatch(Month.PATTERN, text):
        raise SchemaError(
            "S204",
            value=text,
            expected="a year of four digits and a month from 01 to 12",
            remedy="write it like '2011-03'",
        )
