"""Reads what the After the rain screen shows."""

from __future__ import annotations

from collections.abc import Iterable

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import DayRow, NamedItem
from crewapp.kit.look.palette import Status
from crewapp.pages.after_rain.results_presenter import rain_rows, sand_rows
from crewapp.pages.after_rain.tie_forms import FLOWS, distance_field
from crewapp.pages.after_rain.view import AfterRainView, ShowAfterRain
from crewapp.words.dates import full_day
from crewapp.words.translate import say
from models.entries.bodies.planning import PermanentPoint, Tie
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.index import EntryKind
from models.entries.kind_names import (
    BY_NAME,
    COLLECTOR,
    INFILTRATION_TEST,
    MATERIAL,
    OUTLET,
    OUTLET_SEEN,
    PERMANENT_POINT,
    RAIN,
    SURFACE,
    SURFACE_SEEN,
    TIE,
)

COUNTED = ("rain", "surface_seen", "infiltration_test", "sand_top_up", "repair")
ENOUGH_TIES = 2


@answers(ShowAfterRain)
def after_rain_view(job: OpenJob, query: ShowAfterRain) -> AfterRainView:
    """Read the view; rains and figures of sand only for the part that shows them."""
    state, moment = job.state, job.clock.now()
    surfaces = [state.latest(SURFACE, name) for name in state.every_name(SURFACE)]
    plans = [one for one in surfaces if isinstance(one, Surface)]
    materials = [state.latest(MATERIAL, name) for name in state.every_name(MATERIAL)]
    known = [one for one in materials if one is not None]
    return AfterRainView(
        figures=job.figures,
        today=moment.day,
        now_ms=moment.at_ms,
        zone=moment.zone,
        is_closed=state.is_closed(moment.day),
        surfaces=tuple(NamedItem(one.surface_id, one.name) for one in plans),
        collectors=_collectors(job),
        lines={one.surface_id: tuple(line.line_id for line in one.lines) for one in plans},
        plots={one.surface_id: _plots(job, one.surface_id) for one in plans},
        gauges=_once(one.gauge for one in state.bodies(RAIN)),
        materials=tuple(_named(one.material_id) for one in known if one.use in _WEIGHED),
        sands=tuple(_named(one.material_id) for one in known if one.use == "sand"),
        points=tuple(NamedItem(one.point_id, one.where) for one in _points(job)),
        ends=end_rows(job),
        outlets=_outlets(job),
        outlet_names=_outlet_names(job),
        chambers=_chambers(job),
        counts={kind: _count(job, BY_NAME[kind]) for kind in COUNTED},
        rains=rain_rows(job) if query.part == "rains" else (),
        sand_facts=sand_rows(job) if query.part == "sand" else (),
    )


_WEIGHED = frozenset({"sand", "gravel"})


def _named(name: str) -> NamedItem:
    return NamedItem(name, name)


def _collectors(job: OpenJob) -> tuple[NamedItem, ...]:
    found = []
    for name in job.state.every_name(COLLECTOR):
        collector = job.state.latest(COLLECTOR, name)
        found.append(NamedItem(name, (collector.name if collector is not None else "") or name))
    return tuple(found)


def _outlet_names(job: OpenJob) -> tuple[NamedItem, ...]:
    """Outlets of the plan, then collectors of which no outlet is planned."""
    found = []
    for name in job.state.every_name(OUTLET):
        outlet = job.state.latest(OUTLET, name)
        if outlet is not None:
            found.append(NamedItem(name, outlet.name))
    for name in job.state.every_name(COLLECTOR):
        collector = job.state.latest(COLLECTOR, name)
        if collector is not None and collector.joins is None:
            found.append(NamedItem(name, collector.name or name))
    return tuple(found)


def _outlets(job: OpenJob) -> tuple[DayRow, ...]:
    """Each outlet: how it ran, and at what level the water stood, when it was last seen."""
    return tuple(_outlet_row(job, one.name) for one in _outlet_names(job))


