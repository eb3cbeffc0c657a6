"""The refusal of a place that cannot be written to; every command needs it, so it loads nothing."""

from __future__ import annotations

from barwright.errors import FileError

__all__ = ["refuse_unwritable"]


def refuse_unwritable(error: OSError | ValueError, place: str = "standard output") -> FileError:
    """Return the refusal of a place that cannot be written to.

    Parameters
    ----------
    error : OSError or ValueError
        What the system says.
    place : str
        Where the output was to go.

    Returns
    -------
    FileError
        F201.
    """
    return FileError(
        "F201",
        value=getattr(error, "strerror", None) or type(error).__name__,
        expected="a place that can be written to",
        remedy="check the folder, its permissions and the free space",
        file=place,
    )
