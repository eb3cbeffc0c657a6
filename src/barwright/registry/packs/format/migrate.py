"""Older versions of the pack format, brought up to date in memory, one version at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from collections.abc import Set as AbstractSet
from typing import Any, TypeAlias

import attrs

from barwright.errors import SchemaError
from barwright.registry.files.snapshot import HEADER
from barwright.registry.packs.format.pack import SCHEMA

__all__ = ["MIGRATIONS", "Migration", "migrated", "version_of"]

Table: TypeAlias = Mapping[str, Any]


def _as_it_is(table: Table) -> Table:
    return table


@attrs.frozen(kw_only=True)
class Migration:
    """What a version of the format wrote otherwise than the next one does.

    Each function is given what a file holds, in which anything may still be wrong, and
    returns what the next version would write; it changes nothing in place.

    Parameters
    ----------
    header : callable
        For ``pack.toml``; its version need not be looked after.
    records : callable
        For every other file.
    keys : set of str
        All that the version knew, in any of its tables.
    """

    header: Callable[[Table], Table] = _as_it_is
    records: Callable[[Table], Table] = _as_it_is
    keys: AbstractSet[str] = frozenset()


_KEYS_OF_1 = """
    adjuster anchor_end anchor_stop arm arm_direction arm_end arm_stop at at_length
    axles bar bar_axis blank_angle blanks bolt_position bore bump_stop cap_allowance
    cap_holes_position cap_position chassis closed_length damper density diameter
    droop_stop entry foot_above foot_along foot_angle foot_position force form gas
    hub_outboard hub_up id is key_angle keyed kind left length length_below
    lever_allowance lever_lies lever_position lever_radius licence line_distance load_at
    made_for major_diameter material measured_angle measured_height minor_diameter
    mount_outboard mount_up mounting nose note nut_height offset open_length
    outside_diameter permissible_shear pivot_angle pivot_distance place preset
    preset_permissible_shear proof_strength radius reference_angle required_engagement
    right root_diameter schema shear_modulus slope socket socket_position source
    space_behind spacer standard_height standard_mass suspension taper teeth
    tensile_strength thread_diameter thread_end thread_pitch thread_start title
    top_outboard top_up tube tube_position tyre_radius tyre_rate unsprung_mass wheelbase
    youngs_modulus
"""

MIGRATIONS: Mapping[int, Migration] = {
    # Version 2 knows more keys and kinds of record; all of version 1 is as it was.
    1: Migration(keys=frozenset(_KEYS_OF_1.split())),
}
"""By the version that is left behind."""


def version_of(header: Table) -> int:
    """Return the version that a pack is written for.

    Parameters
    ----------
    header : mapping
        What its ``pack.toml`` holds.

    Returns
    -------
    int
        The present one where the pack says none, which is told elsewhere.

    Raises
    ------
    SchemaError
        P401 if it cannot be read.
    """
    version = header.get("schema", SCHEMA)
    if type(version) is not int or version == SCHEMA or version in MIGRATIONS:
        return version if type(version) is int else SCHEMA
    oldest = min(*MIGRATIONS, SCHEMA)
    is_newer = version > SCHEMA
    raise SchemaError(
        "P401",
        value=version,
        expected=f"schema = {oldest} to {SCHEMA}",
        remedy="install a newer barwright" if is_newer else f"write schema = {SCHEMA}",
        key="schema",
        file=HEADER,
    )


def migrated(name: str, table: Table, *, version: int) -> dict[str, Any]:
    """Return what a file of a pack would hold if it were written for the present version.

    Parameters
    ----------
    name : str
        Of the file.
    table : mapping
        What it holds.
    version : int
        That the pack is written for.

    Returns
    -------
    dict
    """
    for step in range(version, SCHEMA):
        migration = MIGRATIONS[step]
        table = migration.header(table) if name == HEADER else migration.records(table)
        if name == HEADER:
            table = {**table, "schema": step + 1}
    return dict(table)
