"""How much a file and a folder of unknown origin may hold, all limits in one place.

Data of any use stays far below each of them.  Above, a file of a megabyte can take the
parser minutes or gigabytes, and a folder can take as long as somebody likes to be listed.
The parser needs about a kilobyte of memory for a table, and reads a megabyte in a third
of a second.
"""

from __future__ import annotations

__all__ = [
    "DEEPEST",
    "DEEPEST_FOLDER",
    "LARGEST_FILE",
    "LARGEST_NUMBER",
    "LARGEST_PACK",
    "LARGEST_TABLE",
    "LONGEST_LINE",
    "LONGEST_NAME",
    "LONGEST_TEXT",
    "LONGEST_WORD",
    "MOST_BASES",
    "MOST_CHASSIS",
    "MOST_ENTRIES",
    "MOST_FILES",
    "MOST_INHERITED",
    "MOST_ITEMS",
    "MOST_PACKS",
    "MOST_PARTS",
    "MOST_PROBLEMS",
    "MOST_RECORDS",
    "MOST_ROWS",
    "MOST_SOURCES",
    "MOST_TABLES",
    "MOST_WORDS",
]

# -- A file ------------------------------------------------------------------------

LARGEST_FILE = 1024 * 1024
"""Bytes of a file; 600 chassis with all their figures."""

LONGEST_LINE = 8192
"""Characters of a line; the longest text and the longest key before it."""

LONGEST_TEXT = 4096
"""Characters between the quotes of one text, as written; two pages."""

LONGEST_WORD = 64
"""Characters of a part of a key, and of a number; the longest id."""

LARGEST_NUMBER = 2**63
"""Whole numbers lie below it, as the format itself has it."""

DEEPEST = 8
"""Tables and lists in each other; what a point of a curve with its own source needs."""

MOST_PARTS = 8
"""Parts of a dotted key.  The parser's memory grows with their square."""

MOST_TABLES = 32_768
"""Opening brackets, and points of keys and numbers: what can make a table.  A file of
600 chassis has 6,000."""

MOST_WORDS = 131_072
"""Keys, numbers and texts, but for lines of a key and its text.  A file of 600 chassis
has 60,000."""

MOST_ITEMS = 1_000
"""Keys of one table, and items of one list within a record; each can be a problem to tell."""

# -- A pack ------------------------------------------------------------------------

LARGEST_PACK = 16 * 1024 * 1024
"""Bytes of all data files together."""

MOST_FILES = 4_096
"""Data files."""

MOST_ENTRIES = 16_384
"""Files and folders of any kind, data or not, since all are looked at on each start."""

DEEPEST_FOLDER = 8
"""Parts of the name of a data file, the folders around it and its own."""

LONGEST_NAME = 64
"""Characters of each of these parts."""

MOST_CHASSIS = 10_000
"""Vehicles."""

MOST_RECORDS = 20_000
"""Tables in lists of a name: records of all kinds, sources, checks and waivers."""

MOST_SOURCES = 1_000
"""Sources, which are read before all else."""

MOST_BASES = 16
"""Records that one is like, and that these are like in turn."""

MOST_INHERITED = 1_000_000
"""Values of records that are like others, with all that they take from them: as many as
10,000 vehicles have that were written out."""

MOST_PROBLEMS = 1_000
"""Problems after which no more records are read.  Nobody reads as many."""

# -- A distribution ----------------------------------------------------------------

MOST_PACKS = 100
"""Entry points of packs.  The import system is asked for each, which takes a millisecond."""

# -- A table that a pack is made from ----------------------------------------------

LARGEST_TABLE = 64 * 1024 * 1024
"""Bytes of the file."""

MOST_ROWS = 20_000
"""Rows, each of which gives a record at least."""
