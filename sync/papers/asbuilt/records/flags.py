"""Tables of flags: those that are open, and every answer with who gave it and why."""

from __future__ import annotations

from dataclasses import dataclass

from models.checks.finding import Severity
from models.checks.finding_text import sentence
from models.checks.flag_board import FlagBoard
from models.checks.registry import BY_ID
from models.counted import CountedNoun
from models.entries.kind_names import DISPOSITION
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.day.facts.slits import current_of
from sync.papers.tables.record_table import Field, Record, RecordCell, Row, make_record, text_cell
from sync.papers.wording.entry_text import moment_of
from sync.papers.wording.measures import plain_day

_ANSWERS = {"accept": "accepted as is", "rework": "to be reworked", "waive": "waived"}


@dataclass(frozen=True, slots=True)
class OpenCount:
    """How many flags nobody has answered, by weight."""

    stops: int
    fixes: int
    notes: int

    @property
    def words(self) -> str:
        """The count in a sentence that hides nothing."""
        if not self.stops + self.fixes + self.notes:
            return "No flag stands open."
        parts = [
            told
            for count, told in (
                (self.stops, f"{CountedNoun(self.stops):that stops|that stop} the work"),
                (self.fixes, f"{self.fixes} to put right"),
                (self.notes, f"{self.notes} worth knowing"),
            )
            if count
        ]
        return f"Flags that stand open: {', '.join(parts)}."


def open_count(board: FlagBoard) -> OpenCount:
    """Count the open flags."""
    weights = [flag.severity for flag in board.open_flags()]
    return OpenCount(*(weights.count(weight) for weight in Severity))


def open_record(board: FlagBoard, figures: Figures) -> Record:
    """Flags that nobody has answered, worst first, with what would cure each."""
    rows = []
    for flag in board.open_flags():
        finding = flag.finding
        is_heavy = flag.severity is not Severity.NOTE
        weight = flag.severity.value
        shown = weight.upper() if is_heavy else weight
        lapsed = " An earlier answer was given for other figures." if flag.lapsed else ""
        rows.append(
            Row(
                (
                    RecordCell(shown, weight),
                    RecordCell(plain_day(finding.day, figures.is_us), finding.day),
                    text_cell(f"{sentence(finding, figures)}{lapsed}"),
                    text_cell(BY_ID[finding.check].cure_of(finding)),
                ),
                is_heavy=is_heavy,
            )
        )
    fields = [
        Field("weight", "weight", 10),
        Field("day", "day", 25),
        Field("flag", "what"),
        Field("cure", "what would cure it", 38),
    ]
    title = "Not right, and not answered"
    return make_record("open_flags", title, fields, rows, "Nothing: every flag has an answer.")


def answer_record(state: JobState, board: FlagBoard, figures: Figures) -> Record:
    """Every answer that stands: what deviated, what was decided, by whom, when and why."""
    standing = {flag.finding.key: flag for flag in board.flags()}
    rows = []
    for entry in current_of(state, DISPOSITION):
        body = entry.body
        flag = standing.get(body.flag)
        deviation = body.said or body.flag
        if flag is None:
            deviation += " (no longer so)"
        elif flag.answer is None or flag.answer.id != entry.id:
            deviation += " (figures have changed since, or it was answered anew)"
        rows.append(
            [
                text_cell(deviation),
                text_cell(_ANSWERS[body.answer]),
                text_cell(entry.author or "nobody named"),
                text_cell(moment_of(entry, figures)),
                text_cell(body.why),
            ]
        )
    fields = [
        Field("deviation", "deviation"),
        Field("answer", "answer", 15),
        Field("by", "by", 17),
        Field("at", "when", 17),
        Field("why", "why", 30),
    ]
    title = "Deviations, and what was decided"
    return make_record("deviations", title, fields, rows, "None was answered.")
