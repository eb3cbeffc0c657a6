"""Documents of at most a megabyte, each made to cost a reader as much as it can."""

from __future__ import annotations

from collections.abc import Callable, Mapping

__all__ = ["ALLOWED", "HOSTILE", "SIZE"]

SIZE = 1024 * 1024


def filled(piece: str, *, before: str = "", after: str = "") -> bytes:
    """A megabyte of one piece over and over."""
    room = SIZE - len((before + after).encode())
    return f"{before}{piece * (room // len(piece.encode()))}{after}".encode()


def numbered(line: str, *, before: str = "", size: int = SIZE) -> bytes:
    """Lines that each hold another number, up to a megabyte."""
    count = (size - len(before)) // (len(line.format(100_000)) + 1)
    return (before + "\n".join(line.format(number) for number in range(count))).encode()


# By the code that each is refused with.
HOSTILE: Mapping[str, Mapping[str, Callable[[], bytes]]] = {
    "F102": {
        "half a character": lambda: b"a = '\xed\xa0\x80'",
        "bytes that are no text": lambda: b"\xff" * SIZE,
        "half a character at the end": lambda: filled("#\n")[:-2] + b"\xc3",
        "another encoding": lambda: "a = 1".encode("utf-32"),
    },
    "F103": {
        "nothing but NUL": lambda: filled("\0\n"),
        "NUL in a text": lambda: b"a = '\0'",
        "a second byte order mark": "\ufeff\ufeffa = 1".encode,
        "a byte order mark between lines": "a = 1\n\ufeffb = 1".encode,
        "a bare carriage return": lambda: filled("#\r\n", after="a = 1\rb = 2"),
        "a character beyond the last": lambda: rb'a = "\U00110000"',
        "escaped half of a character": lambda: rb'a = "\ud800"',
        "many escaped halves": lambda: b'a="\\ud800"\n' * 50_000,
        "quotes": lambda: filled('"\n'),
        "three quotes over and over": lambda: filled('"""\n', after='"'),
        "three apostrophes over and over": lambda: filled("'''\n", after="'"),
        "a text over lines that is not closed": lambda: filled('\\"\n', before='a = """'),
        "a literal text that is not closed": lambda: filled("''\n", before="a = '''"),
        "quotes that almost close a text": lambda: filled('""\n', before='a = """'),
        # Each could begin a text, whose end would be looked for in vain.
        "escaped quotes between texts": lambda: filled(
            '\\""" x" ' * 900 + "\n", before='a = """ x" '
        ),
        "the same key": lambda: b"a=1\n" * 50_000,
        "the same table": lambda: b"[a]\n" * 1000,
        "a table within a list": lambda: b"a = [1]\n[a.b]\n",
        "a list that is a table": lambda: b"[[a]]\n[a]\n",
        "a table within an inline table": lambda: b"a = {b = 1}\n[a.c]\n",
        "a month that is none": lambda: b"a = 2031-13-45\n" * 50_000,
        "a day that is none": lambda: b"a = 2031-02-30",
        "an offset of a day": lambda: b"a = 2031-02-03T01:02:03+24:00",
        "dates in a row": lambda: b"a = [" + b"2031-01-01 " * 700 + b"]",
        "signs": lambda: b"a = " + b"+" * 60,
        "underscores": lambda: b"a = 1_000__0\n" * 50_000,
        "unicode digits": "a = \u0661\u0662".encode,
        "closing brackets": lambda: filled("]\n"),
        "words": lambda: b"a a a a a a a a\n" * 8_000,
        "blanks": lambda: filled(" " * 80 + "\n", after="a"),
    },
    "F104": {
        "too many bytes": lambda: b"#" * (SIZE + 1),
        "a key of 100 kB": lambda: b".".join([b"a"] * 50_000) + b" = 1",
        "a key of 100 kB with blanks": lambda: b" . ".join([b"a"] * 25_000) + b" = 1",
        "a key of 9 parts": lambda: b"a.b.c.d.e.f.g.h.i = 1",
        "a key of 9 quoted parts": lambda: b".".join([b'"a.b"', b"'c.d'", b"e"] * 3) + b" = 1",
        "a table of 9 parts": lambda: b"[a . b . c . d . e . f . g . h . i]",
        "points": lambda: filled("a." * 40 + "a=1\n"),
        "a line of points": lambda: filled("a."),
        "opening brackets": lambda: filled("["),
        "opening brackets on lines": lambda: filled("[\n", before="a="),
        "9 brackets": lambda: b"a = " + b"[" * 9 + b"]" * 9,
        "9 brackets behind a text": lambda: b"a = ['''\n]''', " + b"[" * 8 + b"]" * 9,
        "9 brackets behind a comment": lambda: b"a = [ # ]\n" + b"[" * 8 + b"]" * 9,
        "9 brackets behind a quote in a text": lambda: b'a = ["\\"]", ' + b"[" * 8 + b"]" * 9,
        "9 brackets behind 5 quotes": lambda: b'a = ["""]""""", ' + b"[" * 8 + b"]" * 9,
        "9 inline tables": lambda: b"a = " + b"{a = " * 9 + b"1" + b"}" * 9,
        "8 parts and an inline table": lambda: b"a.b.c.d.e.f.g.h = {i = {}}",
        "8 parts in a table of 8": lambda: b"[a.b.c.d.e.f.g.h]\na.b.c.d.e.f.g.h = 1",
        "keys of 8 parts": lambda: numbered("k{0}.b.c.d.e.f.g.h = 1"),
        "keys of 8 parts and a table": lambda: numbered("k{0}.b.c.d.e.f.g.h = 1") + b"\n[z]",
        "tables of 8 parts": lambda: numbered("[k{0}.b.c.d.e.f.g.h]"),
        "tables": lambda: numbered("[k{0}]"),
        "lists of tables": lambda: filled("\n[[a]]"),
        "lists of lists of tables": lambda: filled("\n[[a]]\n[[a.b]]\n[[a.b.c]]"),
        "inline tables": lambda: numbered("k{0}={{}}"),
        "inline tables in a list": lambda: filled("{},\n", before="a = [", after="]"),
        "inline tables in each other": lambda: filled("{a={b={}}},\n", before="a = [", after="]"),
        "lists in a list": lambda: filled("[],\n", before="a = [", after="]"),
        "keys": lambda: numbered("k{0}=1"),
        "100,000 keys in a table": lambda: numbered("k{0} = 1", before="[a]\n"),
        "1,001 keys": lambda: b"\n".join(b"k%d = 1" % n for n in range(1001)),
        "1,001 items": lambda: b"a = [" + b"1, " * 1001 + b"]",
        "numbers in a list": lambda: filled("1,\n", before="a = [", after="]"),
        "a long line of blanks": lambda: b"a" + b" " * 900_000 + b"= 1",
        "a long comment": lambda: b"#" * 8193,
        "a long word": lambda: b"a" * SIZE,
    },
    "F106": {
        "a key of 65 characters": lambda: b"a" * 65 + b" = 1",
        "a quoted key of 65 characters": lambda: b'"' + b"a" * 65 + b'" = 1',
        "a quoted key of 4,000 characters": lambda: b"x = {'" + b"a" * 4000 + b"' = 1}",
        "a part of 65 characters": lambda: b"a." + b"b" * 65 + b".c = 1",
        "a table of 65 characters": lambda: b"[" + b"a" * 65 + b"]",
        "long keys": lambda: numbered("a" * 8000 + "{0}=1"),
        "a number of 65 digits": lambda: b"a = 1" + b"0" * 64,
        "a number of a million digits": lambda: filled("9" * 8000 + ",\n", before="a = [\n"),
        "hexadecimal digits": lambda: filled("0x" + "f" * 4000 + ",\n", before="a = [\n"),
        "binary digits": lambda: b"a = 0b" + b"1" * 4000,
        "a float of 65 characters": lambda: b"a = 0." + b"1" * 65,
        "an exponent of 65 digits": lambda: b"a = 1e" + b"9" * 65,
        "a number of 64 bits": lambda: b"a = 9223372036854775808",
        "a negative number of 65 bits": lambda: b"a = -9223372036854775809",
        "a number in hexadecimal": lambda: b"a = [0x8000000000000000]",
        "a date behind dates": lambda: b"a = 2031-01-01T01:01:01" + b"-01:01" * 10,
        "a text of 4,097 characters": lambda: b'a = "' + b"x" * 4097 + b'"',
        "a literal text of 4,097 characters": lambda: b"a = '" + b"x" * 4097 + b"'",
        "a text over lines": lambda: filled("x\n", before='a = """', after='"""'),
        "a literal text over lines": lambda: filled("x\n", before="a = '''", after="'''"),
        "escapes": lambda: filled("\\n\\\n", before='a = """', after='"""'),
        "quotes in a text": lambda: b'a = "' + b"\\\"'" * 1366 + b'"',
    },
}

