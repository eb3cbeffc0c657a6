"""The files of a work: its parts in a folder of their own, and the result that they become."""

from __future__ import annotations

import contextlib
import errno
import json
import os
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

import attrs

from barwright.computed_once import cached_property
from barwright.errors import FileError
from barwright.parted.work import Work, key_of
from barwright.registry.files.unwritable import refuse_unwritable
from barwright.registry.files.whole_file import refuse_input, write_whole
from barwright.registry.importing.arrow import arrow
from barwright.tables.files.table_file import table_file

__all__ = ["PartFiles"]

_FORM, _MANIFEST = ".parquet", "manifest.json"
_IS_FOLDER = "a folder of that name"
_KEY, _COUNTED, _QUESTION = b"barwright.key", b"barwright.counted", b"barwright.question"


@attrs.frozen(slots=False, eq=False)
class PartFiles:
    """Files of a work.

    Parameters
    ----------
    work : Work
        The work.
    output : Path
        File of the result, a Parquet file.
    inputs : tuple of Path
        What the work reads, over which nothing is written.
    """

    work: Work
    output: Path
    inputs: tuple[Path, ...] = ()

    @property
    def folder(self) -> Path:
        """Where the parts are until the result is complete."""
        return self.output.with_name(f"{self.output.name}.parts")

    @cached_property
    def key(self) -> str:
        """Digest of all that the result depends on."""
        return key_of(self.work)

    # -- Before ---------------------------------------------------------------------------

    def complete(self) -> Counter[str] | None:
        """Return what the result counts if it is there already; none if it is not.

        Returns
        -------
        Counter, optional

        Raises
        ------
        FileError
            F110, F201 or F202 for an output that cannot be.
        """
        self._check_output()
        return self._counted(self.output)

    def begin(self) -> list[int]:
        """Make the folder of the parts, and list those that are not done.

        Returns
        -------
        list of int

        Raises
        ------
        FileError
            F203 if the folder holds parts of other work; F201 if it cannot be written.
        """
        try:
            self.folder.mkdir(exist_ok=True)
        except (OSError, ValueError) as error:
            raise refuse_unwritable(error, str(self.folder)) from None
        if any(self.folder.glob(f"*{_FORM}")) or (self.folder / _MANIFEST).exists():
            self._refuse_others()
        else:
            asked = {**self.work.question, "key": self.key}
            write_whole(self.folder / _MANIFEST, f"{json.dumps(asked, indent=2)}\n", inputs=[])
        return [part for part in range(self.work.number) if not self.is_done(part)]

    def _check_output(self) -> None:
        """Refuse an output that is an input, or no Parquet file."""
        try:
            if self.output.is_dir():
                raise IsADirectoryError(errno.EISDIR, _IS_FOLDER)
            refuse_input(self.output, self.inputs)
        except FileError:
            raise
        except (OSError, ValueError) as error:  # a name may hold what no name can
            raise refuse_unwritable(error, str(self.output)) from None
        if self.output.suffix.lower() != _FORM:
            raise FileError(
                "F110",
                value=self.output.name,
                expected=f"a name that ends in {_FORM}",
                remedy="name the file by its form",
                file=str(self.output),
            )

    def _manifest(self) -> Mapping[str, Any] | None:
        """Read which work the parts are of; none where nothing says so."""
        try:
            found = json.loads((self.folder / _MANIFEST).read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return None
        return found if isinstance(found, dict) else None

    def _refuse_others(self) -> None:
        """Refuse a folder with parts of another registry or question."""
        found = self._manifest()
        if found is None:
            raise self._other(f"a folder without a {_MANIFEST} that can be read")
        if found.get("key") != self.key:
            asked = self.work.question
            differ = [name for name in asked if found.get(name) != asked[name]]
            raise self._other(f"parts with another {' and '.join(differ) or 'number of parts'}")

    def _other(self, found: str) -> FileError:
        return FileError(
            "F203",
            value=found,
            expected="no folder, or one with parts of the same work",
            remedy="remove the folder, or name another output",
            file=str(self.folder),
        )

    # -- Parts ----------------------------------------------------------------------------

    def _path(self, part: int) -> Path:
        return self.folder / f"{part:06d}{_FORM}"

    def is_done(self, part: int) -> bool:
        """Tell whether a part is there, whole."""
        return self._counted(self._path(part)) is not None

    def do(self, part: int) -> None:
        """Do a part unless it is done, and put its file there when it is complete.

        Parameters
        ----------
        part : int
            Its number, from 0.

        Raises
        ------
        FileError
            F201 if it cannot be written.
        """
        if self.is_done(part):
            return
        done = self.work.part(part)
        schema = self._labelled(done.table.schema, done.counted)
        with table_file(self._path(part), schema) as write:
            write(done.table.cast(schema))

    def _labelled(self, schema: Any, counted: Mapping[str, int]) -> Any:  # noqa: ANN401 - of Arrow
        """Say in the metadata of a file which work it is of, and what it counts."""
        labels = {
            _KEY: self.key,
            _QUESTION: json.dumps(dict(self.work.question), sort_keys=True),
            _COUNTED: json.dumps(counted, sort_keys=True),
        }
        return schema.with_metadata(labels)

    def _counted(self, path: Path) -> Counter[str] | None:
        """Return what a file of this work counts; none if it is missing, cut, or of other work."""
        loaded = arrow()
        try:
            with path.open("rb") as stream:
                metadata = loaded.parquet.read_schema(stream).metadata or {}
        except (OSError, ValueError, loaded.core.ArrowException):
            return None
        if metadata.get(_KEY) != self.key.encode():
            return None
        return Counter(json.loads(metadata[_COUNTED]))

    # -- After ----------------------------------------------------------------------------

    def join(self) -> Counter[str]:
        """Make the result of the parts, in their order; only one of them is held in memory.

        Returns
        -------
        Counter
            What they count together.

        Raises
        ------
        FileError
            F101 for a part that is damaged; F201 or F202 if the result cannot be written.
        """
        counted: Counter[str] = Counter()
        for part in range(self.work.number):
            counted.update(self._counted(self._path(part)) or {})
        first = self._read(0).schema
        schema, joined = self._labelled(first, counted), self.folder / f"joined{_FORM}"
        # Among the parts, where a kill may leave a piece of it.
        with table_file(joined, schema) as write:
            for part in range(self.work.number):
                write(self._read(part).cast(schema))
        try:
            joined.replace(os.path.realpath(self.output))
        except OSError as error:
            raise refuse_unwritable(error, str(self.output)) from None
        return counted

    def _read(self, part: int) -> Any:  # noqa: ANN401 - of Arrow
        loaded, path = arrow(), self._path(part)
        try:
            return loaded.parquet.read_table(path)
        except (OSError, loaded.core.ArrowException):
            raise FileError(
                "F101",
                value="a part that is damaged",
                expected="the part as it was written",
                remedy="remove this file and start again; only it is then done anew",
                file=str(path),
            ) from None

    def remove(self) -> None:
        """Remove the parts, the manifest last; what cannot be removed stays."""
        if (self._manifest() or {}).get("key") != self.key:
            return
        files: Iterable[Path] = sorted(self.folder.glob(f"*{_FORM}"))
        with contextlib.suppress(OSError):
            for path in (*files, *self._left_over(), self.folder / _MANIFEST):
                path.unlink(missing_ok=True)
            self.folder.rmdir()

    def _left_over(self) -> Iterator[Path]:
        """List files that a process was writing when it was killed."""
        return self.folder.glob(".barwright-*.part")
