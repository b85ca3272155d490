"""Everything that the record of a job says, gathered once; PDF and XLSX are made from this."""

from __future__ import annotations

from dataclasses import dataclass

from models.checks.board import FlagBoard
from models.job_state import JobState
from sync.sheets.asbuilt.after_rain import after_rain_section, has_any
from sync.sheets.asbuilt.collector_records import invert_record, reach_record
from sync.sheets.asbuilt.cover_records import joint_record, layer_record, setup_record
from sync.sheets.asbuilt.features import AsBuilt
from sync.sheets.asbuilt.flag_records import OpenCount, answer_record, open_count, open_record
from sync.sheets.asbuilt.gather import as_built
from sync.sheets.asbuilt.ground_records import (
    outlet_records,
    point_record,
    tie_record,
    utility_record,
)
from sync.sheets.asbuilt.heading import Heading, heading_of
from sync.sheets.asbuilt.job_records import (
    benchmark_record,
    day_record,
    job_record,
    quantity_record,
)
from sync.sheets.asbuilt.laser_records import laser_records
from sync.sheets.asbuilt.lot_records import lot_record
from sync.sheets.asbuilt.material_records import (
    balance_record,
    load_record,
    material_record,
    test_record,
)
from sync.sheets.asbuilt.photo_records import photo_record
from sync.sheets.asbuilt.record import Figure, Record
from sync.sheets.asbuilt.slit_records import line_record, pattern_record, probe_record
from sync.sheets.asbuilt.struck import struck_record

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
        """What an owner looks at first: quantities, then acceptance."""
        return tuple(one for one in self.tables if one.name in COVERED)

    @property
    def all_tables(self) -> tuple[Record, ...]:
        """Every table, those of after the rain last."""
        return (*self.tables, *(one for one in self.after_rain if has_any(self.after_rain)))


def gather_facts(state: JobState, board: FlagBoard, *, is_sound: bool = True) -> Facts:
    """Gather the record of a job, whose book was found sound or not."""
    head, job = heading_of(state, is_sound), as_built(state, board)
    figures = job.figures
    made = Figure(figures)
    tables = (
        job_record(head),
        open_record(board, figures),
        quantity_record(state, figures),
        lot_record(state, job),
        answer_record(state, board, figures),
        invert_record(state, made),
        reach_record(state, made),
        layer_record(state, made),
        joint_record(state, made),
        pattern_record(state, made),
        line_record(job, made),
        probe_record(job, made),
        tie_record(job, made),
        point_record(job, made),
        utility_record(job, made),
        *outlet_records(job, made),
        material_record(state, figures),
        load_record(state, figures),
        balance_record(state, figures),
        test_record(state, made),
        benchmark_record(state, made),
        setup_record(state, made),
        *laser_records(state, made),
        day_record(state, figures),
        photo_record(job),
        struck_record(state, figures),
    )
    return Facts(
        state=state,
        head=head,
        job=job,
        standing=open_count(board),
        tables=tables,
        after_rain=after_rain_section(state),
    )
