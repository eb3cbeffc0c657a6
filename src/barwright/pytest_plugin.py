"""The pytest plugin: the small part that pytest loads at every start."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pytest

__all__ = ["pytest_addoption", "pytest_collect_file"]


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option that asks for the tests of packs."""
    parser.getgroup("barwright").addoption(
        "--barwright-packs",
        action="store_true",
        help="hold every pack.toml that is met to what packs are held to",
    )


def pytest_collect_file(file_path: Path, parent: Any) -> Any:  # noqa: ANN401 - pytest's own classes
    """Make the tests of a pack, if requested."""
    if file_path.name != "pack.toml" or not parent.config.getoption("barwright_packs"):
        return None
    from barwright.testing import PackFile  # noqa: PLC0415 - pytest starts without it

    return PackFile.from_parent(parent, path=file_path)
