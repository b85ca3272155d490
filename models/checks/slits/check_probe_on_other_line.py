"""probe_on_other_line: a probe names a line that its pass, as it stands, did not cut."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from models.checks.affected import pass_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.envelope import AnyEntry
from models.entries.kind_names import PASS, PROBE
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    cuts = list(state.bodies(PASS, subject))
    lines = dict.fromkeys(line_id for cut in cuts for line_id in cut.line_ids)
    astray: dict[str, list[AnyEntry]] = defaultdict(list)
    for entry in state.current(PROBE, subject) if cuts else ():
        if entry.body.line_id not in lines:
            astray[entry.body.line_id].append(entry)
    for line_id, entries in astray.items():
        yield make_finding(
            CHECK.id,
            subject,
            entries,
            line_id,
            pass_id=subject,
            line_id=line_id,
            count=len(entries),
            lines=", ".join(lines),
        )


CHECK = Check(
    id="probe_on_other_line",
    severity=Severity.FIX,
    problem="Probes name a line that their pass did not cut.",
    why="They are judged by the wrong line, and the line that was cut looks as if nobody had "
    "probed it.",
    cure="Correct each probe to the line it was read on, or strike it and probe the line again.",
    message="Pass {pass_id} cut {lines}, yet probes of it stand on line {line_id}: {count}.",
    watches=dict.fromkeys(("pass", "probe"), pass_of_entry),
    subjects=lambda state: state.every_name(PROBE),
    examine=_examine,
)
