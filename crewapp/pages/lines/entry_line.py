"""Any entry in one line, in the job's units: for strips, lists and logs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from crewapp.words.dates import full_day
from crewapp.words.translate import later, say
from models.entries.bounds import UNREADABLE
from models.entries.envelope import AnyEntry
from models.units import show_duration
from models.units.job_units import Figures

Teller = Callable[[Any, Figures], str]
_NEWER = later("written by a newer version: {kind}")
_CANT_BE_READ = later("can't be read, kept as it is: {kind}")


def said(entry: AnyEntry, figures: Figures) -> str:
    """Say what an entry records, in one line."""
    if entry.body is None:
        told = _CANT_BE_READ if entry.unfit in UNREADABLE else _NEWER
        return say(told, kind=entry.kind)
    teller = _TELLERS.get(entry.kind)
    return teller(entry.body, figures) if teller else say(entry.kind.replace("_", " "))


def _amount(body: Any, figures: Figures) -> str:
    if getattr(body, "mass_ug", None) is not None:
        return figures.mass(body.mass_ug)
    if getattr(body, "length_nm", None) is not None:
        return figures.length(body.length_nm)
    return figures.volume(body.volume_pl or 0)


def _reading(body: Any, figures: Figures) -> str:
    nm = body.backsight_nm if hasattr(body, "backsight_nm") else body.reading_nm
    return say("no reading") if nm is None else figures.level(nm)


def _pass(body: Any, figures: Figures) -> str:
    lines, length = ", ".join(body.line_ids), figures.length(body.length_nm)
    return say(
        "pass {name}, lines {lines}, {length}", name=body.pass_id, lines=lines, length=length
    )


def _probe(body: Any, figures: Figures) -> str:
    depth, along = figures.depth(body.depth_nm), figures.length(body.along_nm)
    return say(
        "depth {depth} at {along} on line {line}", depth=depth, along=along, line=body.line_id
    )


def _shot(body: Any, figures: Figures) -> str:
    return say(
        "{reading} on {what} at {station}",
        reading=figures.level(body.reading_nm),
        what=say(body.on.replace("_", " ")),
        station=figures.station(body.station_nm),
    )


def _range(body: Any, figures: Figures) -> str:
    return f"{figures.station(body.from_nm)} - {figures.station(body.to_nm)}"


def _gone_on(body: Any) -> dict[str, str]:
    return {"missing": say(body.missing.replace("_", " ")), "why": body.reason}


_TELLERS: dict[str, Teller] = {
    "pass": _pass,
    "probe": _probe,
    "turf_strip": lambda b, f: say(
        "turf {step}, lines: {count}", step=say(b.step.replace("_", " ")), count=len(b.line_ids)
    ),
    "sand_placed": lambda b, f: say(
        "sand {amount}, {moisture}", amount=_amount(b, f), moisture=say(b.moisture)
    ),
    "watered_in": lambda b, f: say("watered in {name}", name=b.pass_id or b.surface_id),
    "pipe_laid": lambda b, f: say(
        "pipe {length} in {where}", length=f.length(b.length_nm), where=b.line_id or b.collector_id
    ),
    "delivery": lambda b, f: say(
        "{material} in: {amount}, ticket {ticket}",
        material=b.material_id,
        amount=_amount(b, f),
        ticket=b.ticket or say("none"),
    ),
    "spoil": lambda b, f: say("spoil away {amount}", amount=f.volume(b.volume_pl)),
    "instrument": lambda b, f: say(
        "{name}: {what}", name=b.instrument_id, what=say(b.what.replace("_", " "))
    ),
    "instrument_event": lambda b, f: say("{name} {what}", name=b.instrument_id, what=say(b.what)),
    "peg_test": lambda b, f: say("peg test of {name}", name=b.instrument_id),
    "setup": lambda b, f: say(
        "setup {name} on {point}, backsight {reading}",
        name=b.setup_id,
        point=b.on_point,
        reading=_reading(b, f),
    ),
    "turning_point": lambda b, f: say(
        "turning point {point}, foresight {reading}",
        point=b.point_id,
        reading=f.level(b.foresight_nm),
    ),
    "check_shot": lambda b, f: say(
        "check shot on {point}, {reading}", point=b.on_point, reading=_reading(b, f)
    ),
    "grade_shot": _shot,
    "layer_check": lambda b, f: say(
        "{layer} checked {range}", layer=say(b.layer.replace("_", " ")), range=_range(b, f)
    ),
    "hold_point": lambda b, f: say(
        "released to cover {range} by {name}", range=_range(b, f), name=b.released_by
    ),
    "trench_protection": lambda b, f: say(
        "trench {protection} {range}",
        protection=say(b.protection.replace("_", " ")),
        range=_range(b, f),
    ),
    "go_ahead": lambda b, f: say("gone on without {missing}: {why}", **_gone_on(b)),
    "utility": lambda b, f: say(
        "{what} {event}: {where}", what=b.what, event=say(b.event), where=b.where
    ),
    "outlet_seen": lambda b, f: say("outlet {name} {flows}", name=b.outlet_id, flows=say(b.flows)),
    "hours": lambda b, f: say("{who}, {time}", who=b.who, time=show_duration(b.run_min)),
    "weather": lambda b, f: say(
        "{sky}, ground {ground}", sky=say(b.sky), ground=say(b.ground.replace("_", " "))
    ),
    "delay": lambda b, f: say(
        "{time} lost: {cause}", time=show_duration(b.lost_min), cause=b.cause
    ),
    "note": lambda b, f: b.text,
    "photo": lambda b, f: say("photo: {caption}", caption=b.caption),
    "tomorrow": lambda b, f: say("tomorrow: {work}", work=b.work),
    "disposition": lambda b, f: say("{answer}: {why}", answer=say(b.answer), why=b.why),
    "signature": lambda b, f: say("signed by {name}", name=b.name),
    "day_closed": lambda b, f: say("{day} closed", day=full_day(b.of_day, f.is_us)),
    "day_reopened": lambda b, f: say(
        "{day} reopened: {why}", day=full_day(b.of_day, f.is_us), why=b.why
    ),
    "struck": lambda b, f: say("struck: {why}", why=b.why),
    "layout": lambda b, f: say(
        "{surface} laid out, {count:pass|passes}", surface=b.surface_id, count=len(b.drives)
    ),
    "permanent_point": lambda b, f: say(
        "permanent point {name}: {where}", name=b.point_id, where=b.where
    ),
    "tie": lambda b, f: say(
        "{distance} from {point} to {what}",
        distance=f.length(b.distance_nm),
        point=b.point_id,
        what=" ".join(
            part
            for part in (b.line_id or b.collector_id, b.what or say(b.tied.replace("_", " ")))
            if part
        ),
    ),
    "sieve_test": lambda b, f: say("sieve sheet of {material}", material=b.material_id),
    "box_weighing": lambda b, f: say(
        "{material} weighed: {mass} in {volume}",
        material=b.material_id,
        mass=f.mass(b.mass_ug),
        volume=f.volume(b.volume_pl),
    ),
    "bulking_test": lambda b, f: say("bulking of {material}", material=b.material_id),
    "rain": lambda b, f: say("rain {depth}", depth=f.depth(b.depth_nm)),
    "surface_seen": lambda b, f: say(
        "{surface} {condition}", surface=b.surface_id, condition=say(b.condition.replace("_", " "))
    ),
    "infiltration_test": lambda b, f: say(
        "infiltration test on {surface}, {when}", surface=b.surface_id, when=say(b.when)
    ),
    "sand_top_up": lambda b, f: say(
        "sand topped up on {surface}: {amount}", surface=b.surface_id, amount=_amount(b, f)
    ),
    "repair": lambda b, f: say(
        "{done}: {where}",
        done=say(b.done.replace("_", " ")),
        where=b.line_id or b.collector_id or b.surface_id,
    ),
    "tablet_added": lambda b, f: say("tablet {name} may write", name=b.name or b.code),
    "tablet_revoked": lambda b, f: say("tablet {code} taken off the list", code=b.code),
}
