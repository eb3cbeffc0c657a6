"""Tests of `barwright.lint.waiving`: the index of waivers finds what looking at each would."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from barwright.lint.finding import LintFinding, Severity
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.read_checks import read_waivers
from barwright.lint.subject.stated import StatedWaiver
from barwright.lint.waiving import covered
from barwright.registry.packs.checks import Waiver

NAMES = st.sampled_from(["bar/a", "bar/a.1", "bar/a.1.end", "bar/a.end[0].at", "bar/b", "title"])
FILES = st.sampled_from(["pack.toml", "x.toml"])
RULES = st.sampled_from(["placed", "plain-text"])


def lies_in(inner: str, outer: str) -> bool:
    """Whether a name is that of a thing, or of something in it."""
    return inner == outer or inner.startswith((f"{outer}.", f"{outer}["))


def would_cover(stated: StatedWaiver, finding: LintFinding) -> bool:
    """Whether a waiver covers a finding, one compared with the other."""
    of = stated.waiver.of.removeprefix(f"{finding.pack}:")
    return (
        (finding.rule, finding.file) == (stated.waiver.rule, stated.place.file)
        and lies_in(finding.of, of)
        and not any(lies_in(finding.of, other) for other in stated.others)
    )


FINDINGS = st.builds(
    LintFinding,
    rule=RULES,
    code=st.just("R201"),
    severity=st.just(Severity.ERROR),
    pack=st.just("p"),
    of=NAMES,
    file=FILES,
    line=st.just(1),
    key=st.just(""),
    message=st.just(""),
    remedy=st.just(""),
)
WAIVERS = st.builds(
    StatedWaiver,
    st.builds(PackPlace, st.just(""), FILES, st.just("")),
    st.builds(
        Waiver,
        rule=RULES,
        of=st.builds("{}{}".format, st.sampled_from(["", "p:", "q:"]), NAMES),
        why=st.just("Because."),
    ),
    st.frozensets(NAMES),
)


@given(waivers=st.lists(WAIVERS), findings=st.lists(FINDINGS))
def test_the_index_finds_what_looking_at_each_would(
    waivers: list[StatedWaiver], findings: list[LintFinding]
) -> None:
    found = {(id(waiver), id(finding)) for waiver, finding in covered(waivers, findings)}

    assert found == {(id(w), id(f)) for w in waivers for f in findings if would_cover(w, f)}


@given(of=NAMES, pack=st.sampled_from(["", "p:"]), names=st.lists(NAMES, unique=True))
def test_others_are_those_that_lie_in_it_by_their_names_alone(
    of: str, pack: str, names: list[str]
) -> None:
    table = {"rule": "placed", "of": f"{pack}{of}", "why": "Because it is so."}
    ((waiver,), problems) = read_waivers({"x.toml": {"waiver": [table]}}, names)

    assert not problems
    assert waiver.others == {name for name in names if name != of and lies_in(name, of)}
