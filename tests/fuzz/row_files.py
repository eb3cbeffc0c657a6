"""Files of rows, spoilt, and answered in another file."""

from __future__ import annotations

import functools
import io
import tempfile
from pathlib import Path
from random import Random

import pyarrow as pa
from pyarrow import parquet

import barwright as bw
from fuzz.mutations import spoilt_bytes

__all__ = ["a_row_file", "ask_row_file"]

_TABLE = pa.table(
    {
        "id": ["a", "b", None, "dd"],
        "load.mass [kg]": [260.0, None, -1.0, 300.0],
        "bar.diameter": pa.array(["23 mm", "0.9 in", "x", None]).dictionary_encode(),
        "list": pa.array([[1, 2], [], None, [3]]),
    }
)
_CSV = b'id,load.mass [kg],bar.diameter,list\na,260,23 mm,1\n"b, c",,0.9 in,2\nc,x,1e3 mm,3\n'
_WORDS = (b"[kg]", b"wanted.height [mm]", b"1e999", "±".encode(), b"\r", b'"', b"\xef\xbb\xbf")


@functools.cache
def _seeds() -> dict[bytes, bytes]:
    """A table in each form, by a letter that an input begins with."""
    found = {b"c": _CSV}
    for letter, compression in ((b"p", "none"), (b"z", "zstd")):
        written = io.BytesIO()
        parquet.write_table(_TABLE, written, compression=compression)
        found[letter] = written.getvalue()
    for letter, packed in ((b"a", None), (b"l", "lz4")):
        written = io.BytesIO()
        options = pa.ipc.IpcWriteOptions(compression=packed)
        with pa.ipc.new_file(written, _TABLE.schema, options=options) as writer:
            writer.write_table(_TABLE)
        found[letter] = written.getvalue()
    return found


@functools.cache
def _folder() -> Path:
    return Path(tempfile.mkdtemp(prefix="barwright-fuzz-"))


@functools.cache
def _van() -> bw.Setup:
    return bw.Registry.demo().setup("fells:chassis/short", corner="front left")


def a_row_file(chance: Random) -> bytes:
    letter = chance.choice(sorted(_seeds()))
    return letter + spoilt_bytes(chance, _seeds()[letter], _WORDS)


def ask_row_file(data: bytes) -> str:
    form = {b"c": "csv", b"a": "arrow", b"l": "arrow"}.get(data[:1], "parquet")
    path, output = _folder() / f"rows.{form}", _folder() / "answers.csv"
    path.write_bytes(data[1:])
    summary = bw.batch_file(_van(), path, output, asked="fit", keep=["id", "list"])
    return f"answered {len(summary)}"
