"""One figure on every paper: sheet, as-built, office, progress and plan agree to the nanometre."""

from __future__ import annotations

import pytest

from models.entries.bodies.job import Job
from models.queries.schedule.daily_work import part_records
from models.state.job_state import JobState
from sync.office.figures.totals import DayTotals, day_totals
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.day.facts.quantities import quantities_of
from tests.models.ledger.sports_field import (
    DAY,
    MM,
    PIPED_M,
    SAND_M,
    driven,
    entries_of,
    field,
    planned,
)


def worked_field(off_mm: int) -> JobState:
    """The field with every drive logged once, each off its plan by as much."""
    job = Job(
        job_id="F", name="Field", site="Field", owner="Owner", unit_system="metric", zone="UTC"
    )
    passes = driven((one, one.driven_nm + off_mm * MM) for one in field().layout.drives)
    return JobState(entries_of([job, *planned(), *passes]))


@pytest.mark.parametrize("off_mm", [-40, 0, 40])
def test_length_of_a_field_with_keep_outs_is_one_figure(off_mm: int) -> None:
    """Sand and piped slits of the worked field are the same length wherever they are told."""
    state = worked_field(off_mm)
    short = max(-off_mm, 0) * MM
    done = {"sand_slit": SAND_M - 158 * short, "piped_slit": PIPED_M - 25 * short}
    if off_mm < 0:  # a line that lacks 40 mm at its end: 158 and 25 of them end a drive
        assert done == {"sand_slit": 13_991_680 * MM, "piped_slit": 1_409_500 * MM}

    sheet = {one.item: one for one in quantities_of(state, DAY)}
    record = as_built(state)
    office = DayTotals()
    for totals in day_totals(state).values():
        office.add(totals)

    assert {one.use: one.done_nm for one in part_records(state, DAY)} == done
    assert (sheet["Sand slits"].to_date, sheet["Piped slits"].to_date) == tuple(done.values())
    assert (office.sand_slit_nm, office.piped_slit_nm) == tuple(done.values())
    assert {
        use: sum(line.cut_nm for line in record.lines if line.use == use) for use in done
    } == done
    assert record.cut_nm == sum(done.values())
    beyond = max(off_mm, 0) * MM * (158 + 25)
    assert office.beyond_nm == beyond == sum(line.beyond_nm for line in record.lines)
    assert (sheet["Slits beyond their lines"].to_date if beyond else 0) == beyond
    assert (sheet["Sand slits"].plan, sheet["Piped slits"].plan) == (SAND_M, PIPED_M)
