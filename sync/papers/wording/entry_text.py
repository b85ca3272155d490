"""An entry in a line of plain words, for lists of work, struck readings and proofs."""

from __future__ import annotations

from collections.abc import Sequence

from models.counted import CountedNoun
from models.entries.bodies.collector_work import (
    HoldPoint,
    LayerCheck,
    OutletSeen,
    TrenchProtection,
    UtilityMet,
)
from models.entries.bodies.day import Delay, Hours, Tomorrow, Weather
from models.entries.bodies.levels import GradeShot, LaserSetup
from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.bodies.outlets import BAD_AIR, Outlet, Structure
from models.entries.bodies.passes import PassCut, PipeLaid, Probe, SandPlaced, TurfStrip
from models.entries.body import Body
from models.entries.bounds import UNTIMED, Unfit
from models.entries.envelope import AnyEntry
from models.entries.field_text import text_pieces
from models.entries.kind_names import (
    BENCHMARK,
    CHECK_SHOT,
    COLLECTOR,
    DAY_CLOSED,
    DAY_REOPENED,
    DELAY,
    DELIVERY,
    DISPOSITION,
    GO_AHEAD,
    GRADE_SHOT,
    HOLD_POINT,
    HOURS,
    JOB,
    LAYER_CHECK,
    LOCATE_TICKET,
    MACHINE,
    MATERIAL,
    NOTE,
    OUTLET,
    OUTLET_SEEN,
    PASS,
    PERSON,
    PHOTO,
    PIPE_LAID,
    PROBE,
    SAND_PLACED,
    SETUP,
    SIGNATURE,
    SPOIL,
    STRUCK,
    STRUCTURE,
    SURFACE,
    TOMORROW,
    TRENCH_PROTECTION,
    TURF_STRIP,
    TURNING_POINT,
    UTILITY,
    WATERED_IN,
    WEATHER,
)
from models.units import show_duration, show_time_of_day
from models.units.job_units import Figures
from models.units.times import NO_TIME
from sync.papers.wording.end_text import END_WORDS, TITLES, Say, amount_of, join_parts, text_for
from sync.papers.wording.position_text import position_words
from sync.papers.wording.safe_text import single_line

_NEWER = "written by a newer version; its figures are kept in the book"


def title_of(kind: str) -> str:
    """Kind of an entry as a heading: ``Grade shot``."""
    return _TITLES.get(kind, kind.replace("_", " ").capitalize())


def details_of(entry: AnyEntry, figures: Figures) -> str:
    """Details of an entry, in one line."""
    if entry.body is None:
        return UNREAD[entry.unfit]
    try:
        return single_line(body_text(entry.body, figures))
    except Exception:  # one entry costs its own line
        return "can't be shown; it is kept in the book"


def body_text(body: Body, figures: Figures) -> str:
    """Text of a body: the words of its kind, then its fields that are filled."""
    said = SAY[body.kind](body, figures)
    return join_parts(said, *text_pieces(body, figures), _position(body, figures))


UNREAD: dict[Unfit, str] = {
    **dict.fromkeys(("", "newer", "needs"), _NEWER),
    "not_json": "can't be read: its bytes are those of no entry; they are kept in the book",
    "bounds": "can't be read: it is larger than an entry may be; it is kept in the book",
    "time": "can't be read: its day or time is none; it is kept in the book",
    "body": "can't be read: what it says does not fit its kind; it is kept in the book",
    "fold": "can't be put among the others; it is kept in the book",
}
"""Why an entry stands without its figures, in a line."""


def time_of(entry: AnyEntry, figures: Figures) -> str:
    """Local time at which an entry was written; for one written on another day, that day.

    A load typed up a week later did not come at the hour of the typing.
    """
    written = _day_written(entry)
    if written != entry.day:
        return written
    return show_time_of_day(_minutes(entry), halves=figures.is_us)


def moment_of(entry: AnyEntry, figures: Figures) -> str:
    """Local day and time at which an entry was written, whatever day it belongs to."""
    if entry.unfit in UNTIMED:
        return NO_TIME
    return f"{_day_written(entry)} {show_time_of_day(_minutes(entry), halves=figures.is_us)}"


def _minutes(entry: AnyEntry) -> int:
    return entry.at_ms // 60_000 + entry.offset_min


def _day_written(entry: AnyEntry) -> str:
    """Day on the wall where it was written; the day that an entry belongs to may be another."""
    return entry.written_at("%Y-%m-%d")


def _places(body: TurfStrip) -> str:
    return f"{body.surface_id} {line_names(body.line_ids)}"


def line_names(names: Sequence[str]) -> str:
    """Names of lines, neighbours by number run together: ``S01 to S04, P02``.

    Examples
    --------
    >>> line_names(["S01", "S02", "S03", "P02", "S09"])
    'S01 to S03, P02, S09'
    """
    runs: list[list[str]] = []
    for name in names:
        if runs and _is_next(runs[-1][-1], name):
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(_run(run) for run in runs)


