"""``barwright packs``: the installed packs, and what is wrong with them."""

from __future__ import annotations

import json
from typing import Any

import attrs
import click

from barwright.cli.jobs import json_option, registry_options
from barwright.cli.output import say_json, show
from barwright.cli.packs import installed
from barwright.errors import ExitCode
from barwright.registry.packs.format.pack import PackInfo
from barwright.registry.registry import Registry

__all__ = ["command"]


@click.command("packs")
@registry_options
@json_option
def command(*, as_json: bool) -> int:
    """List the packs with version, licence, records, sources and problems.

    The exit code is 3 if a pack is left out, and 1 if there is none.
    """
    from barwright.report.text.across.packs import packs_text  # noqa: PLC0415 - rich is slow to load

    registry = installed(warns=False)
    if as_json:
        say_json(json.dumps(_plain(registry), ensure_ascii=False))
    elif registry.packs or registry.problems:
        show(packs_text(registry.packs, registry.problems, registry.shared_numbers()))
    if registry.problems:
        return ExitCode.FAULT
    return ExitCode.FINE if registry.packs else ExitCode.NO


def _plain(registry: Registry) -> dict[str, Any]:
    return {
        "packs": [_plain_pack(info) for info in registry.packs],
        "left_out": [
            {"origin": error.file, "problems": [one.fields for one in error.problems]}
            for error in registry.problems
        ],
        "shared_numbers": [attrs.asdict(one) for one in registry.shared_numbers()],
    }


def _plain_pack(info: PackInfo) -> dict[str, Any]:
    sources = info.header.source
    return {
        "id": info.id,
        "title": info.header.title,
        "version": info.version,
        "licence": info.header.licence,
        "requires_barwright": info.header.requires_barwright,
        "origin": info.origin,
        "folder": str(info.folder),
        "hidden_versions": list(info.hidden_versions),
        "records": dict(info.counts),
        "sources": [{"id": s.id, "kind": s.kind.value, "note": s.note} for s in sources],
        "digest": info.digest,
    }