# What a reader must take, although it looks like much.
ALLOWED: Mapping[str, Callable[[], bytes]] = {
    "no data": lambda: filled("#\r\n"),
    "blank lines": lambda: filled("\n"),
    "points and brackets in texts": lambda: b"a = '" + b"a.[{" * 1024 + b"'",
    "points and brackets in a comment": lambda: b"# " + b"[.a" * 2000,
    "a key of 8 parts": lambda: b"a.'b.b'.\"c.c\" . d.e.f.g.h = 1",
    "8 brackets": lambda: b"a = " + b"[" * 8 + b"]" * 8,
    "a key of 64 characters": lambda: b"a" * 64 + b" = 1",
    "a text of 4,096 characters": lambda: b'a = "' + b"x" * 4096 + b'"',
    "a text of 4,096 escapes": lambda: b'a = "' + b"\\n" * 2048 + b'"',
    "a text of 4,096 characters over lines": lambda: b'a = """' + b"x\n" * 2047 + b'"""""',
    "a literal text that ends in apostrophes": lambda: b"a = '''" + b"x" * 4094 + b"'''''",
    "no text": lambda: b"a = \"\"\nb = ''\nc = \"\"\"\"\"\"\nd = ''''''",
    "the largest number": lambda: b"a = 9223372036854775807\nb = -9223372036854775808",
    "16,384 records": lambda: b"[[a]]\n" * 16_384,
    "1,000 keys": lambda: b"\n".join(b"k%d = 1" % n for n in range(1000)),
    "texts": lambda: numbered(
        "[[r]]\nk{0} = 'a figure of many words and some length'", size=700_000
    ),
}
