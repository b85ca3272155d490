"""line_skipped: a line left uncut between lines that were cut, and the crew has gone on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from models.checks.affected import DAY_ENDS, surface_and_adjacent, surface_of_entry, surfaces_of_day
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import has_day_ended, surface_of
from models.checks.stretches import bad_runs
from models.entries.bodies.passes import PassCut
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import AnyEntry
from models.entries.kind_names import SURFACE
from models.plan.line import LineUse
from models.queries.layout.next_pass import is_cut
from models.state.indexes import PASSES, PASSES_ON
from models.state.job_state import JobState


@dataclass(frozen=True, slots=True)
class _Course:
    """Lines of one use, row by row, and where the last two passes along them were.

    A row has no line where none was long enough to cut, and several where a keep-out
    parts it.
    """

    left: Sequence[Sequence[str]]
    last: AnyEntry
    numbers: tuple[int, ...]
    numbers_before: tuple[int, ...]

    @property
    def stride(self) -> int:
        """Lines from leg to leg, which an interleave fills pass by pass; two for one leg."""
        legs = sorted(self.numbers)
        return max(legs[1] - legs[0], 1) if len(legs) > 1 else 2

    def is_behind(self, gap: Sequence[int]) -> bool:
        """Whether no later pass of the block that the machine is in can fill a gap.

        With one leg that is known only while it drives line by line: a crew
        that takes every second line first comes back for the others.
        """
        reach = self.stride - 1
        low, high = min(self.numbers) - reach, max(self.numbers) + reach
        if len(self.numbers) == 1 and not self._is_line_by_line:
            return False
        return gap[-1] < low or gap[0] > high

    @property
    def _is_line_by_line(self) -> bool:
        return any(abs(one - self.numbers[0]) == 1 for one in self.numbers_before)


def examine(state: JobState, surface_id: str) -> Iterator[Finding]:
    """Look for short gaps between lines that are cut, left behind by the machine."""
    surface = surface_of(state, surface_id)
    for use in surface.courses if surface is not None else ():
        course = _course(state, surface, use) if surface is not None else None
        if course is None:
            continue
        has_left = _has_left(state, course)
        for gap in _gaps(course):
            if has_left or course.is_behind(gap):
                lines = [name for row in gap for name in course.left[row]]
                yield make_finding(
                    "line_skipped",
                    surface_id,
                    [course.last],
                    lines[0],
                    surface_id=surface_id,
                    lines=", ".join(lines),
                )


def _course(state: JobState, surface: Surface, use: LineUse) -> _Course | None:
    """Lines of a use as they are cut, or None while none of them is."""
    last: list[tuple[AnyEntry, tuple[int, ...]]] = []
    for entry in reversed(state.current(PASSES_ON, surface.surface_id)):
        numbers = _numbers(surface, use, entry.body)
        if numbers:
            last.append((entry, numbers))
        if len(last) == 2:
            break
    if not last:
        return None
    places = [(surface.places[name].number, name) for name in surface.courses[use]]
    left: list[list[str]] = [[] for _ in range(max(places)[0] + 1)]
    for row, name in places:
        if not is_cut(state, surface.surface_id, name):
            left[row].append(name)
    before = last[1][1] if len(last) == 2 else ()
    return _Course(left, last[0][0], last[0][1], before)


def _numbers(surface: Surface, use: LineUse, cut: PassCut) -> tuple[int, ...]:
    places = [surface.places.get(line_id) for line_id in cut.line_ids]
    return tuple({place.number for place in places if place and place.line.use == use})


def _gaps(course: _Course) -> Iterator[list[int]]:
    """Short runs of uncut lines between cut ones."""
    ends = len(course.left) - 1
    for gap in bad_runs(range(len(course.left)), lambda row: bool(course.left[row])):
        if gap[0] > 0 and gap[-1] < ends and len(gap) < course.stride:
            yield gap


def _has_left(state: JobState, course: _Course) -> bool:
    """Whether the crew went on: to other lines, to another surface, or home for the day."""
    newest = state.current(PASSES)[-1]
    return newest.id != course.last.id or has_day_ended(state, newest.day)


CHECK = Check(
    id="line_skipped",
    severity=Severity.FIX,
    problem="A line was skipped.",
    why="The strip beside it gets half the slits it was planned for and stays wet.",
    cure="Go back and cut it while the machine is here, or answer why it is left out.",
    message="On {surface_id} not cut, though lines on both sides are: {lines}.",
    watches={
        "pass": surface_and_adjacent,
        "surface": surface_of_entry,
        **dict.fromkeys(DAY_ENDS, surfaces_of_day),
    },
    subjects=lambda state: state.every_name(SURFACE),
    examine=examine,
)
