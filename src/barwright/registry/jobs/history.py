"""Reading a history of wheel travel: one figure a line."""

from __future__ import annotations

from os import PathLike
from pathlib import Path

from barwright.errors import BarwrightError, DocumentError, QuantityError
from barwright.parts.common.arguments import checks_arguments
from barwright.registry.files.document import read_text
from barwright.units import LENGTH, QuantityArray, quantity_of_units, si, to_kind

__all__ = ["load_history"]

# A file in another form is wrong on every line; so many tell as much as all.
_MOST_PROBLEMS = 20


@checks_arguments
def load_history(path: str | PathLike[str]) -> QuantityArray:
    r"""Read a history of wheel travel from a text file.

    A line holds one travel with its unit, such as ``-12.5 mm``; blank lines and what
    follows a ``#`` are passed over.

    Parameters
    ----------
    path : path
        The file.

    Returns
    -------
    QuantityArray
        Read-only array in metres, in the order of the lines.

    Raises
    ------
    FileError
        If it cannot be read, or is too large.
    DocumentError
        With the problem of each line that is no travel; after twenty it stops.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "road.txt"
    ...     _ = file.write_text("0 mm\n45 mm  # a hole\n-30 mm\n", encoding="utf-8")
    ...     print(load_history(file).m_as("mm"))
    [  0.  45. -30.]
    """
    name = str(path)
    travels: list[float] = []
    problems: list[BarwrightError] = []
    for line, text in enumerate(read_text(Path(path)).splitlines(), start=1):
        figure = text.partition("#")[0].strip()
        if not figure:
            continue
        try:
            travels.append(si(to_kind(figure, LENGTH, key="travel"), LENGTH))
        except QuantityError as error:
            problems.append(type(error)(**(error.fields | {"file": name, "line": line})))
        if len(problems) == _MOST_PROBLEMS:
            break
    if problems:
        raise DocumentError("D101", problems=tuple(problems), file=name)
    return quantity_of_units(travels, "m")
