"""A job that lists several vehicles or parts: every combination, one at a time."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from barwright.errors import DocumentError, JobError, SchemaError
from barwright.registry.files.key_lines import located

__all__ = ["variants"]


def variants(
    table: Mapping[str, Any], file: str, text_of: Callable[[str], str]
) -> Iterator[tuple[str, dict[str, Any]]]:
    """Take every combination of the vehicles and parts that a job lists."""
    parts = table.get("parts")
    axes: dict[tuple[str, ...], Any] = {("vehicle",): table.get("vehicle")}
    axes |= {("parts", kind): ids for kind, ids in parts.items()} if isinstance(parts, dict) else {}
    lists = {key: ids for key, ids in axes.items() if isinstance(ids, list) and ids}
    combinations = math.prod(map(len, lists.values()))
    if combinations > _MOST_VARIANTS:
        many = JobError(
            "J102",
            value=f"{combinations} variants",
            expected=f"at most {_MOST_VARIANTS}",
            remedy="split the job",
            file=file,
        )
        raise DocumentError("D101", problems=(many,), file=file)
    repeated = [_repeated(".".join(key), ids, file) for key, ids in lists.items()]
    if any(repeated):
        problems = tuple(located([one for one in repeated if one], text_of))
        raise DocumentError("D101", problems=problems, file=file)
    for chosen in itertools.product(*lists.values()):
        single = dict(table)
        for key, value in zip(lists, chosen, strict=True):
            if len(key) == 1:
                single[key[0]] = value
            else:
                single["parts"] = single["parts"] | {key[1]: value}
        yield (
            ", ".join(f"{key[-1]} {value}" for key, value in zip(lists, chosen, strict=True)),
            single,
        )


def _repeated(key: str, ids: list[Any], file: str) -> SchemaError | None:
    """Refuse a list that names one thing twice."""
    twice = next((one for place, one in enumerate(ids) if one in ids[:place]), None)
    if twice is None:
        return None
    return SchemaError(
        "S207",
        value=twice,
        expected="each vehicle and each part once",
        remedy="remove the repeated one",
        key=key,
        file=file,
    )


_MOST_VARIANTS = 1000
