"""Whatever figures of a pack are unknown: it loads, is good, and every question still answers."""

from __future__ import annotations

import contextlib
import copy
import functools
import io
import pickle
import tempfile
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeAlias

import attrs
import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.cli.command import run
from barwright.parts.common.fields import known_or_not
from barwright.parts.common.record import Part, Record
from barwright.registry.discovery.shipped import demo_folders
from draws import draws

Spot: TypeAlias = tuple[str, tuple[Any, ...]]

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
JOBS = {"fells": "shorter-dampers", "hodmule": "firmer-bars", "trundlet": "loaded-trailer"}


PUBLIC = [getattr(bw.parts, name) for name in bw.parts.__all__]
CLASSES: list[Any] = [cls for cls in PUBLIC if isinstance(cls, type) and issubclass(cls, Record)]
NAMES = {name for cls in CLASSES if cls.MAY_HAVE_GAPS for name in known_or_not(cls)}
# A figure that may be left out means something else then, in at least one record.
OPTIONAL = {f.name for cls in CLASSES for f in attrs.fields(cls) if f.default is not attrs.NOTHING}


@functools.cache
def pack_of(name: str) -> Mapping[str, Any]:
    """The files of a demo pack, as tables."""
    (folder,) = (path for path in demo_folders() if path.name.endswith(name))
    return {
        str(path.relative_to(folder)): tomllib.loads(path.read_text(encoding="utf-8"))
        for path in folder.rglob("*.toml")
    }


def spots_in(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Where a table holds figures and counts that may be unknown."""
    if isinstance(value, list):
        for place, inner in enumerate(value):
            yield from spots_in(inner, (*path, place))
    if not isinstance(value, dict):
        return
    for key, inner in value.items():
        if key in NAMES and "curve" not in path:
            yield (*path, key)
        else:
            yield from spots_in(inner, (*path, key))


@functools.cache
def spots_of(name: str) -> list[Spot]:
    """Where a demo pack holds them, checks and sources left out."""
    kinds = ("check", "source", "waiver")
    return [
        (file, path)
        for file, table in pack_of(name).items()
        for path in spots_in({kind: held for kind, held in table.items() if kind not in kinds})
    ]


@st.composite
def gaps(draw: st.DrawFn, name: str) -> list[tuple[Spot, bool]]:
    """Some figures of a pack, and whether each is left out rather than said to be unknown."""
    few = st.lists(st.sampled_from(spots_of(name)), min_size=1, max_size=6, unique=True)
    chosen = draw(few | st.just(spots_of(name)))
    leaves_out = draw(st.booleans())
    return [(spot, leaves_out and spot[1][-1] not in OPTIONAL) for spot in chosen]


@contextlib.contextmanager
def written(name: str, unknown: list[tuple[Spot, bool]]) -> Iterator[Path]:
    """A folder with the demo pack, some of its figures being unknown."""
    tables = copy.deepcopy(dict(pack_of(name)))
    for (file, path), is_left_out in unknown:
        holder = tables[file]
        for step in path[:-1]:
            holder = holder[step]
        holder[path[-1]] = "unknown"
        if is_left_out:
            del holder[path[-1]]
    with tempfile.TemporaryDirectory() as folder:
        for file, table in tables.items():
            Path(folder, file).parent.mkdir(parents=True, exist_ok=True)
            Path(folder, file).write_text(tomli_w.dumps(table), encoding="utf-8")
        yield Path(folder)


packs = st.sampled_from(sorted(JOBS)).flatmap(lambda n: st.tuples(st.just(n), gaps(n)))


@settings(max_examples=draws(20))
@given(packs)
def test_a_pack_with_gaps_loads_and_is_good(drawn: tuple[str, list[tuple[Spot, bool]]]) -> None:
    with written(*drawn) as pack:
        linted = bw.lint_pack(pack)
    assert [finding.text for finding in linted.findings if finding.is_flaw] == []
    assert {finding.rule for finding in linted.findings} == {"unknown-figures"}


@pytest.mark.rare
@settings(max_examples=draws(40))
@given(packs)
def test_its_records_are_kept_whole_and_shown(drawn: tuple[str, list[tuple[Spot, bool]]]) -> None:
    with written(*drawn) as pack:
        registry = bw.Registry.from_folders(pack, cache=False)
        parts: list[Part] = [*registry.parts(), *registry.vehicles()]
    assert registry.problems == ()
    for part in parts:
        assert bw.from_json(bw.to_json(part)) == part
        assert pickle.loads(pickle.dumps(part)) == part  # noqa: S301 - our own
        assert copy.deepcopy(part) == part
        for text in (repr(part), bw.text(part), bw.html(part), bw.markdown(part)):
            assert "<unknown" not in text.replace("&lt;", "<")


COMMANDS = (
    *(("fit",), ("fit", "--donors"), ("rates",), ("strength",), ("reindex",), ("nut",)),
    *(("tolerance",), ("trail",), ("chart",), ("sheet",), ("sheet", "--form", "html")),
    *(("needs",), ("compare",), ("check",)),
)
LISTS = (("vehicles",), ("parts",))
FORMS = ((), ("--json",), ("--units", "inch"))


def asked(arguments: list[str]) -> tuple[int, str]:
    """Exit code of a command, and all that it prints."""
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(printed):
        code = run(arguments)
    return code, printed.getvalue()


@pytest.mark.rare
@settings(max_examples=draws(60))
@given(packs, st.sampled_from([*COMMANDS, *LISTS]), st.sampled_from(FORMS))
def test_every_command_answers_what_it_can(
    drawn: tuple[str, list[tuple[Spot, bool]]], command: tuple[str, ...], form: tuple[str, ...]
) -> None:
    name, unknown = drawn
    if command == ("check",) or (form == ("--json",) and {"chart", "--form"} & {*command}):
        form = ()
    job = str(EXAMPLES / f"{JOBS[name]}.toml")
    jobs = [job] * (0 if command in LISTS else 2 if command == ("compare",) else 1)
    with written(name, unknown) as pack:
        code, printed = asked([*command, *jobs, "--pack", str(pack), *form])
    assert code in (0, 1)
    assert "N301" not in printed
    assert "<unknown" not in printed.replace("&lt;", "<")