def _is_next(one: str, other: str) -> bool:
    left, right = one.rstrip("0123456789"), other.rstrip("0123456789")
    digits = one[len(left) :], other[len(right) :]
    return left == right and all(digits) and int(digits[1]) == int(digits[0]) + 1


def _run(run: list[str]) -> str:
    return f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run)


def _pass(body: PassCut, figures: Figures) -> str:
    lines = " ".join(body.line_ids)
    return f"{body.pass_id}: {figures.length(body.length_nm)} on {lines}"


def _probe(body: Probe, figures: Figures) -> str:
    at = f"{body.pass_id} {body.line_id} at {figures.length(body.along_nm)}"
    return f"{at}: {figures.depth(body.depth_nm)}"


def _sand(body: SandPlaced, figures: Figures) -> str:
    place = body.pass_id or body.surface_id
    return f"{place}: {amount_of(body, figures)} of {body.material_id}, {body.moisture}"


def _pipe(body: PipeLaid, figures: Figures) -> str:
    place = f"{body.surface_id} {body.line_id}".strip() or body.collector_id
    return f"{place}: {figures.length(body.length_nm)}"


def _delivery(body: Delivery, figures: Figures) -> str:
    ticket = f"ticket {body.ticket}" if body.ticket else "no ticket"
    return f"{body.material_id}: {amount_of(body, figures)}, {ticket}"


def _spoil(body: SpoilAway, figures: Figures) -> str:
    return figures.volume(body.volume_pl)


def _setup(body: LaserSetup, figures: Figures) -> str:
    sight = "none" if body.backsight_nm is None else figures.level(body.backsight_nm)
    plane = "level plane"
    if body.plane == "graded":
        plane = f"dialled {figures.grade(round(body.fall_nm * 1_000_000 / body.run_nm))}"
    laser = body.instrument_id or body.instrument
    return join_parts(f"{body.setup_id}: backsight {sight} on {body.on_point}", plane, laser)


def _span(body: LayerCheck | HoldPoint | TrenchProtection, figures: Figures) -> str:
    ends = f"{figures.station(body.from_nm)} to {figures.station(body.to_nm)}"
    return f"{body.collector_id} {ends}"


def _layer(body: LayerCheck, figures: Figures) -> str:
    thick = "" if body.thickness_nm is None else f"least {figures.depth(body.thickness_nm)}"
    wire = {None: "", True: "signal traced end to end", False: "signal NOT continuous"}
    layer = body.layer.replace("_", " ")
    return join_parts(f"{_span(body, figures)}: {layer}", thick, wire[body.continuous])


def _shot(body: GradeShot, figures: Figures) -> str:
    on = body.on.replace("_", " ")
    at = f"{body.collector_id} {figures.station(body.station_nm)} {on}"
    return f"{at}: rod {figures.level(body.reading_nm)} from {body.setup_id}"


def _protection(body: TrenchProtection, figures: Figures) -> str:
    how = body.protection.replace("_", " ")
    depth = f"{_span(body, figures)}: to {figures.depth(body.depth_nm)} deep"
    return f"{depth}, {how}, judged by {body.judged_by}"


def _hours(body: Hours, figures: Figures) -> str:
    return f"{body.who}: {show_duration(body.run_min)}"


def _weather(body: Weather, figures: Figures) -> str:
    ground = body.ground.replace("_", " ")
    temperature = body.temperature_typed or temperatures(body, figures)
    return join_parts(body.sky, f"ground {ground}", temperature)


def temperatures(body: Weather, figures: Figures) -> str:
    """Lowest and highest temperature of a weather entry in the job's degrees."""
    tenths = [one for one in (body.low_tenths_c, body.high_tenths_c) if one is not None]
    if figures.is_us:
        return " to ".join(f"{round(one * 9 / 50 + 32)}" for one in tenths) + " F" * bool(tenths)
    return " to ".join(f"{one / 10:.0f}" for one in tenths) + " C" * bool(tenths)


def _delay(body: Delay, figures: Figures) -> str:
    return f"{body.cause}: {show_duration(body.lost_min)} lost"


def _planned_outlet(body: Outlet, figures: Figures) -> str:
    leave = f"leave {body.permission.replace('_', ' ')}"
    said = join_parts(f"{body.outlet_id}: {body.name}", body.what.replace("_", " "), leave)
    return f"{BAD_AIR} {said}" if body.has_bad_air else said


def _structure(body: Structure, figures: Figures) -> str:
    said = join_parts(f"{body.structure_id}: {body.what.replace('_', ' ')}", body.about)
    return f"{BAD_AIR} {said}" if body.has_bad_air else said


