"""Heading of the record: job, people, days of work, datum of heights and places."""

from __future__ import annotations

from dataclasses import dataclass

from models.counted import CountedNoun
from models.entries.bodies.job import Job
from models.entries.bodies.planning import LocalPlane
from models.entries.kind_names import BENCHMARK, LOCAL_PLANE
from models.queries.schedule.worked_days import worked_days
from models.state.check_code import book_code
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.day.facts.day import figures_for, midnight_ms
from sync.papers.wording.measures import plain_day

FIRST_MS_WITHOUT_ENTRIES = midnight_ms("2000-01-01")
STATEMENT = (
    "This is a record kept by the contractor while the work was done. It is not a survey, and no "
    "surveyor or engineer has certified it. Where a certificate is wanted, measure what is shown "
    "here and certify that."
)
UNSOUND = (
    "THE BOOK IS NOT AS IT WAS WRITTEN: bytes of it were changed, or some are lost. This record "
    "proves nothing; make it again from a copy that is whole."
)
HOW_TO_PROVE = "Made from every entry of the book. Prove it: crewapp verify BOOK --code"
PLACES_ARE = (
    "Lines lie on the plan where they were set out to be cut. What was measured of each stands "
    "in the tables; ties are taped distances, and come before anything scaled off a plan."
)


@dataclass(frozen=True, slots=True)
class Heading:
    """Facts that stand on every sheet or on the first; each sheet says if the book is unsound."""

    job_id: str
    job: str
    site: str
    owner: str
    contractor: str
    datum: str
    plane: str
    worked: str
    days_worked: int
    first_day: str
    last_day: str
    code: str
    entries: int
    last_at_ms: int
    units: str
    is_us: bool
    has_job: bool
    is_sound: bool


def heading_of(state: JobState, is_sound: bool = True) -> Heading:
    """Read the heading off the state of the job; ``is_sound`` tells whether its book verified."""
    figures = figures_for(state)
    job = state.job or Job(job_id="job", name="Job without a name")
    days = worked_days(state)
    return Heading(
        job_id=job.job_id,
        job=job.name,
        site=job.site,
        owner=job.owner,
        contractor=job.contractor,
        datum=job.datum or _datum_by_benchmark(state, figures),
        plane=_plane(state),
        worked=_worked(days, figures.is_us),
        days_worked=len(days),
        first_day=days[0] if days else "",
        last_day=days[-1] if days else "",
        code=book_code(state),
        entries=len(state.entries),
        last_at_ms=max(
            (entry.at_ms for entry in state.entries.values()), default=FIRST_MS_WITHOUT_ENTRIES
        ),
        units=_units(figures),
        is_us=figures.is_us,
        has_job=state.job is not None,
        is_sound=is_sound,
    )


def _datum_by_benchmark(state: JobState, figures: Figures) -> str:
    names = state.every_name(BENCHMARK)
    if not names:
        return "no datum written down"
    mark = state.latest(BENCHMARK, names[0])
    level = figures.level(mark.elevation_nm) if mark is not None else "?"
    return f"not named; {names[0]} taken as {level} {'ft' if figures.is_us else 'm'}"


def _units(figures: Figures) -> str:
    return "feet and inches" if figures.is_us else "metres and millimetres"


def _worked(days: list[str], is_us: bool) -> str:
    if not days:
        return "no ground worked yet"
    first, last = plain_day(days[0], is_us), plain_day(days[-1], is_us)
    count = f"{CountedNoun(len(days)):day|days}"
    return f"{first}, {count}" if first == last else f"{first} to {last}, {count} worked"


def _plane(state: JobState) -> str:
    """How plan coordinates lie on the Earth, in words a stranger can use."""
    plane = state.latest(LOCAL_PLANE)
    if not isinstance(plane, LocalPlane):
        return (
            "Plan coordinates are local to this job and tied to no map. "
            "Find the work by its ties and by the edge of the turf."
        )
    north, east = _degrees(plane.lat_ndeg, "N", "S"), _degrees(plane.lon_ndeg, "E", "W")
    how = f" Origin found by: {plane.how}." if plane.how else ""
    return (
        f"Plan coordinates are local: x east and y true north of an origin at {north}, {east} "
        f"(WGS 84).{how}"
    )


def _degrees(ndeg: int, plus: str, minus: str) -> str:
    """Degrees to seven decimals, about a hundredth of a metre, with the half of the Earth."""
    tenths = round(abs(ndeg), -2) // 100
    return f"{tenths // 10**7}.{tenths % 10**7:07d} {plus if ndeg >= 0 else minus}"
