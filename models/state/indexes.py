"""Indexes and totals of the job state, declared one a line: what is filed where, by which key.

A kind of entry is an index of its own (``models.entries.kind_names``); those below find entries
by something else that a check or a screen asks for.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from operator import attrgetter
from typing import TYPE_CHECKING, Any, Final

from models.entries import kind_names
from models.entries.envelope import AnyEntry
from models.entries.index import B, EntryKind, Index, K, Total
from models.entries.keys import (
    DayPlace,
    LineKey,
    SurfaceMachine,
    day_place,
    line_key,
    surface_machine,
)
from models.entries.kind_names import (
    CHECK_SHOT,
    DAY_CLOSED,
    DAY_REOPENED,
    DELIVERY,
    GRADE_SHOT,
    HOURS,
    LAYER_CHECK,
    PASS,
    PIPE_LAID,
    SAND_PLACED,
    SETUP,
    SIGNATURE,
    SPOIL,
    SURFACE,
    TIE,
    TOMORROW,
    TURF_STRIP,
    TURNING_POINT,
)

if TYPE_CHECKING:
    from models.entries.bodies.collector_work import LayerCheck
    from models.entries.bodies.day import DayClosed, DayReopened, Hours, Signature, Tomorrow
    from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
    from models.entries.bodies.loads import Delivery
    from models.entries.bodies.passes import PassCut, PipeLaid, SandPlaced, TurfStrip
    from models.entries.bodies.planning import Tie
    from models.entries.bodies.surfaces import Surface
    from models.entries.body import Body

    Work = PassCut | PipeLaid | GradeShot | LayerCheck | TurfStrip | SandPlaced

IndexKey = tuple[str, str]
"""Name of an index, and a key in it."""

_keys: dict[str, list[tuple[str, Callable[[Any, str], Iterable[str]]]]] = defaultdict(list)
_amounts: dict[str, list[tuple[str, Callable[[Any, str], Iterable[tuple[str, int]]]]]]
_amounts = defaultdict(list)


def _file(index: Index[Any, K], kind: EntryKind[B], keys: Callable[[B, str], Iterable[K]]) -> None:
    """File entries of a kind in an index, under the keys that a body and its day give."""
    _keys[kind.name].append((index.name, keys))


def _add(
    total: Total[K], kind: EntryKind[B], amounts: Callable[[B, str], Iterable[tuple[K, int]]]
) -> None:
    """Add to a total, for every entry of a kind, the amounts that a body and its day give."""
    _amounts[kind.name].append((total.name, amounts))


_SUBJECTS: Final[dict[str, Callable[[Any], str]]] = {
    kind.name: attrgetter(kind.under)
    for kind in vars(kind_names).values()
    if isinstance(kind, EntryKind) and kind.under
}
"""Kind to what reads the name of its subject off a body."""


def subject_of(body: Body) -> str:
    """Name that a body is filed under among those of its kind; "" where its kind has none."""
    subject = _SUBJECTS.get(body.kind)
    return subject(body) if subject else ""


def index_keys_of(entry: AnyEntry) -> Iterator[IndexKey]:
    """Every index that a current entry is filed in, with its key there."""
    body, kind = entry.body, entry.kind
    subject = _SUBJECTS.get(kind)
    yield (kind, subject(body) if subject else "")
    for name, keys in _keys.get(kind, ()):
        for key in keys(body, entry.day):
            yield (name, key)


def amounts_of(entry: AnyEntry) -> Iterator[tuple[IndexKey, int]]:
    """Amounts that a current entry adds to the totals."""
    for name, amounts in _amounts.get(entry.kind, ()):
        for key, amount in amounts(entry.body, entry.day):
            yield (name, key), amount


UNREAD: Final[Index[Any, str]] = Index("unknown")
"""Entries that can't be read here, all under ""."""

# Passes and lines.
PASSES: Final[Index[PassCut, str]] = Index("passes")
PASSES_ON: Final[Index[PassCut, str]] = Index("passes_on")
PASSES_BY: Final[Index[PassCut, SurfaceMachine]] = Index("passes_by")
CUTS_OF: Final[Index[PassCut, LineKey]] = Index("cuts_of")
TURF_OF: Final[Index[TurfStrip, LineKey]] = Index("turf_of")
SOD_ON: Final[Index[TurfStrip, str]] = Index("sod_on")
_file(PASSES, PASS, lambda cut, _: ("",))
_file(PASSES_BY, PASS, lambda cut, _: (surface_machine(cut.surface_id, cut.machine_id),))
_file(PASSES_ON, PASS, lambda cut, _: (cut.surface_id,))
_file(CUTS_OF, PASS, lambda cut, _: [line_key(cut.surface_id, name) for name in cut.line_ids])
_file(SOD_ON, TURF_STRIP, lambda turf, _: () if turf.sod_nm is None else (turf.surface_id,))
_file(TURF_OF, TURF_STRIP, lambda turf, _: [line_key(turf.surface_id, n) for n in turf.line_ids])

