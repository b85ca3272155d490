"""setup_on_unknown_point: a backsight on a point whose level nobody has read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import every_setup
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.levels import LaserSetup
from models.entries.envelope import AnyEntry
from models.entries.kind_names import SETUP
from models.queries.levelling.setup_chain import chain_of, newest, setups_affected
from models.state.job_state import JobState


def _touched(state: JobState, entry: AnyEntry) -> Iterable[str]:
    return setups_affected(state, entry)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    entry = newest(state, SETUP, subject)
    if entry is None or not isinstance(entry.body, LaserSetup):
        return
    # a setup further along the same run hangs from the one that is lost: told there, once
    if subject in chain_of(state, subject).lost_at:
        yield make_finding(CHECK.id, subject, [entry], setup_id=subject, point=entry.body.on_point)


CHECK = Check(
    id="setup_on_unknown_point",
    severity=Severity.STOP,
    problem="A setup looks back on a point whose level nobody knows.",
    why="A backsight carries a level from a known point to the laser; from an unknown one "
    "there is nothing to carry, and every shot of the setup is left out.",
    cure="Write down the benchmark or the foresight on the turning point, or correct the name "
    "of the point.",
    message="Setup {setup_id} looks back on {point}, which is no benchmark and was not read "
    "from a level plane of known height.",
    watches=dict.fromkeys(("setup", "turning_point", "benchmark"), _touched),
    subjects=every_setup,
    examine=_examine,
)
