"""Check the arguments of public functions against their annotations."""

from __future__ import annotations

import functools
import inspect
import itertools
import types
import typing
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from numbers import Integral, Real
from typing import Any, Literal, TypeVar, cast

from barwright.errors import SchemaError
from barwright.units import is_quantity, is_quantity_type

__all__ = ["checks_arguments", "fits"]

F = TypeVar("F", bound=Callable[..., Any])


def checks_arguments(question: F) -> F:
    """Make a public function refuse arguments of other types than it names.

    Figures are left to the reader of figures, which says more of them.

    Parameters
    ----------
    question : callable
        With annotations.

    Returns
    -------
    callable
        The same, which raises :class:`~barwright.errors.SchemaError`: S204 for a word
        that is not on the list, S203 for all else.

    Examples
    --------
    >>> @checks_arguments
    ... def doubled(count: int) -> int:
    ...     return 2 * count
    >>> doubled("5")
    Traceback (most recent call last):
    barwright.errors.SchemaError: S203: count: got '5', expected a whole number; pass one
    """
    places = _places(question)

    @functools.wraps(question)
    def checking(*given: Any, **named: Any) -> Any:  # noqa: ANN401 - whatever the question takes
        expected = _expected(question)
        for name, value in itertools.chain(zip(places(), given, strict=False), named.items()):
            if name in expected and not fits(value, expected[name]):
                raise _refusal(name, value, expected[name])
        return question(*given, **named)

    return cast("F", checking)


def _places(question: Callable[..., Any]) -> Callable[[], Iterable[str]]:
    """Names of what is given by its place; the last one for all the rest, if it takes them."""
    parameters = inspect.signature(question).parameters.values()
    by_place = [p.name for p in parameters if p.kind is p.POSITIONAL_OR_KEYWORD]
    rest = [p.name for p in parameters if p.kind is p.VAR_POSITIONAL]
    return lambda: itertools.chain(by_place, *map(itertools.repeat, rest))


@functools.cache
def _expected(question: Callable[..., Any]) -> Mapping[str, Any]:
    """Types of the arguments by name, known only when all of its module is."""
    hints = typing.get_type_hints(question)
    return {name: hint for name, hint in hints.items() if name != "return"}


# -- Types -----------------------------------------------------------------------------


def fits(value: Any, expected: Any) -> bool:  # noqa: ANN401 - any value and any annotation
    """Tell whether a value is of an annotated type; a bool is no number.

    Anything may be a figure, until the reader of figures has looked at it.

    Parameters
    ----------
    value : object
        Any value.
    expected : type or annotation
        A class, a union, a list of words, or a collection of one of these.

    Returns
    -------
    bool
    """
    origin, members, is_open = _taken_apart(expected)
    if is_open:
        return True
    if origin in (typing.Union, types.UnionType):
        return any(fits(value, member) for member in members)
    if origin is Literal:
        return isinstance(value, str) and value in members
    if expected in _NUMBERS:
        return isinstance(value, _NUMBERS[expected]) and not isinstance(value, bool)
    if not isinstance(value, origin or expected):
        return False
    return origin not in _COLLECTIONS or _holds(value, origin, members)


@functools.cache
def _taken_apart(expected: Any) -> tuple[Any, tuple[Any, ...], bool]:  # noqa: ANN401 - as fits
    """Origin and members of an annotation, and whether any value is of it."""
    is_open = expected is Any or isinstance(expected, TypeVar) or is_quantity_type(expected)
    return typing.get_origin(expected), typing.get_args(expected), is_open


_NUMBERS: dict[type, type] = {int: Integral, float: Real}
_COLLECTIONS = (Mapping, Sequence, Iterable, tuple)


def _holds(value: Any, origin: Any, members: tuple[Any, ...]) -> bool:  # noqa: ANN401 - as fits
    """Tell whether all in a collection is as annotated; what can be read but once is not looked at.

    A text is no sequence of texts.
    """
    if isinstance(value, Mapping):
        return origin is Mapping and all(all(map(fits, i, members)) for i in value.items())
    if isinstance(value, str | bytes) or is_quantity(value):
        return False
    if not isinstance(value, Collection):
        return True
    if origin is tuple and members[-1] is not Ellipsis:
        return len(value) == len(members) and all(map(fits, value, members))
    return all(fits(item, members[0]) for item in value)


# -- Words -----------------------------------------------------------------------------


def _refusal(name: str, value: object, expected: Any) -> SchemaError:  # noqa: ANN401 - as fits
    words = [m for m in _members(expected) if m is not type(None)]
    is_word = isinstance(value, str) and any(isinstance(word, str) for word in words)
    return SchemaError(
        "S204" if is_word else "S203",
        value=value,
        expected=" or ".join(dict.fromkeys(map(_named, words))),
        remedy=next(_remedies(expected), "pass one"),
        key=name,
    )


def _remedies(expected: Any) -> Iterator[str]:  # noqa: ANN401 - as fits
    """Say what helps to get a value of a type, or of a type in it."""
    if _name(expected) in _REMEDIES:
        yield _REMEDIES[_name(expected)]
    for member in typing.get_args(expected):
        yield from _remedies(member)


def _members(expected: Any) -> tuple[Any, ...]:  # noqa: ANN401 - as fits
    """Members of a union and of lists of words; any other annotation itself."""
    origin, members = typing.get_origin(expected), typing.get_args(expected)
    if origin in (typing.Union, types.UnionType):
        return tuple(itertools.chain.from_iterable(map(_members, members)))
    return members if origin is Literal else (expected,)


def _name(expected: Any) -> str:  # noqa: ANN401 - as fits
    return getattr(expected, "__name__", str(expected))


def _named(expected: Any) -> str:  # noqa: ANN401 - as fits
    """Name a type with its article."""
    if isinstance(expected, str):
        return repr(expected)
    name = _name(typing.get_origin(expected) or expected)
    if name in _WORDS:
        members = (m for m in typing.get_args(expected) if m is not Ellipsis)
        of = {"Sequence", "Iterable", "tuple"} & {name}
        each = " or ".join(dict.fromkeys(_named(m) for one in members for m in _members(one)))
        return f"{_WORDS[name]}, each {each}" if of else _WORDS[name]
    return f"an {name}" if name[0] in "AEIOU" else f"a {name}"


_WORDS = {
    "str": "text",
    "int": "a whole number",
    "float": "a number",
    "bool": "True or False",
    "PathLike": "a path",
    "Callable": "a function",
    "Mapping": "a mapping",
    "Sequence": "a list",
    "Iterable": "a list",
    "tuple": "a tuple",
}

_REMEDIES = {
    "Setup": "get one with Registry.discover().setup(id, corner='front left')",
    "Wanted": "pass Wanted(height='349 mm')",
    "Registry": "pass Registry.discover()",
    "Job": "read one with load_job(path, registry)",
    "Plan": "take one of the plans of reindex(setup)",
    "Bar": "get one with registry.part(id)",
    "Part": "get them with registry.parts()",
    "RateFigures": "take the figures of rates(setup)",
    "StrengthLimits": "pass StrengthLimits(permissible_shear='700 MPa')",
    "Lock": "read one with read_lock(path)",
    "LoadKind": "pass LoadKind.SPRUNG or LoadKind.SCALE_READING",
}