# Pipe: by what it is of, and by where it lies.
PIPE_OF: Final[Index[PipeLaid, str]] = Index("pipe_of")
COIL_USES: Final[Index[PipeLaid, str]] = Index("coil_uses")
PIPE_IN_LINE: Final[Index[PipeLaid, LineKey]] = Index("pipe_in_line")
PIPE_ON: Final[Index[PipeLaid, str]] = Index("pipe_on")
PIPE_IN_COLLECTOR: Final[Index[PipeLaid, str]] = Index("pipe_in_collector")
_file(PIPE_OF, PIPE_LAID, lambda pipe, _: (pipe.material_id,))
_file(COIL_USES, PIPE_LAID, lambda pipe, _: _if_any(pipe.coil_id))
_file(
    PIPE_IN_LINE,
    PIPE_LAID,
    lambda pipe, _: (line_key(pipe.surface_id, pipe.line_id),) if pipe.line_id else (),
)
_file(PIPE_ON, PIPE_LAID, lambda pipe, _: (pipe.surface_id,) if pipe.line_id else ())
_file(PIPE_IN_COLLECTOR, PIPE_LAID, lambda pipe, _: _if_any(pipe.collector_id))

# Setups of the laser and what was read from them.
SHOTS_FROM: Final[Index[GradeShot, str]] = Index("shots_from")
SETUPS: Final[Index[LaserSetup, str]] = Index("setups")
SETUPS_ON: Final[Index[LaserSetup, str]] = Index("setups_on")
SETUPS_BY: Final[Index[LaserSetup, str]] = Index("setups_by")
TURNING_NAMED: Final[Index[TurningPoint, str]] = Index("turning_named")
CHECKS_ON: Final[Index[CheckShot, str]] = Index("checks_on")
_file(SHOTS_FROM, GRADE_SHOT, lambda shot, _: (shot.setup_id,))
_file(SETUPS, SETUP, lambda setup, _: ("",))
_file(SETUPS_ON, SETUP, lambda setup, _: (setup.on_point,))
_file(SETUPS_BY, SETUP, lambda setup, _: (setup.instrument_id,))
_file(TURNING_NAMED, TURNING_POINT, lambda point, _: (point.point_id,))
_file(CHECKS_ON, CHECK_SHOT, lambda shot, _: (shot.on_point,))

# Days: their acts by the day they are of, work by the day it was written.
DAY_ACTS: Final[Index[DayClosed | DayReopened, str]] = Index("day_acts")
DAY_ENDS: Final[Index[DayClosed | Signature | Tomorrow, str]] = Index("day_ends")
SIGNED: Final[Index[Signature, str]] = Index("signed")
HOURS_ON: Final[Index[Hours, str]] = Index("hours_on")
WORK_ON: Final[Index[Work, str]] = Index("work_on")
DUG_AT: Final[Index[PassCut | PipeLaid | GradeShot, DayPlace]] = Index("dug_at")
_file(DAY_ACTS, DAY_CLOSED, lambda act, _: (act.of_day,))
_file(DAY_ENDS, DAY_CLOSED, lambda act, _: (act.of_day,))
_file(DAY_ACTS, DAY_REOPENED, lambda act, _: (act.of_day,))
_file(SIGNED, SIGNATURE, lambda signed, _: (signed.of_day,))
_file(DAY_ENDS, SIGNATURE, lambda signed, _: (signed.of_day,))
_file(DAY_ENDS, TOMORROW, lambda _, day: (day,))
_file(HOURS_ON, HOURS, lambda _, day: (day,))
_file(WORK_ON, PASS, lambda _, day: (day,))
_file(WORK_ON, PIPE_LAID, lambda _, day: (day,))
_file(WORK_ON, GRADE_SHOT, lambda _, day: (day,))
_file(WORK_ON, LAYER_CHECK, lambda _, day: (day,))
_file(WORK_ON, TURF_STRIP, lambda _, day: (day,))
_file(WORK_ON, SAND_PLACED, lambda _, day: (day,))
_file(DUG_AT, PASS, lambda cut, day: (day_place(day, cut.surface_id),))
_file(DUG_AT, PIPE_LAID, lambda pipe, day: (day_place(day, pipe.surface_id or pipe.collector_id),))
_file(
    DUG_AT,  # a rod on the ground or on a hub opens nothing
    GRADE_SHOT,
    lambda shot, day: () if shot.on in {"ground", "hub"} else (day_place(day, shot.collector_id),),
)