def _outlet(body: OutletSeen, figures: Figures) -> str:
    flows = {"free": "runs free", "slow": "runs slowly"}.get(body.flows, body.flows)
    return f"{body.outlet_id}: {flows}"


def _position(body: Body, figures: Figures) -> str:
    """Where the tablet had it, behind all else: several fields in one piece."""
    return position_words(body, figures) if isinstance(body, (UtilityMet, OutletSeen)) else ""


def _tomorrow(body: Tomorrow, figures: Figures) -> str:
    clear = f"must be clear: {body.must_be_clear}" if body.must_be_clear else ""
    sand = f"sand to call in: {figures.mass(body.sand_ug)}" if body.sand_ug else ""
    return join_parts(body.work, clear, sand)


_TITLES = TITLES | {
    "pass": "Pass cut",
    "probe": "Depth probe",
    "turf_strip": "Turf strip",
    "sand_placed": "Sand placed",
    "watered_in": "Watered in",
    "setup": "Laser setup",
    "utility": "In the ground",
    "outlet_seen": "Outlet",
    "delay": "Lost time",
    "disposition": "Answer to a flag",
    "struck": "Struck out",
    "spoil": "Spoil away",
    "layer_check": "Layer",
    "go_ahead": "Gone on anyway",
    "hold_point": "Released",
    "locate_ticket": "Locate ticket",
}

SAY: dict[str, Say] = END_WORDS | dict(
    (
        text_for(JOB, lambda b, f: join_parts(b.job_id, b.name, b.site)),
        text_for(
            BENCHMARK,
            lambda b, f: join_parts(f"{b.benchmark_id}: {f.level(b.elevation_nm)}", b.where),
        ),
        text_for(MATERIAL, lambda b, f: join_parts(f"{b.material_id} ({b.use})", b.about)),
        text_for(
            LOCATE_TICKET,
            lambda b, f: f"{b.ticket}: {f.day(b.valid_from)} to {f.day(b.expires_on)} {b.covers}",
        ),
        text_for(PERSON, lambda b, f: join_parts(b.name, b.role)),
        text_for(MACHINE, lambda b, f: join_parts(b.machine_id, b.about)),
        text_for(
            SURFACE,
            lambda b, f: (
                f"{b.surface_id}: {b.name}, {CountedNoun(len(b.lines)):line|lines} planned"
            ),
        ),
        text_for(
            COLLECTOR, lambda b, f: f"{b.collector_id}: {b.name}, {f.length(b.design.length_nm)}"
        ),
        text_for(OUTLET, _planned_outlet),
        text_for(STRUCTURE, _structure),
        text_for(PASS, _pass),
        text_for(PROBE, _probe),
        text_for(TURF_STRIP, lambda b, f: f"{b.step.replace('_', ' ')}: {b.pass_id or _places(b)}"),
        text_for(SAND_PLACED, _sand),
        text_for(WATERED_IN, lambda b, f: b.pass_id or b.surface_id),
        text_for(PIPE_LAID, _pipe),
        text_for(DELIVERY, _delivery),
        text_for(SPOIL, _spoil),
        text_for(SETUP, _setup),
        text_for(
            TURNING_POINT, lambda b, f: f"{b.point_id}: {f.level(b.foresight_nm)} from {b.setup_id}"
        ),
        text_for(
            CHECK_SHOT, lambda b, f: f"{b.on_point}: {f.level(b.reading_nm)} from {b.setup_id}"
        ),
        text_for(GRADE_SHOT, _shot),
        text_for(LAYER_CHECK, _layer),
        text_for(HOLD_POINT, lambda b, f: f"{_span(b, f)} by {b.released_by}"),
        text_for(TRENCH_PROTECTION, _protection),
        text_for(GO_AHEAD, lambda b, f: f"{b.place}: no {b.missing.replace('_', ' ')}; {b.reason}"),
        text_for(UTILITY, lambda b, f: f"{b.what} {b.event}: {b.where}"),
        text_for(OUTLET_SEEN, _outlet),
        text_for(HOURS, _hours),
        text_for(WEATHER, _weather),
        text_for(DELAY, _delay),
        text_for(NOTE, lambda b, f: b.text),
        text_for(PHOTO, lambda b, f: join_parts(b.caption or "no caption", b.where)),
        text_for(TOMORROW, _tomorrow),
        text_for(DISPOSITION, lambda b, f: f"{b.answer}: {b.said or b.flag}. Why: {b.why}"),
        text_for(SIGNATURE, lambda b, f: f"{b.name} ({b.role}): {b.meaning.replace('_', ' ')}"),
        text_for(DAY_CLOSED, lambda b, f: f"{f.day(b.of_day)} closed, code {b.check_code}"),
        text_for(DAY_REOPENED, lambda b, f: f"{f.day(b.of_day)} reopened: {b.why}"),
        text_for(STRUCK, lambda b, f: b.why),
    )
)
