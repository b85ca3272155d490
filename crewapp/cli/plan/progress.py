"""``crewapp progress``: how fast the work goes, when it may be done, what tomorrow takes."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from typing import Any

from crewapp.cli.books import book_to_read
from crewapp.cli.days import find_day, read_day
from crewapp.cli.example import Example
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from models.queries.schedule.forecast import Finish, Progress, UseProgress, progress
from models.queries.schedule.sand_order import SandCall
from models.queries.schedule.tomorrow_work import Tomorrow
from models.units import round_half_even
from models.units.job_units import Figures

EXAMPLES = (
    Example(
        "crewapp progress larkfield.book",
        translate_later("Rates, the finish as a range, and what comes tomorrow"),
    ),
)


USE_WORDS = {"sand_slit": "sand slits", "piped_slit": "piped slits", "collector": "collector"}


def run(args: argparse.Namespace) -> int:
    """Print how the job stands at the end of a day, the last one worked if none is named."""
    if args.day is not None:
        read_day(args.day)
    with book_to_read(args.book) as job:
        found = progress(job.state, find_day(job.state, args.day))
        figures, name = job.figures, job.name
    if args.json:
        print(json.dumps({"job": name, **_told(found)}, ensure_ascii=False))
        return 0
    print(f"{name}, at the end of {found.day}")
    print("\n".join(f"  {line}" for line in _lines(found, figures)))
    return 0


def _lines(found: Progress, figures: Figures) -> Iterator[str]:
    for use in found.uses:
        yield _use(use, figures)
    if found.is_done:
        yield "every planned length is done: nothing to forecast"
    if found.finish is not None:
        yield _finish(found, found.finish)
    for call in found.calls:
        yield _call(call, figures)
    if found.tomorrow is not None:
        yield _tomorrow(found.tomorrow, figures)
    yield from found.remarks


def _use(use: UseProgress, figures: Figures) -> str:
    done, planned = figures.distance(use.done_nm), figures.distance(use.planned_nm)
    rate = ""
    if use.nm_per_h is not None:
        an_hour = figures.distance(round_half_even(use.nm_per_h))
        rate = f", {an_hour} a machine-hour over {CountedNoun(use.timed):pass|passes}"
    left = figures.distance(use.left_nm)
    short_nm = use.planned_nm - use.done_nm - use.left_nm
    tape = f" ({figures.length(short_nm)} less by tape than planned)" if short_nm > 0 else ""
    return f"{USE_WORDS[use.use]}: {done} of {planned} done, {left} left{tape}{rate}"


def _finish(found: Progress, finish: Finish) -> str:
    days = finish.range
    lost = f", {found.lost_days} lost" if found.lost_days else ""
    due = f"; planned {found.due}{', so it is late' if found.is_late else ''}" if found.due else ""
    return (
        f"finish {finish.early} to {finish.late}, half of the trials by {finish.middle} "
        f"({days.early_days} to {CountedNoun(days.late_days):day|days} "
        f"of work, from {found.worked_days} "
        f"worked{lost}){due}"
    )


def _call(call: SandCall, figures: Figures) -> str:
    if call.on_hand_pl is None:
        return f"{call.material_id}: weigh a box; without its bulk density nothing is balanced"
    on_hand = figures.volume(abs(call.on_hand_pl))
    lies = "on hand" if call.on_hand_pl >= 0 else "more placed than delivered"
    said = f"{call.material_id}: {on_hand} {lies}"
    if call.needed_pl is not None:
        said += f", {figures.volume(call.needed_pl)} still needed"
    if call.is_enough:
        return f"{said}: enough"
    if call.call is None or call.daily_pl is None:
        return f"{said}; none placed yet, so no day to call in the next load"
    most = figures.volume(call.daily_pl)
    late = ", which is too late not to wait" if call.call.is_late else ""
    return (
        f"{said}, at most {most} a day: call in the next load on {call.call_on}"
        f"{late} ({CountedNoun(call.lead_days):day|days} from call to truck)"
    )


def _tomorrow(work: Tomorrow, figures: Figures) -> str:
    parts = [f"{figures.distance(nm)} of {USE_WORDS[use]}" for use, nm in work.lengths_nm]
    first = work.drives[0] if work.drives else None
    begin = f", first {first.surface_id} {' and '.join(first.line_ids)}" if first else ""
    sand, pipe = figures.volume(work.sand_pl), figures.distance(work.pipe_nm)
    return f"next day {work.day}: {' and '.join(parts)}{begin}; {sand} of sand, {pipe} of pipe"


def _told(found: Progress) -> dict[str, Any]:
    finish = found.finish
    return {
        "day": found.day,
        "uses": [_use_told(use) for use in found.uses],
        "worked_days": found.worked_days,
        "lost_days": found.lost_days,
        "finish": finish and [finish.early, finish.middle, finish.late],
        "is_thin": finish.range.is_thin if finish else None,
        "due": found.due,
        "is_late": found.is_late,
        "is_done": found.is_done,
        "sand": [_call_told(call) for call in found.calls],
        "tomorrow": _tomorrow_told(found.tomorrow) if found.tomorrow else None,
        "told": list(found.remarks),
    }


def _use_told(use: UseProgress) -> dict[str, Any]:
    rate = use.nm_per_h
    return {
        "use": use.use,
        "planned_nm": use.planned_nm,
        "done_nm": use.done_nm,
        "left_nm": use.left_nm,
        "nm_per_h": None if rate is None else round_half_even(rate),
        "timed_passes": use.timed,
    }


def _call_told(call: SandCall) -> dict[str, Any]:
    return {
        "material": call.material_id,
        "on_hand_pl": call.on_hand_pl,
        "most_a_day_pl": call.daily_pl,
        "needed_pl": call.needed_pl,
        "is_enough": call.is_enough,
        "call_on": call.call_on,
    }


def _tomorrow_told(work: Tomorrow) -> dict[str, Any]:
    return {
        "day": work.day,
        "lengths_nm": dict(work.lengths_nm),
        "drives": [[one.surface_id, list(one.line_ids)] for one in work.drives],
        "sand_pl": work.sand_pl,
        "pipe_nm": work.pipe_nm,
    }
