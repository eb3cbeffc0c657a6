"""A lock: the packs of a registry and their content, to reproduce answers."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from importlib import metadata
from os import PathLike
from pathlib import Path

import attrs

from barwright.errors import LockError, SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised
from barwright.registry.files.document import read_toml
from barwright.registry.files.key_lines import located
from barwright.registry.overlays.preference import OverlayHeader
from barwright.registry.packs.format.pack import PackInfo
from barwright.registry.packs.load import STANDARDS, standards
from barwright.registry.packs.tables.refusals import problems_of
from barwright.registry.packs.tables.structure import Structurer
from barwright.registry.registry import Registry

__all__ = ["LOCK_FILE", "Lock", "LockedPack", "check_lock", "lock_of", "lock_text", "read_lock"]

LOCK_FILE = "barwright.lock"
"""What a lock is usually called."""

_SCHEMA = 1
_HEAD = "# Written by `barwright lock`; write it again instead of changing it.\n"
_SHOWN = 12


@attrs.frozen(kw_only=True, repr=False)
class LockedPack(Summarised):
    """A pack in a lock, as it was at that time.

    Parameters
    ----------
    id : str
        The pack's id.
    origin : str
        Distribution and version; of a folder, its name.
    version : str, optional
        Of the distribution.
    digest : str
        SHA-256 over the names and contents of its files.
    layer : int, optional
        Of an overlay, its place on top of the packs: 1 for the lowest.
    """

    id: str
    origin: str
    version: str | None = None
    digest: str
    layer: int | None = None


@attrs.frozen(kw_only=True, repr=False)
class Lock(Summarised):
    """All packs of a registry, the library's standards included.

    Parameters
    ----------
    schema : int
        Version of the form of locks.
    library : str
        Version of barwright.
    pack : tuple of LockedPack
        By id.
    """

    schema: int
    library: str
    pack: tuple[LockedPack, ...]

    @property
    def by_id(self) -> Mapping[str, LockedPack]:
        """The packs by their ids."""
        return {pack.id: pack for pack in self.pack}

    @property
    def overlays(self) -> tuple[str, ...]:
        """The ids of the overlays, the lowest first."""
        layers = {pack.layer: pack.id for pack in self.pack if pack.layer is not None}
        return tuple(layers[layer] for layer in sorted(layers))


@checks_arguments
def lock_of(registry: Registry) -> Lock:
    """Make the lock of a registry: its packs and their content.

    Parameters
    ----------
    registry : Registry
        Packs that were left out of it are not in the lock either.

    Returns
    -------
    Lock

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> lock = lock_of(Registry.discover())
    >>> lock.by_id["fells"].origin.split()[0]
    'barwright-pack-fells'
    """
    infos = (standards().info, *registry.packs)
    overlays = [info for info in infos if isinstance(info.header, OverlayHeader)]
    layers = {info.id: layer for layer, info in enumerate(overlays, start=1)}
    packs = (_locked(info, layers.get(info.id)) for info in infos)
    return Lock(
        schema=_SCHEMA,
        library=metadata.version("barwright"),
        pack=tuple(sorted(packs, key=lambda pack: pack.id)),
    )


def _locked(info: PackInfo, layer: int | None) -> LockedPack:
    # Where a folder lies on this machine says nothing on another.
    is_folder = not info.distribution_version and info.folder != STANDARDS
    return LockedPack(
        id=info.id,
        origin=info.folder.absolute().name if is_folder else info.origin,
        version=info.version or None,
        digest=info.digest,
        layer=layer,
    )


@checks_arguments
def lock_text(lock: Lock) -> str:
    """Return a lock as the text of a file.

    Parameters
    ----------
    lock : Lock
        What to write.

    Returns
    -------
    str
        TOML, always the same for the same lock.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> lock_text(lock_of(Registry.discover())).splitlines()[1]
    'schema = 1'
    """
    head = f"{_HEAD}schema = {lock.schema}\nlibrary = {_quoted(lock.library)}\n"
    return head + "".join(map(_table, lock.pack))


def _table(pack: LockedPack) -> str:
    fields = {name: value for name, value in attrs.asdict(pack).items() if value is not None}
    return "\n[[pack]]\n" + "".join(f"{name} = {_value(fields[name])}\n" for name in fields)


def _value(value: str | int) -> str:
    return _quoted(value) if isinstance(value, str) else str(value)


def _quoted(text: str) -> str:
    """Write text as TOML does, without what UTF-8 cannot hold."""
    whole = text.encode("utf-8", "replace").decode("utf-8")
    return json.dumps(whole, ensure_ascii=False).replace("\x7f", "\\u007f")


@checks_arguments
def read_lock(path: str | PathLike[str]) -> Lock:
    """Read a lock.

    Parameters
    ----------
    path : path
        The file.

    Returns
    -------
    Lock

    Raises
    ------
    FileError
        F101 to F104 if it cannot be read.
    LockError
        With all problems, if it is no lock that this version can read.

    Examples
    --------
    >>> import tempfile
    >>> from barwright.registry.registry import Registry
    >>> lock = lock_of(Registry.discover())
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "barwright.lock"
    ...     _ = file.write_text(lock_text(lock), encoding="utf-8")
    ...     read_lock(file) == lock
    True
    """
    table = read_toml(Path(path))
    try:
        lock = Structurer(file=str(path)).structure(table, Lock)
        _check(lock)
    except (SchemaError, ExceptionGroup) as error:
        problems = [problem.within(file=str(path)) for problem in problems_of(error)]
        raise LockError("P502", problems=located(problems), file=str(path)) from None
    return lock


def _check(lock: Lock) -> None:
    remedy = "write the lock again with this version of barwright"
    if lock.schema != _SCHEMA:
        raise SchemaError(
            "S204", value=lock.schema, expected=f"schema = {_SCHEMA}", remedy=remedy, key="schema"
        )
    if len(lock.by_id) < len(lock.pack):
        raise SchemaError(
            "S205",
            value=", ".join(pack.id for pack in lock.pack),
            expected="each pack once",
            remedy=remedy,
            key="pack",
        )


@checks_arguments
def check_lock(registry: Registry, lock: Lock, *, file: str = LOCK_FILE) -> None:
    """Refuse a registry that differs from a lock.

    Parameters
    ----------
    registry : Registry
        What there is.
    lock : Lock
        Packs at that time. Only their content matters, not where they came from.
    file : str
        What to call the lock in messages.

    Returns
    -------
    None
        If there is nothing to refuse.

    Raises
    ------
    LockError
        P501, with a problem for each pack that was changed, is missing or is new, for
        overlays in another order, and for another version of barwright.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.discover()
    >>> check_lock(registry, lock_of(registry))
    """
    problems = tuple(one.within(file=file) for one in _drift(lock_of(registry), lock))
    if problems:
        raise LockError("P501", problems=problems, file=file)


def _drift(there_is: Lock, there_was: Lock) -> Iterator[SchemaError]:
    if there_is.library != there_was.library:
        yield _drifted(
            f"barwright {there_is.library}",
            expected=f"barwright {there_was.library}, as locked",
            remedy="install the locked version",
            key="library",
        )
    now, then = there_is.by_id, there_was.by_id
    for pack_id in sorted({*now, *then}):
        if now.get(pack_id, _NONE).digest != then.get(pack_id, _NONE).digest:
            yield _drifted_pack(pack_id, now.get(pack_id), then.get(pack_id))
    # Which of two corrections of a figure counts is a matter of their order.
    order = [name for name in there_is.overlays if name in then]
    was = [name for name in there_was.overlays if name in now]
    if order != was:
        yield _drifted(
            f"overlays {', '.join(order) or 'none'}",
            expected=f"{', '.join(was) or 'none'}, the lowest first, as in the lock",
            remedy="lay them in that order",
            key="layer",
        )


_NONE = LockedPack(id="", origin="", digest="")


def _drifted_pack(pack_id: str, now: LockedPack | None, then: LockedPack | None) -> SchemaError:
    if then is None:
        remedy = f"leave {now.origin} out" if now else ""
        return _drifted(_content(now), expected="no pack of that id", remedy=remedy, key=pack_id)
    return _drifted(
        _content(now),
        expected=f"{_content(then)}, as locked",
        remedy=f"install {then.origin} as it was when locked",
        key=pack_id,
    )


def _content(pack: LockedPack | None) -> str:
    return f"content {pack.digest[:_SHOWN]}" if pack else "no such pack"


def _drifted(value: str, *, expected: str, remedy: str, key: str) -> SchemaError:
    return SchemaError(
        "P501",
        value=value,
        expected=expected,
        remedy=f"{remedy}, or write the lock again",
        key=key,
    )
