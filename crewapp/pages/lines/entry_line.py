"""Text of any entry in one line, in the job's units: for strips, lists and logs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from crewapp.words.dates import full_day
from crewapp.words.translate import say, translate_later
from models.entries.bodies.after_rain import SandTopUp
from models.entries.bodies.collector_work import GoAhead, HoldPoint, LayerCheck, TrenchProtection
from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup
from models.entries.bodies.loads import Delivery
from models.entries.bodies.passes import PassCut, Probe, SandPlaced
from models.entries.bounds import UNREADABLE
from models.entries.envelope import AnyEntry
from models.entries.field_text import line_pieces
from models.entries.index import B, EntryKind
from models.entries.kind_names import (
    BLADE_SET,
    BOX_WEIGHING,
    BULKING_TEST,
    CHECK_SHOT,
    DAY_CLOSED,
    DAY_REOPENED,
    DELAY,
    DELIVERY,
    DISPOSITION,
    GO_AHEAD,
    GRADE_SHOT,
    HOLD_POINT,
    HOURS,
    INFILTRATION_TEST,
    INSTRUMENT,
    INSTRUMENT_EVENT,
    LAYER_CHECK,
    LAYOUT,
    NOTE,
    OUTLET,
    OUTLET_SEEN,
    PASS,
    PEG_TEST,
    PERMANENT_POINT,
    PHOTO,
    PIPE_LAID,
    PROBE,
    RAIN,
    REPAIR,
    SAND_PLACED,
    SAND_TOP_UP,
    SETUP,
    SIEVE_TEST,
    SIGNATURE,
    SPOIL,
    STRUCK,
    STRUCTURE,
    SURFACE_SEEN,
    TABLET_ADDED,
    TABLET_REVOKED,
    TIE,
    TOMORROW,
    TRENCH_PROTECTION,
    TURF_STRIP,
    TURNING_POINT,
    UTILITY,
    WATERED_IN,
    WEATHER,
)
from models.entries.unknown_fields import holds_more
from models.units import show_duration
from models.units.job_units import Figures

Teller = Callable[[Any, Figures], str]
_NEWER = translate_later("written by a newer version: {kind}")
_CANT_BE_READ = translate_later("can't be read, kept as it is: {kind}")


def entry_line(entry: AnyEntry, figures: Figures) -> str:
    """Say what an entry records, in one line."""
    if entry.body is None:
        told = _CANT_BE_READ if entry.unfit in UNREADABLE else _NEWER
        return say(told, kind=entry.kind)
    teller = _TELLERS.get(entry.kind)
    told = teller(entry.body, figures) if teller else say(entry.kind.replace("_", " "))
    pieces = [say(text, value=words) for text, words in line_pieces(entry.body, figures)]
    more = [say("holds more than this version shows")] if holds_more(entry) else []
    return ", ".join([told, *pieces, *more])


def _amount(body: SandPlaced | Delivery | SandTopUp, figures: Figures) -> str:
    if body.mass_ug is not None:
        return figures.mass(body.mass_ug)
    if isinstance(body, Delivery) and body.length_nm is not None:
        return figures.length(body.length_nm)
    return figures.volume(body.volume_pl or 0)


def _reading(body: LaserSetup | CheckShot, figures: Figures) -> str:
    nm = body.backsight_nm if isinstance(body, LaserSetup) else body.reading_nm
    return say("no reading") if nm is None else figures.level(nm)


def _pass(body: PassCut, figures: Figures) -> str:
    lines, length = ", ".join(body.line_ids), figures.length(body.length_nm)
    return say(
        "pass {name}, lines {lines}, {length}", name=body.pass_id, lines=lines, length=length
    )


def _probe(body: Probe, figures: Figures) -> str:
    depth, along = figures.depth(body.depth_nm), figures.length(body.along_nm)
    return say(
        "depth {depth} at {along} on line {line}", depth=depth, along=along, line=body.line_id
    )


def _shot(body: GradeShot, figures: Figures) -> str:
    return say(
        "{reading} on {what} at {station}",
        reading=figures.level(body.reading_nm),
        what=say(body.on.replace("_", " ")),
        station=figures.station(body.station_nm),
    )


def _range(body: LayerCheck | HoldPoint | TrenchProtection, figures: Figures) -> str:
    return f"{figures.station(body.from_nm)} - {figures.station(body.to_nm)}"


def _words(choice: str) -> str:
    return choice.replace("_", " ")


def _gone_on(body: GoAhead) -> dict[str, str]:
    return {"missing": say(body.missing.replace("_", " ")), "why": body.reason}


def _line_for(kind: EntryKind[B], teller: Callable[[B, Figures], str]) -> tuple[str, Teller]:
    """A kind by its name, with what tells its bodies: here the two are held to fit."""
    return kind.name, teller


_TELLERS: dict[str, Teller] = dict(
    (
        _line_for(PASS, _pass),
        _line_for(PROBE, _probe),
        _line_for(
            TURF_STRIP,
            lambda b, f: say(
                "turf {step}, lines: {count}",
                step=say(b.step.replace("_", " ")),
                count=len(b.line_ids),
            ),
        ),
        _line_for(
            SAND_PLACED,
            lambda b, f: say(
                "sand {amount}, {moisture}", amount=_amount(b, f), moisture=say(b.moisture)
            ),
        ),
        _line_for(
            WATERED_IN, lambda b, f: say("watered in {name}", name=b.pass_id or b.surface_id)
        ),
        _line_for(
            PIPE_LAID,
            lambda b, f: say(
                "pipe {length} in {where}",
                length=f.length(b.length_nm),
                where=b.line_id or b.collector_id,
            ),
        ),
        _line_for(
            DELIVERY,
            lambda b, f: say(
                "{material} in: {amount}, ticket {ticket}",
                material=b.material_id,
                amount=_amount(b, f),
                ticket=b.ticket or say("none"),
            ),
        ),
        _line_for(SPOIL, lambda b, f: say("spoil away {amount}", amount=f.volume(b.volume_pl))),
        _line_for(
            BLADE_SET,
            lambda b, f: say(
                "{machine}, {which}: {what}",
                machine=b.machine_id,
                which=say("leg {leg}", leg=b.leg) if b.leg else say("all blades"),
                what=say(b.what.replace("_", " ")),
            ),
        ),
        _line_for(
            INSTRUMENT,
            lambda b, f: say(
                "{name}: {what}", name=b.instrument_id, what=say(b.what.replace("_", " "))
            ),
        ),
        _line_for(
            INSTRUMENT_EVENT,
            lambda b, f: say("{name} {what}", name=b.instrument_id, what=say(b.what)),
        ),
        _line_for(PEG_TEST, lambda b, f: say("peg test of {name}", name=b.instrument_id)),
        _line_for(
            SETUP,
            lambda b, f: say(
                "setup {name} on {point}, backsight {reading}",
                name=b.setup_id,
                point=b.on_point,
                reading=_reading(b, f),
            ),
        ),
        _line_for(
            TURNING_POINT,
            lambda b, f: say(
                "turning point {point}, foresight {reading}",
                point=b.point_id,
                reading=f.level(b.foresight_nm),
            ),
        ),
        _line_for(
            CHECK_SHOT,
            lambda b, f: say(
                "check shot on {point}, {reading}", point=b.on_point, reading=_reading(b, f)
            ),
        ),
        _line_for(GRADE_SHOT, _shot),
        _line_for(
            LAYER_CHECK,
            lambda b, f: say(
                "{layer} checked {range}", layer=say(b.layer.replace("_", " ")), range=_range(b, f)
            ),
        ),
        _line_for(
            HOLD_POINT,
            lambda b, f: say(
                "released to cover {range} by {name}", range=_range(b, f), name=b.released_by
            ),
        ),
        _line_for(
            TRENCH_PROTECTION,
            lambda b, f: say(
                "trench {protection} {range}",
                protection=say(b.protection.replace("_", " ")),
                range=_range(b, f),
            ),
        ),
        _line_for(GO_AHEAD, lambda b, f: say("gone on without {missing}: {why}", **_gone_on(b))),
        _line_for(
            UTILITY,
            lambda b, f: say(
                "{what} {event}: {where}", what=b.what, event=say(b.event), where=b.where
            ),
        ),
        _line_for(OUTLET, lambda b, f: say("outlet {name} planned", name=b.outlet_id)),
        _line_for(
            STRUCTURE,
            lambda b, f: say("{what} {name}", what=say(_words(b.what)), name=b.structure_id),
        ),
        _line_for(
            OUTLET_SEEN,
            lambda b, f: say("outlet {name} {flows}", name=b.outlet_id, flows=say(b.flows)),
        ),
        _line_for(
            HOURS, lambda b, f: say("{who}, {time}", who=b.who, time=show_duration(b.run_min))
        ),
        _line_for(
            WEATHER,
            lambda b, f: say(
                "{sky}, ground {ground}", sky=say(b.sky), ground=say(b.ground.replace("_", " "))
            ),
        ),
        _line_for(
            DELAY,
            lambda b, f: say("{time} lost: {cause}", time=show_duration(b.lost_min), cause=b.cause),
        ),
        _line_for(NOTE, lambda b, f: b.text),
        _line_for(PHOTO, lambda b, f: say("photo: {caption}", caption=b.caption)),
        _line_for(TOMORROW, lambda b, f: say("tomorrow: {work}", work=b.work)),
        _line_for(
            DISPOSITION, lambda b, f: say("{answer}: {why}", answer=say(b.answer), why=b.why)
        ),
        _line_for(SIGNATURE, lambda b, f: say("signed by {name}", name=b.name)),
        _line_for(DAY_CLOSED, lambda b, f: say("{day} closed", day=full_day(b.of_day, f.is_us))),
        _line_for(
            DAY_REOPENED,
            lambda b, f: say("{day} reopened: {why}", day=full_day(b.of_day, f.is_us), why=b.why),
        ),
        _line_for(STRUCK, lambda b, f: say("struck: {why}", why=b.why)),
        _line_for(
            LAYOUT,
            lambda b, f: say(
                "{surface} laid out, {count:pass|passes}", surface=b.surface_id, count=len(b.drives)
            ),
        ),
        _line_for(
            PERMANENT_POINT,
            lambda b, f: say("permanent point {name}: {where}", name=b.point_id, where=b.where),
        ),
        _line_for(
            TIE,
            lambda b, f: say(
                "{distance} from {point} to {what}",
                distance=f.length(b.distance_nm),
                point=b.point_id,
                what=" ".join(
                    part
                    for part in (
                        b.line_id or b.collector_id,
                        b.what or say(b.tied.replace("_", " ")),
                    )
                    if part
                ),
            ),
        ),
        _line_for(
            SIEVE_TEST, lambda b, f: say("sieve sheet of {material}", material=b.material_id)
        ),
        _line_for(
            BOX_WEIGHING,
            lambda b, f: say(
                "{material} weighed: {mass} in {volume}",
                material=b.material_id,
                mass=f.mass(b.mass_ug),
                volume=f.volume(b.volume_pl),
            ),
        ),
        _line_for(BULKING_TEST, lambda b, f: say("bulking of {material}", material=b.material_id)),
        _line_for(RAIN, lambda b, f: say("rain {depth}", depth=f.depth(b.depth_nm))),
        _line_for(
            SURFACE_SEEN,
            lambda b, f: say(
                "{surface} {condition}",
                surface=b.surface_id,
                condition=say(b.condition.replace("_", " ")),
            ),
        ),
        _line_for(
            INFILTRATION_TEST,
            lambda b, f: say(
                "infiltration test on {surface}, {when}", surface=b.surface_id, when=say(b.when)
            ),
        ),
        _line_for(
            SAND_TOP_UP,
            lambda b, f: say(
                "sand topped up on {surface}: {amount}", surface=b.surface_id, amount=_amount(b, f)
            ),
        ),
        _line_for(
            REPAIR,
            lambda b, f: say(
                "{done}: {where}",
                done=say(b.done.replace("_", " ")),
                where=b.line_id or b.collector_id or b.surface_id,
            ),
        ),
        _line_for(TABLET_ADDED, lambda b, f: say("tablet {name} may write", name=b.name or b.code)),
        _line_for(
            TABLET_REVOKED, lambda b, f: say("tablet {code} taken off the list", code=b.code)
        ),
    )
)