def _outlet_row(job: OpenJob, name: str) -> DayRow:
    title = say("{name}, outlet as seen", name=name)
    seen = job.state.current(OUTLET_SEEN, name)
    if not seen:
        detail, status = say("not seen yet"), Status.NOT_MEASURED
    else:
        body = seen[-1].body
        day = full_day(seen[-1].day, job.figures.is_us)
        detail, status = say("{flows}, {day}", flows=say(FLOWS[body.flows]), day=day), Status.OK
        if body.water_nm is not None:
            level = job.figures.level(body.water_nm)
            detail = say("{seen}, water at {level}", seen=detail, level=level)
    outlet = job.state.latest(OUTLET, name)
    if outlet is not None and outlet.permission in {"not_asked", "asked"}:
        detail, status = say("{seen}; no leave yet", seen=detail), Status.CHECK
    return DayRow(f"outlet/{name}", title, detail, status=status)


def _chambers(job: OpenJob) -> frozenset[str]:
    """Outlets that bad air may gather in."""
    planned = [job.state.latest(OUTLET, name) for name in job.state.every_name(OUTLET)]
    return frozenset(one.outlet_id for one in planned if one is not None and one.has_bad_air)


def _count(job: OpenJob, kind: EntryKind[Body]) -> int:
    return sum(len(job.state.current(kind, name)) for name in job.state.every_name(kind))


def _plots(job: OpenJob, surface_id: str) -> tuple[str, ...]:
    """Parts of a surface that were looked at or tested before, the newest first."""
    seen = job.state.bodies(SURFACE_SEEN, surface_id)
    rings = job.state.bodies(INFILTRATION_TEST, surface_id)
    named = [one.plot for one in seen]
    named += [one.where for one in rings]
    return _once(reversed(named))


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for one in words if one))


def _points(job: OpenJob) -> list[PermanentPoint]:
    found = [
        job.state.latest(PERMANENT_POINT, name) for name in job.state.every_name(PERMANENT_POINT)
    ]
    return [one for one in found if isinstance(one, PermanentPoint)]


def end_rows(job: OpenJob) -> tuple[DayRow, ...]:
    """Ends of collectors with their ties, then whatever else was tied."""
    ties: dict[str, list[Tie]] = {}
    titles: dict[str, str] = {}
    for name in job.state.every_name(COLLECTOR):
        titles[f"collector_outlet/{name}"] = say("{collector}, outlet", collector=name)
        titles[f"collector_head/{name}"] = say("{collector}, head", collector=name)
    for body in job.state.bodies(TIE):
        if isinstance(body, Tie):
            key = _key_of(body)
            titles.setdefault(key, _title_of(body))
            ties.setdefault(key, []).append(body)
    return tuple(_end(job, key, title, ties.get(key, [])) for key, title in titles.items())


def _key_of(tie: Tie) -> str:
    if tie.tied.startswith("collector"):
        return f"{tie.tied}/{tie.collector_id}"
    if tie.tied == "other":
        return f"other/{tie.what}"
    return f"line/{tie.surface_id}/{tie.line_id}/{tie.tied}"


def _title_of(tie: Tie) -> str:
    if tie.tied == "line_start":
        return say("{surface} {line}, start", surface=tie.surface_id, line=tie.line_id)
    if tie.tied == "line_end":
        return say("{surface} {line}, end", surface=tie.surface_id, line=tie.line_id)
    return tie.what


def _end(job: OpenJob, key: str, title: str, ties: list[Tie]) -> DayRow:
    points = {tie.point_id for tie in ties}
    is_enough = len(points) >= ENOUGH_TIES
    status = Status.OK if is_enough else Status.CHECK if ties else Status.NOT_MEASURED
    show = distance_field(job.figures, "").show
    told = [
        say(
            "{distance} from {point}",
            distance=show(tie.distance_nm),
            point=tie.point_id,
        )
        for tie in ties
    ]
    return DayRow(key, title, ", ".join(told) or say("tied to nothing yet"), "", status)
