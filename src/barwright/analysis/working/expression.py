"""Equations as trees: they are printed, and they say what they come to.

The right-hand side of a step is written in Python as on paper, ``PI * d**4 / 32``.  A tree is
the printed form alone: what a step comes to is told by the kernel that the answer uses, and
tests hold the two together.
"""

from __future__ import annotations

import abc
import math
from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

import attrs

__all__ = [
    "EXPRESSIONS",
    "FULL_TURN",
    "HALF_TURN",
    "PI",
    "Call",
    "Expression",
    "Number",
    "PerMetre",
    "Power",
    "Product",
    "Quotient",
    "Sum",
    "Symbol",
    "Values",
    "arccos",
    "arcsin",
    "arctan",
    "cos",
    "larger",
    "logarithm",
    "root",
    "sin",
    "size",
    "smaller",
    "total",
]

Values: TypeAlias = Mapping[str, float]
"""What the symbols stand for, in SI units."""


class Expression(abc.ABC):
    """A tree of symbols and numbers."""

    @abc.abstractmethod
    def value(self, values: Values) -> float:
        """Return what it comes to."""

    @property
    def parts(self) -> tuple[Expression, ...]:
        """The trees that it is made of."""
        return ()

    @property
    def symbols(self) -> Iterator[str]:
        """Names of all symbols in it."""
        for part in self.parts:
            yield from part.symbols

    def __add__(self, other: Expression | float) -> Expression:
        """Add another tree."""
        return Sum((*_terms(self), (1, _tree(other))))

    def __radd__(self, other: float) -> Expression:
        """Add it to a number."""
        return _tree(other) + self

    def __sub__(self, other: Expression | float) -> Expression:
        """Take another tree off."""
        return Sum((*_terms(self), (-1, _tree(other))))

    def __rsub__(self, other: float) -> Expression:
        """Take it off a number."""
        return _tree(other) - self

    def __neg__(self) -> Expression:
        """Turn its sign."""
        return Sum(((-1, self),))

    def __mul__(self, other: Expression | float) -> Expression:
        """Multiply it."""
        return Product((*_factors(self), _tree(other)))

    def __rmul__(self, other: float) -> Expression:
        """Multiply a number by it."""
        return Product((_tree(other), self))

    def __truediv__(self, other: Expression | float) -> Expression:
        """Divide it."""
        return Quotient(self, _tree(other))

    def __rtruediv__(self, other: float) -> Expression:
        """Divide a number by it."""
        return Quotient(_tree(other), self)

    def __pow__(self, power: int) -> Expression:
        """Raise it to a whole power."""
        return Power(self, power)


@attrs.frozen
class Symbol(Expression):
    """A symbol, like ``k_b``.

    Parameters
    ----------
    name : str
        What stands behind ``_`` is its index.
    """

    name: str

    def value(self, values: Values) -> float:
        """Return what it stands for."""
        return values[self.name]

    @property
    def symbols(self) -> Iterator[str]:
        """Its name."""
        yield self.name


@attrs.frozen
class PerMetre(Expression):
    """A rate for each metre or foot, where it meets a mass."""

    rate: Symbol

    def value(self, values: Values) -> float:
        """Return the rate."""
        return self.rate.value(values)

    @property
    def parts(self) -> tuple[Expression, ...]:
        """The rate."""
        return (self.rate,)


@attrs.frozen
class Number(Expression):
    """A number of the equation itself.

    Parameters
    ----------
    number : float
        What it is.
    text : str
        How it is written.
    """

    number: float
    text: str

    def value(self, values: Values) -> float:
        """Return the number."""
        del values
        return self.number


@attrs.frozen
class Sum(Expression):
    """Terms, each added or taken off."""

    terms: tuple[tuple[int, Expression], ...]

    def value(self, values: Values) -> float:
        """Return what it comes to."""
        return sum(sign * term.value(values) for sign, term in self.terms)

    @property
    def parts(self) -> tuple[Expression, ...]:
        """Its terms."""
        return tuple(term for _, term in self.terms)


