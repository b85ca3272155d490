"""water_stood_long: after a rain water stood more than twice as long as was reckoned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.memo import memoize
from models.entries.bodies.after_rain import SurfaceSeen
from models.entries.envelope import AnyEntry
from models.entries.kind_names import SURFACE_SEEN
from models.queries.water.clearing import RainStory, rain_stories
from models.state.job_state import JobState

TIMES = 2
"""Times of the estimate that water may stand (common practice, no source)."""


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for story in _stories(state):
        for plot in story.plots:
            stood, reckoned = plot.standing_min, plot.estimate_min
            if plot.surface_id != subject or stood is None or reckoned is None:
                continue
            if stood > TIMES * reckoned:
                looks = [
                    entry
                    for entry in state.current(SURFACE_SEEN, subject)
                    if entry.body.plot == plot.plot
                ]
                yield make_finding(
                    CHECK.id,
                    subject,
                    [story.entry, *looks],
                    place=f"{story.rain.stopped_ms}/{plot.plot}",
                    what=f"{subject} {plot.plot}".strip(),
                    seen_min=stood,
                    reckoned_min=reckoned,
                )


def _stories(state: JobState) -> list[RainStory]:
    return memoize(state, "rain_stories", "", lambda: rain_stories(state))


def _seen(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every surface that was looked at: the estimate rests on plan, levels and terms alike."""
    own = entry.body.surface_id if isinstance(entry.body, SurfaceSeen) else ""
    return {*state.every_name(SURFACE_SEEN), *([own] if own else ())}


CHECK = Check(
    id="water_stood_long",
    severity=Severity.NOTE,
    problem="Water stood more than twice as long as was reckoned.",
    why="A slit sealed over, a belly or a blocked outlet shows first as water that stays.",
    cure="Look at the outlet while it rains, then at the tops of the slits there.",
    message="{what}: water still stood {seen_min} min after the rain, reckoned were "
    "{reckoned_min} min (an estimate).",
    watches={"*": _seen},
    subjects=lambda state: state.every_name(SURFACE_SEEN),
    examine=_examine,
)
