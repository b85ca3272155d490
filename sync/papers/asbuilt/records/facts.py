"""Facts of the record of a job, gathered once; PDF and XLSX are made from this."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from models.checks.flag_board import FlagBoard
from models.state.job_state import JobState
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.asbuilt.features.struck import struck_record
from sync.papers.asbuilt.records.after_rain import after_rain_section, has_any
from sync.papers.asbuilt.records.collectors import invert_record, reach_record
from sync.papers.asbuilt.records.covering import joint_record, layer_record, setup_record
from sync.papers.asbuilt.records.flags import OpenCount, answer_record, open_count, open_record
from sync.papers.asbuilt.records.ground import (
    outlet_records,
    point_record,
    tie_record,
    utility_record,
)
from sync.papers.asbuilt.records.heading import Heading, heading_of
from sync.papers.asbuilt.records.job import (
    benchmark_record,
    day_record,
    job_record,
    quantity_record,
)
from sync.papers.asbuilt.records.lasers import laser_records
from sync.papers.asbuilt.records.lots import lot_record
from sync.papers.asbuilt.records.materials import (
    balance_record,
    load_record,
    material_record,
    test_record,
)
from sync.papers.asbuilt.records.photos import photo_record
from sync.papers.asbuilt.records.slits import line_record, pattern_record, probe_record
from sync.papers.tables.record_table import Field, MeasureCells, Record, make_record, text_cell
from sync.papers.wording.missing_sections import MissingSections

COVERED = frozenset({"quantities", "lots", "ties", "permanent_points"})
"""Tables that stand on the first sheet as well, as far as it has room."""


@dataclass(frozen=True, slots=True)
class Facts:
    """The record of a job: its heading, features for drawings, and every table in order."""

    state: JobState
    head: Heading
    job: AsBuilt
    standing: OpenCount
    tables: tuple[Record, ...]
    after_rain: tuple[Record, ...]

    @property
    def on_the_cover(self) -> tuple[Record, ...]:
        """Tables that an owner looks at first: quantities, then acceptance."""
        return tuple(one for one in self.tables if one.name in COVERED)

    @property
    def every_table(self) -> tuple[Record, ...]:
        """Every table, those of after the rain last."""
        return (*self.tables, *(one for one in self.after_rain if has_any(self.after_rain)))


def gather_facts(state: JobState, board: FlagBoard, *, is_sound: bool = True) -> Facts:
    """Gather the record of a job; ``is_sound`` tells whether its book verified."""
    made = MissingSections()
    head, job = heading_of(state, is_sound), as_built(state, board, made)
    tables = [
        table for name, build in _builders(state, board, job, head) for table in _made(name, build)
    ]
    after_rain = made.make_or_notice("after the rain", (), after_rain_section, state)
    return Facts(
        state=state,
        head=head,
        job=job,
        standing=open_count(board),
        tables=(*tables[:1], *_unmade(made), *tables[1:]),
        after_rain=after_rain,
    )


_Build = Callable[[], Record | Sequence[Record]]


def _builders(
    state: JobState, board: FlagBoard, job: AsBuilt, head: Heading
) -> tuple[tuple[str, _Build], ...]:
    """Every table by its name, in the order they are read."""
    figures, unit = job.figures, MeasureCells(job.figures)
    return (
        ("job", lambda: job_record(head)),
        ("open_flags", lambda: open_record(board, figures)),
        ("quantities", lambda: quantity_record(state, figures)),
        ("lots", lambda: lot_record(state, job)),
        ("deviations", lambda: answer_record(state, board, figures)),
        ("inverts", lambda: invert_record(state, unit)),
        ("reaches", lambda: reach_record(state, unit)),
        ("layers", lambda: layer_record(state, unit)),
        ("joints", lambda: joint_record(state, unit)),
        ("sections", lambda: pattern_record(state, unit)),
        ("lines", lambda: line_record(job, unit)),
        ("probes", lambda: probe_record(job, unit)),
        ("ties", lambda: tie_record(job, unit)),
        ("permanent_points", lambda: point_record(job, unit)),
        ("utilities", lambda: utility_record(job, unit)),
        ("outlets", lambda: outlet_records(job, unit)),
        ("materials", lambda: material_record(state, figures)),
        ("loads", lambda: load_record(state, figures)),
        ("balance", lambda: balance_record(state, figures)),
        ("tests", lambda: test_record(state, unit)),
        ("benchmarks", lambda: benchmark_record(state, unit)),
        ("setups", lambda: setup_record(state, unit)),
        ("instruments", lambda: laser_records(state, unit)),
        ("days", lambda: day_record(state, figures)),
        ("photos", lambda: photo_record(job)),
        ("struck", lambda: struck_record(state, figures)),
    )


def _made(name: str, build: _Build) -> Sequence[Record]:
    """A table, or one under its name that says that it could not be made."""
    made = MissingSections()
    found = made.make_or_notice(name, None, build)
    if found is None:
        return (_told(name, name.replace("_", " ").capitalize(), made),)
    return (found,) if isinstance(found, Record) else found


def _unmade(made: MissingSections) -> Sequence[Record]:
    """A table of what else could not be made, if anything."""
    return (_told("not_made", "Not made", made),) if made.told else ()


def _told(name: str, title: str, made: MissingSections) -> Record:
    return make_record(
        name, title, [Field("said", "said")], [[text_cell(text)] for text in made.told]
    )
