"""The application's registry of units, and quantities that nothing can change.

All who use a registry of parts share its records: a figure that one of them converted in
place would be another figure for all.
"""

from __future__ import annotations

import functools
import threading
from typing import Any, NoReturn, cast

import numpy as np
import pint
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.units.kinds import UNITS

__all__ = ["kept", "kept_class", "pint_unit", "registry"]

_lock = threading.Lock()


@functools.cache
def registry() -> pint.UnitRegistry[Any]:
    """Return the application's unit registry, built once.

    Its lazy form fails when several threads touch it first.
    """
    with _lock:
        application = pint.get_application_registry()  # type: ignore[no-untyped-call]
        application.parse_units("meter")
        return cast("pint.UnitRegistry[Any]", application.get())


@functools.cache
def pint_unit(spelling: str) -> Any:  # noqa: ANN401 - pint's unit class is private
    """Return pint's unit for one of our spellings."""
    return registry().parse_units(UNITS[spelling].pint_name)


@functools.cache
def kept_class() -> type[pint.Quantity[Any]]:
    """Return the class of what records and answers hold: a quantity that nothing can change.

    All who use a registry share its records.  What is computed from such a quantity,
    converted or copied, is a new one of the registry's own class and can be changed.
    """
    plain = registry().Quantity
    # Pint makes its results with the class that a quantity has, or says it has.
    namespace: dict[str, Any] = {
        "__class__": property(lambda _: plain),
        "__new__": lambda _, *arguments, **named: plain(*arguments, **named),
        "__setattr__": _remember_or_refuse,
    }
    # ``a += b`` then binds a new quantity to the name, as for numbers.
    namespace |= {f"__i{name}__": getattr(plain, f"__{name}__") for name in _OPERATORS}
    namespace |= {name: _refuse_change for name in dir(plain) if name.startswith("ito")}
    return type(plain.__name__, (plain,), namespace)


_OPERATORS = ("add", "sub", "mul", "truediv", "floordiv", "mod", "pow")


def _remember_or_refuse(self: pint.Quantity[Any], name: str, value: object) -> None:
    """Let pint keep the dimension that it has found, and nothing else."""
    if name != "_dimensionality":
        _refuse_change(self)
    object.__setattr__(self, name, value)


def _refuse_change(self: pint.Quantity[Any], *_: object, **__: object) -> NoReturn:
    raise QuantityError(
        "Q401",
        value=str(self),
        expected="a quantity of your own to change",
        remedy="take a new one, as .to('mm') and arithmetic give it",
    )


def kept(
    magnitude: float | NDArray[np.float64],
    unit: Any,  # noqa: ANN401 - pint's unit class is private
) -> pint.Quantity[Any]:
    """Make a quantity that nothing can change."""
    made: pint.Quantity[Any] = object.__new__(kept_class())
    vars(made).update(_magnitude=magnitude, _units=unit._units)  # noqa: SLF001 - as pint does
    return made
