"""Where entries are filed in the job state, and what they add to running totals.

One row a kind: the names of the drawers an entry goes into. A drawer is
(kind, name); every kind with a subject is filed under it, and some under a
second one that a check or a screen asks for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from models.entries.envelope import Entry

Drawer = tuple[str, str]

_UNDER: dict[str, tuple[str, ...]] = {
    "job": (),
    "benchmark": ("benchmark_id",),
    "material": ("material_id",),
    "locate_ticket": ("ticket",),
    "person": ("person_id",),
    "machine": ("machine_id",),
    "surface": ("surface_id",),
    "collector": ("collector_id",),
    "layout": ("surface_id",),
    "unit_price": ("item",),
    "drainage_terms": ("surface_id",),
    "permanent_point": ("point_id",),
    "sieve_test": ("material_id",),
    "box_weighing": ("material_id",),
    "bulking_test": ("material_id",),
    "surface_seen": ("surface_id",),
    "infiltration_test": ("surface_id",),
    "sand_top_up": ("surface_id",),
    "pass": ("pass_id",),
    "probe": ("pass_id",),
    "turf_strip": ("pass_id",),
    "sand_placed": ("pass_id",),
    "watered_in": ("pass_id",),
    "instrument": ("instrument_id",),
    "instrument_event": ("instrument_id",),
    "peg_test": ("instrument_id",),
    "setup": ("setup_id",),
    "turning_point": ("setup_id",),
    "check_shot": ("setup_id",),
    "grade_shot": ("collector_id",),
    "layer_check": ("collector_id",),
    "hold_point": ("collector_id",),
    "outlet_seen": ("outlet_id",),
    "trench_protection": ("collector_id",),
    "go_ahead": ("place",),
    "delivery": ("material_id",),
    "disposition": ("flag",),
}


def drawers_of(entry: Entry) -> Iterator[Drawer]:
    """Every drawer that a current entry is filed in."""
    body: Any = entry.body
    kind = entry.kind
    fields = _UNDER.get(kind)
    if fields is None or not fields:
        yield (kind, "")
    else:
        yield (kind, getattr(body, fields[0]))
    extra = _EXTRA.get(kind)
    if extra is not None:
        yield from extra(body)
    if kind in _WORK:
        yield ("work_on", entry.day)
    elif kind == "tomorrow":
        yield ("day_ends", entry.day)
    elif kind == "hours":
        yield ("hours_on", entry.day)
    if kind in _DIGGING and getattr(body, "on", "") not in {"ground", "hub"}:
        place = getattr(body, "surface_id", "") or getattr(body, "collector_id", "")
        yield ("dug_at", f"{entry.day}/{place}")


def shares_of(entry: Entry) -> Iterator[tuple[Drawer, int]]:
    """What a current entry adds to the running totals."""
    sharer = _SHARES.get(entry.kind)
    if sharer is not None:
        yield from sharer(entry.body, entry.day)


def _pass_drawers(body: Any) -> Iterator[Drawer]:
    yield ("passes", "")
    yield ("passes_by", f"{body.surface_id}/{body.machine_id}")
    yield ("passes_on", body.surface_id)
    for line_id in body.line_ids:
        yield ("cuts_of", f"{body.surface_id}/{line_id}")


def _pipe_drawers(body: Any) -> Iterator[Drawer]:
    yield ("pipe_of", body.material_id)
    if body.coil_id:
        yield ("coil_uses", body.coil_id)
    if body.line_id:
        yield ("pipe_in_line", f"{body.surface_id}/{body.line_id}")
        yield ("pipe_on", body.surface_id)
    if body.collector_id:
        yield ("pipe_in_collector", body.collector_id)


def _shot_drawers(body: Any) -> Iterator[Drawer]:
    yield ("shots_from", body.setup_id)


def _setup_drawers(body: Any) -> Iterator[Drawer]:
    yield ("setups", "")
    yield ("setups_on", body.on_point)
    yield ("setups_by", body.instrument_id)


def _check_shot_drawers(body: Any) -> Iterator[Drawer]:
    yield ("checks_on", body.on_point)


def _turning_drawers(body: Any) -> Iterator[Drawer]:
    yield ("turning_named", body.point_id)


def _day_drawers(body: Any) -> Iterator[Drawer]:
    yield ("day_acts", body.of_day)


def _closing_drawers(body: Any) -> Iterator[Drawer]:
    yield ("day_acts", body.of_day)
    yield ("day_ends", body.of_day)


def _signature_drawers(body: Any) -> Iterator[Drawer]:
    yield ("signed", body.of_day)
    yield ("day_ends", body.of_day)


def _delivery_drawers(body: Any) -> Iterator[Drawer]:
    if body.coil_id:
        yield ("coil_in", body.coil_id)
    if body.ticket:
        yield ("ticket_in", body.ticket)


def _collector_surfaces(body: Any) -> Iterator[Drawer]:
    if body.collector_id:
        yield ("drains_to", body.collector_id)


def _sand_drawers(body: Any) -> Iterator[Drawer]:
    yield ("sand_on", body.surface_id)
    yield ("sand_of", body.material_id)
    if not body.pass_id:
        yield ("sand_without_pass", body.surface_id)


def _turf_drawers(body: Any) -> Iterator[Drawer]:
    for line_id in body.line_ids:
        yield ("turf_of", f"{body.surface_id}/{line_id}")


def _tie_drawers(body: Any) -> Iterator[Drawer]:
    yield ("ties_from", body.point_id)
    if body.collector_id:
        yield ("ties_of", body.collector_id)
    if body.surface_id:
        yield ("ties_on", body.surface_id)


_EXTRA: dict[str, Callable[[Any], Iterator[Drawer]]] = {
    "pass": _pass_drawers,
    "pipe_laid": _pipe_drawers,
    "grade_shot": _shot_drawers,
    "setup": _setup_drawers,
    "turning_point": _turning_drawers,
    "check_shot": _check_shot_drawers,
    "day_closed": _closing_drawers,
    "day_reopened": _day_drawers,
    "signature": _signature_drawers,
    "delivery": _delivery_drawers,
    "surface": _collector_surfaces,
    "sand_placed": _sand_drawers,
    "turf_strip": _turf_drawers,
    "tie": _tie_drawers,
}

_WORK = frozenset({"pass", "pipe_laid", "grade_shot", "layer_check", "turf_strip", "sand_placed"})
"""Kinds that mean the ground was worked on that day."""

_DIGGING = frozenset({"pass", "pipe_laid", "grade_shot"})
"""Kinds that mean the ground was opened, by day and by surface or collector."""


def _pass_shares(body: Any, day: str) -> Iterator[tuple[Drawer, int]]:
    cut_nm = body.length_nm * len(body.line_ids)
    yield ("cut_nm", body.surface_id), cut_nm
    yield ("cut_nm_on", f"{day}/{body.surface_id}"), cut_nm
    yield ("passes", body.surface_id), 1


def _sand_shares(body: Any, day: str) -> Iterator[tuple[Drawer, int]]:
    yield ("placed_pl", body.material_id), body.volume_pl or 0
    yield ("placed_ug", body.material_id), body.mass_ug or 0
    if body.moisture == "damp":
        yield ("placed_damp_pl", body.material_id), body.volume_pl or 0
    yield ("placed_pl_on", f"{day}/{body.surface_id}"), body.volume_pl or 0
    yield ("placed_ug_on", f"{day}/{body.surface_id}"), body.mass_ug or 0


def _delivery_shares(body: Any, day: str) -> Iterator[tuple[Drawer, int]]:
    yield ("delivered_ug", body.material_id), body.mass_ug or 0
    yield ("delivered_pl", body.material_id), body.volume_pl or 0
    yield ("delivered_nm", body.material_id), body.length_nm or 0
    if body.moisture == "damp":
        yield ("delivered_damp_pl", body.material_id), body.volume_pl or 0


def _pipe_shares(body: Any, day: str) -> Iterator[tuple[Drawer, int]]:
    yield ("laid_nm", body.material_id), body.length_nm
    yield ("laid_nm_on", f"{day}/{body.surface_id or body.collector_id}"), body.length_nm
    if body.coil_id:
        yield ("drawn_nm", body.coil_id), body.length_nm


def _spoil_shares(body: Any, day: str) -> Iterator[tuple[Drawer, int]]:
    yield ("spoil_pl", ""), body.volume_pl
    yield ("spoil_pl_on", day), body.volume_pl


_SHARES: dict[str, Callable[[Any, str], Iterator[tuple[Drawer, int]]]] = {
    "pass": _pass_shares,
    "sand_placed": _sand_shares,
    "delivery": _delivery_shares,
    "pipe_laid": _pipe_shares,
    "spoil": _spoil_shares,
}
