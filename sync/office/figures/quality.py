"""Quality by day, tablet and kind of measurement: right the first time, and in the end.

With n places, f of them in tolerance at their first reading and l at their last one that
stands: first-time-right is f / n, right in the end l / n; reworked are those out at first that
have a later reading. Slips are left out of these; with every reading, the first one taken
counts whatever became of it. A place counts for the day and the tablet of its first reading.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import astuple, dataclass, fields
from fractions import Fraction

from models.checks.flag_board import Flag
from models.entries.envelope import AnyEntry
from models.queries.quality.first_readings import (
    Measured,
    MeasuredPlace,
    PlaceReading,
    measured_places,
)
from models.state.job_state import JobState
from models.units.percent import percent_beside_limits

DEPTH_PROBE: Measured = "depth probe"
FEWEST = 20
"""Below so many places a percentage says more than is known; common practice, no source."""

_ON_READINGS = frozenset(
    {"depth_shallow", "depth_deep", "grade_out", "belly", "adverse_fall", "reach_flat"}
)


@dataclass(slots=True)
class Quality:
    """Counts of places; the first six leave slips out.

    ``none_stands`` are places whose readings were all struck; ``all_places`` and
    ``all_first_in`` count every reading, struck ones too; ``struck_late`` are readings that
    were struck for a slip's reason, but not at once by who took them.
    """

    places: int = 0
    first_in: int = 0
    last_in: int = 0
    reworked: int = 0
    out_answered: int = 0
    out_open: int = 0
    none_stands: int = 0
    all_places: int = 0
    all_first_in: int = 0
    struck_late: int = 0

    def add(self, other: Quality) -> None:
        """Add another's counts to these."""
        for name in COUNTS:
            setattr(self, name, getattr(self, name) + getattr(other, name))

    def values(self) -> tuple[int, ...]:
        """Return the counts in order."""
        return astuple(self)


COUNTS = tuple(one.name for one in fields(Quality))

QualityDays = dict[tuple[str, str, str], Quality]
"""By day, stream of the tablet, and what was measured."""


def quality_days(state: JobState, flags: Sequence[Flag]) -> QualityDays:
    """Return the counts of every day, tablet and thing measured.

    ``flags`` are those of the job's board: they tell which readings that are out were answered.
    """
    found: QualityDays = defaultdict(Quality)
    answered = _answered(flags)
    for place in measured_places(state):
        first = place.readings[0]
        every = found[_key(state, place, first)]
        every.all_places += 1
        every.all_first_in += first.is_in
        every.struck_late += sum(reading.struck_late for reading in place.readings)
        if place.readings_that_count:
            _count(found[_key(state, place, place.readings_that_count[0])], place, answered)
    return {key: counts for key, counts in found.items() if any(counts.values())}


def crew_stream(state: JobState, entry: AnyEntry) -> str:
    """Stream of the tablet that work counts for: that of what a correction corrects."""
    first = state.entries.get(state.place_of(entry)[0][1], entry)
    return first.stream


def share_text(part: int, whole: int, *, is_fault: bool = False) -> str:
    """A count out of a whole with its percentage, which too few places do not get.

    What is good is cut down, a fault cut up, to a tenth, so that neither is told better
    than it is.

    Examples
    --------
    >>> share_text(36, 40), share_text(3, 40, is_fault=True)
    ('36 of 40, 90 %', '3 of 40, 7.5 %')
    >>> share_text(17, 19), share_text(1, 30, is_fault=True), share_text(0, 0)
    ('17 of 19', '1 of 30, 3.4 %', '-')
    """
    if not whole:
        return "-"
    if whole < FEWEST:
        return f"{part} of {whole}"
    share = Fraction(100 * part, whole)
    shown = percent_beside_limits(share, high=0 if is_fault else None, places=1).removesuffix(".0")
    return f"{part} of {whole}, {shown} %"


def _key(state: JobState, place: MeasuredPlace, reading: PlaceReading) -> tuple[str, str, str]:
    return reading.entry.day, crew_stream(state, reading.entry), place.what


def _count(counts: Quality, place: MeasuredPlace, answered: set[str]) -> None:
    counts.places += 1
    counts.first_in += place.readings_that_count[0].is_in
    counts.reworked += place.is_reworked
    last = place.last
    if last is None:
        counts.none_stands += 1
    elif last.is_in:
        counts.last_in += 1
    elif last.entry.id in answered:
        counts.out_answered += 1
    else:
        counts.out_open += 1


def _answered(flags: Sequence[Flag]) -> set[str]:
    """Ids of readings about which flags were raised, all of them answered."""
    told: dict[bool, set[str]] = {True: set(), False: set()}
    for flag in flags:
        if flag.finding.check in _ON_READINGS:
            told[flag.answer is not None].update(flag.finding.entries)
    return told[True] - told[False]
