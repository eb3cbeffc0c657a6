"""A figure that nobody knows yet: it stands in a record like any other, and tells so when used."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NoReturn, cast

from barwright.errors import NeedsError
from barwright.units.kept import Kept

if TYPE_CHECKING:
    from pint.facets.plain import PlainQuantity

__all__ = ["UNKNOWN", "UnknownCount", "is_unknown", "unknown", "unknown_count"]

UNKNOWN = "unknown"
"""What stands in a file for a figure that is not known."""


def _raise(needed: object, *_: object) -> NoReturn:
    """Say that a figure is needed that is not known."""
    raise NeedsError(
        "N301",
        value=UNKNOWN,
        expected="a figure that is known",
        remedy="measure it, or look it up, and write it into the record",
        needed=needed,
    )


class _WithoutNumber:
    """What a figure and a count have in common that nobody knows: the word, and being alike."""

    __slots__ = ()

    def __eq__(self, other: object) -> bool:
        """Tell whether the other one is unknown too: a record of unknown figures equals itself."""
        return is_unknown(other)

    def __hash__(self) -> int:
        """All are alike."""
        return hash(UNKNOWN)

    def __repr__(self) -> str:
        """Text for a developer."""
        return f"<{UNKNOWN}>"

    def __str__(self) -> str:
        """Text for a reader."""
        return UNKNOWN

    def __format__(self, _: str) -> str:
        """Text for a reader, in whatever form was asked for."""
        return UNKNOWN


class _Unknown(_WithoutNumber, Kept):
    """A quantity without a number: whatever asks for its number or unit learns what is needed."""

    _magnitude = property(_raise)
    spelling = property(_raise)

    def __getattr__(self, name: str) -> NoReturn:
        """Have no attribute that no figure has: whoever looks for one may find none."""
        raise AttributeError(name)

    def __copy__(self) -> _Unknown:
        """Make another one."""
        return object.__new__(_Unknown)

    def __deepcopy__(self, memo: dict[int, Any]) -> _Unknown:
        """Make another one."""
        return object.__new__(_Unknown)

    def __reduce__(self) -> tuple[Any, ...]:
        """Survive pickling."""
        return unknown, ()


class UnknownCount(_WithoutNumber):
    """A count, of teeth say, that is not known: whatever computes with it learns what is needed."""

    __slots__ = ()

    for _name in (
        *("abs", "add", "bool", "ceil", "complex", "divmod", "float", "floor", "floordiv"),
        *("ge", "gt", "index", "int", "le", "lt", "mod", "mul", "neg", "pos", "pow"),
        *("radd", "rdivmod", "rfloordiv", "rmod", "rmul", "round", "rpow", "rsub"),
        *("rtruediv", "sub", "truediv", "trunc"),
    ):
        vars()[f"__{_name}__"] = _raise
    del _name

    def __reduce__(self) -> tuple[Any, ...]:
        """Survive pickling."""
        return unknown_count, ()


# To ask for the class of a quantity that is none of its own is slow.
_WITHOUT_NUMBER = frozenset({_Unknown, UnknownCount})


def unknown() -> PlainQuantity[float]:
    """Make a figure that is not known.

    Returns
    -------
    Quantity
        One of its own: where it stands in a setup tells which figure it is.

    Examples
    --------
    >>> from barwright.units import is_unknown, unknown
    >>> is_unknown(unknown())
    True
    """
    return cast("PlainQuantity[float]", object.__new__(_Unknown))


def unknown_count() -> int:
    """Make a count that is not known.

    Returns
    -------
    int
        As far as a type checker sees; it has no number.

    Examples
    --------
    >>> from barwright.units import is_unknown, unknown_count
    >>> is_unknown(unknown_count())
    True
    """
    return cast("int", UnknownCount())


def is_unknown(value: object) -> bool:
    """Tell whether a value is a figure or a count that is not known.

    Parameters
    ----------
    value : object
        Whatever a field holds.

    Returns
    -------
    bool

    Examples
    --------
    >>> from barwright.units import LENGTH, is_unknown, quantity
    >>> is_unknown(quantity(0.1, LENGTH))
    False
    """
    return type(value) in _WITHOUT_NUMBER
