"""Strikes: entries that were crossed out, by whom, why, and what replaces them."""

from __future__ import annotations

from dataclasses import dataclass

from models.entries.bodies.day import Struck
from models.entries.envelope import AnyEntry
from models.entries.id_fields import body_reason
from models.state.check_code import in_order
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.tables.record_table import Field, Record, Row, make_record, text_cell
from sync.papers.wording.entry_text import details_of, moment_of, title_of


@dataclass(frozen=True, slots=True)
class Strike:
    """Strike of an entry: why, by whom, and what was written instead."""

    why: str
    by: str
    instead: str


def strike_of(state: JobState, entry: AnyEntry, figures: Figures) -> Strike:
    """The strikes of one entry, run together where there are several."""
    strikers = [
        state.entries[by] for by in state.struck_by.get(entry.id, ()) if by in state.entries
    ]
    instead = [details_of(one, figures) for one in strikers if not isinstance(one.body, Struck)]
    reasons = [one.reason or body_reason(one.body) or "no reason given" for one in strikers]
    return Strike(
        why="; ".join(dict.fromkeys(reasons)) or "what strikes it is not in this book",
        by=", ".join(dict.fromkeys(one.author for one in strikers)) or "not in this book",
        instead="; ".join(instead),
    )


def struck_record(state: JobState, figures: Figures) -> Record:
    """Every entry crossed out but for grade shots, which stand crossed out among the inverts."""
    rows = []
    for entry in in_order(state):
        if not state.is_struck(entry.id) or entry.kind in {"grade_shot", "job"}:
            continue
        strike = strike_of(state, entry, figures)
        now = f" Now: {strike.instead}" if strike.instead else ""
        rows.append(
            Row(
                (
                    text_cell(moment_of(entry, figures)),
                    text_cell(title_of(entry.kind)),
                    text_cell(details_of(entry, figures)),
                    text_cell(f"{strike.by}: {strike.why}.{now}"),
                ),
                is_struck=True,
            )
        )
    fields = [
        Field("written", "written", 25),
        Field("kind", "kind", 16),
        Field("struck", "struck"),
        Field("why", "by, why, what stands instead", 42),
    ]
    return make_record("struck", "Struck out, and why", fields, rows, "Nothing was struck out.")