# Sand, loads and coils.
SAND_ON: Final[Index[SandPlaced, str]] = Index("sand_on")
SAND_OF: Final[Index[SandPlaced, str]] = Index("sand_of")
SAND_WITHOUT_PASS: Final[Index[SandPlaced, str]] = Index("sand_without_pass")
COIL_IN: Final[Index[Delivery, str]] = Index("coil_in")
TICKET_IN: Final[Index[Delivery, str]] = Index("ticket_in")
_file(SAND_ON, SAND_PLACED, lambda sand, _: (sand.surface_id,))
_file(SAND_OF, SAND_PLACED, lambda sand, _: (sand.material_id,))
_file(SAND_WITHOUT_PASS, SAND_PLACED, lambda sand, _: () if sand.pass_id else (sand.surface_id,))
_file(COIL_IN, DELIVERY, lambda load, _: _if_any(load.coil_id))
_file(TICKET_IN, DELIVERY, lambda load, _: _if_any(load.ticket))

# Places: what drains where, and ties to permanent points.
DRAINS_TO: Final[Index[Surface, str]] = Index("drains_to")
TIES_FROM: Final[Index[Tie, str]] = Index("ties_from")
TIES_OF: Final[Index[Tie, str]] = Index("ties_of")
TIES_ON: Final[Index[Tie, str]] = Index("ties_on")
_file(DRAINS_TO, SURFACE, lambda surface, _: _if_any(surface.collector_id))
_file(TIES_FROM, TIE, lambda tie, _: (tie.point_id,))
_file(TIES_OF, TIE, lambda tie, _: _if_any(tie.collector_id))
_file(TIES_ON, TIE, lambda tie, _: _if_any(tie.surface_id))

# Totals. Lengths in nm, volumes in pl, masses in ug. Lengths of slits are the ledger's.
PLACED_PL: Final[Total[str]] = Total("placed_pl")
PLACED_UG: Final[Total[str]] = Total("placed_ug")
PLACED_DAMP_PL: Final[Total[str]] = Total("placed_damp_pl")
PLACED_PL_ON: Final[Total[DayPlace]] = Total("placed_pl_on")
PLACED_UG_ON: Final[Total[DayPlace]] = Total("placed_ug_on")
_add(PLACED_PL, SAND_PLACED, lambda sand, _: ((sand.material_id, sand.volume_pl or 0),))
_add(PLACED_UG, SAND_PLACED, lambda sand, _: ((sand.material_id, sand.mass_ug or 0),))
_add(
    PLACED_DAMP_PL,
    SAND_PLACED,
    lambda sand, _: ((sand.material_id, sand.volume_pl or 0),) if sand.moisture == "damp" else (),
)
_add(
    PLACED_PL_ON,
    SAND_PLACED,
    lambda sand, day: ((day_place(day, sand.surface_id), sand.volume_pl or 0),),
)
_add(
    PLACED_UG_ON,
    SAND_PLACED,
    lambda sand, day: ((day_place(day, sand.surface_id), sand.mass_ug or 0),),
)

DELIVERED_UG: Final[Total[str]] = Total("delivered_ug")
DELIVERED_PL: Final[Total[str]] = Total("delivered_pl")
DELIVERED_NM: Final[Total[str]] = Total("delivered_nm")
DELIVERED_DAMP_PL: Final[Total[str]] = Total("delivered_damp_pl")
_add(DELIVERED_UG, DELIVERY, lambda load, _: ((load.material_id, load.mass_ug or 0),))
_add(DELIVERED_PL, DELIVERY, lambda load, _: ((load.material_id, load.volume_pl or 0),))
_add(DELIVERED_NM, DELIVERY, lambda load, _: ((load.material_id, load.length_nm or 0),))
_add(
    DELIVERED_DAMP_PL,
    DELIVERY,
    lambda load, _: ((load.material_id, load.volume_pl or 0),) if load.moisture == "damp" else (),
)

LAID_NM: Final[Total[str]] = Total("laid_nm")
LAID_NM_ON: Final[Total[DayPlace]] = Total("laid_nm_on")
DRAWN_NM: Final[Total[str]] = Total("drawn_nm")
_add(LAID_NM, PIPE_LAID, lambda pipe, _: ((pipe.material_id, pipe.length_nm),))
_add(
    LAID_NM_ON,
    PIPE_LAID,
    lambda pipe, day: ((day_place(day, pipe.surface_id or pipe.collector_id), pipe.length_nm),),
)
_add(DRAWN_NM, PIPE_LAID, lambda pipe, _: ((pipe.coil_id, pipe.length_nm),) if pipe.coil_id else ())

SPOIL_PL: Final[Total[str]] = Total("spoil_pl")
SPOIL_PL_ON: Final[Total[str]] = Total("spoil_pl_on")
_add(SPOIL_PL, SPOIL, lambda away, _: (("", away.volume_pl),))
_add(SPOIL_PL_ON, SPOIL, lambda away, day: ((day, away.volume_pl),))


def _if_any(name: str) -> tuple[str, ...]:
    """Key of a name that an entry may leave out."""
    return (name,) if name else ()