@attrs.frozen
class Product(Expression):
    """Factors."""

    factors: tuple[Expression, ...]

    def value(self, values: Values) -> float:
        """Return what it comes to."""
        return math.prod(factor.value(values) for factor in self.factors)

    @property
    def parts(self) -> tuple[Expression, ...]:
        """Its factors."""
        return self.factors


@attrs.frozen
class Quotient(Expression):
    """One tree divided by another."""

    top: Expression
    bottom: Expression

    def value(self, values: Values) -> float:
        """Return what it comes to."""
        return self.top.value(values) / self.bottom.value(values)

    @property
    def parts(self) -> tuple[Expression, ...]:
        """What is divided, and by what."""
        return self.top, self.bottom


@attrs.frozen
class Power(Expression):
    """A tree to a whole power."""

    base: Expression
    power: int

    def value(self, values: Values) -> float:
        """Return what it comes to."""
        raised: float = self.base.value(values) ** self.power
        return raised

    @property
    def parts(self) -> tuple[Expression, ...]:
        """What is raised."""
        return (self.base,)


@attrs.frozen
class Call(Expression):
    """A function of one or more trees.

    Parameters
    ----------
    name : str
        How the function is written.
    arguments : tuple of Expression
        What it is of.
    """

    name: str
    arguments: tuple[Expression, ...]

    def value(self, values: Values) -> float:
        """Return what it comes to."""
        return _FUNCTIONS[self.name](*(one.value(values) for one in self.arguments))

    @property
    def parts(self) -> tuple[Expression, ...]:
        """What it is of."""
        return self.arguments

    @property
    def takes_angle(self) -> bool:
        """Whether it is a function of an angle."""
        return self.name in {"cos", "sin"}


EXPRESSIONS = (Symbol, PerMetre, Number, Sum, Product, Quotient, Power, Call)
"""All classes of trees: which fields one has tells them apart, the first that has these."""

_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "cos": math.cos,
    "sin": math.sin,
    "arctan": math.atan,
    "arccos": math.acos,
    "arcsin": math.asin,
    "√": math.sqrt,
    "ln": math.log,
    "min": min,
    "max": max,
    "abs": abs,
}

PI = Number(math.pi, "π")
HALF_TURN = Number(math.pi, "180°")
FULL_TURN = Number(2.0 * math.pi, "360°")


def cos(angle: Expression) -> Expression:
    """Cosine of an angle."""
    return Call("cos", (angle,))


def sin(angle: Expression) -> Expression:
    """Sine of an angle."""
    return Call("sin", (angle,))


def arctan(ratio: Expression) -> Expression:
    """Angle with a tangent."""
    return Call("arctan", (ratio,))


def arccos(ratio: Expression) -> Expression:
    """Angle with a cosine."""
    return Call("arccos", (ratio,))


def arcsin(ratio: Expression) -> Expression:
    """Angle with a sine."""
    return Call("arcsin", (ratio,))


def root(of: Expression) -> Expression:
    """Square root."""
    return Call("√", (of,))


def logarithm(of: Expression) -> Expression:
    """Natural logarithm."""
    return Call("ln", (of,))


def smaller(*of: Expression | float) -> Expression:
    """Smallest of several."""
    return Call("min", tuple(map(_tree, of)))


def larger(*of: Expression | float) -> Expression:
    """Largest of several."""
    return Call("max", tuple(map(_tree, of)))


def size(of: Expression) -> Expression:
    """Size without its sign."""
    return Call("abs", (of,))


def total(first: Expression, *further: Expression) -> Expression:
    """Sum of one or more trees."""
    found = first
    for term in further:
        found = found + term
    return found


def _tree(value: Expression | float) -> Expression:
    return value if isinstance(value, Expression) else Number(float(value), f"{value:g}")


def _terms(tree: Expression) -> tuple[tuple[int, Expression], ...]:
    return tree.terms if isinstance(tree, Sum) else ((1, tree),)


def _factors(tree: Expression) -> tuple[Expression, ...]:
    return tree.factors if isinstance(tree, Product) else (tree,)
