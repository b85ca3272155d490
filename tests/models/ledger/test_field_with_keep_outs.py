"""A sports field with keep-outs, worked to its end: what the ledger says of it, and its laws."""

from __future__ import annotations

import random
from itertools import pairwise
from typing import Any

import pytest

from models.entries.bodies.job import Machine
from models.entries.bodies.passes import PassCut
from models.entries.envelope import AnyEntry
from models.ledger.ledger import Ledger, Tally, ledger_of
from models.plan.layout import PlannedDrive
from models.queries.layout.drive_pieces import plan_pass
from models.queries.layout.next_pass import next_lines
from models.queries.schedule.daily_work import part_records
from models.state.job_state import JobState
from tests.models.checks.written_job import written_entries
from tests.models.ledger.sports_field import (
    DAY,
    MM,
    PIPED_M,
    SAND_M,
    M,
    done_on,
    driven,
    entries_of,
    field,
    left_nm,
    machines,
    planned,
    worked,
)


def test_the_plan_is_the_one_worked_by_hand() -> None:
    """158 rows of 221 pieces and 25 of 32, 80 drives and 25, 13,998.000 m and 1,410.500 m."""
    lines = field().surface.lines
    drives = field().layout.drives
    counts = {use: sum(line.use == use for line in lines) for use in ("sand_slit", "piped_slit")}
    of_sand = [len(one.pieces) for one in drives if one.use == "sand_slit"]
    rows = {field().surface.places[one.line_id].number for one in lines if one.use == "sand_slit"}

    assert counts == {"sand_slit": 221, "piped_slit": 32}
    assert len(rows) == 158
    assert len(of_sand) == 80
    assert {n: of_sand.count(n) for n in sorted(set(of_sand))} == {1: 2, 2: 46, 3: 2, 4: 29, 5: 1}
    assert sum(one.use == "piped_slit" for one in drives) == 25
    assert sum(one.length_nm for one in lines if one.use == "sand_slit") == SAND_M
    assert sum(one.length_nm for one in lines if one.use == "piped_slit") == PIPED_M


def test_pieces_of_a_drive_are_its_lines() -> None:
    """Each piece is as long as its line, and the drive as its pieces reach, to the nanometre."""
    lengths = {line.line_id: line.length_nm for line in field().surface.lines}
    for drive in field().layout.drives:
        assert [one.to_nm - one.from_nm for one in drive.pieces] == [
            lengths[one.line_id] for one in drive.pieces
        ]
        assert min(one.from_nm for one in drive.pieces) == 0
        assert max(one.to_nm for one in drive.pieces) == drive.driven_nm


@pytest.mark.parametrize(
    ("off_mm", "done_m", "beyond_mm"),
    [
        (0, (SAND_M, PIPED_M), (0, 0)),
        (40, (SAND_M, PIPED_M), (158 * 40, 25 * 40)),
        (-40, (13_991_680 * MM, 1_409_500 * MM), (0, 0)),
    ],
    ids=["as planned", "40 mm over", "40 mm short"],
)
def test_the_whole_field_ends_with_what_was_planned(
    off_mm: int, done_m: tuple[int, int], beyond_mm: tuple[int, int]
) -> None:
    """Every drive logged once comes to the plan; what ran over is beyond, what lacks is short."""
    state = worked(driven((one, one.driven_nm + off_mm * MM) for one in field().layout.drives))
    sand, piped = done_on(state).values()

    assert (sand.done, piped.done) == done_m
    assert (sand.beyond, piped.beyond) == (beyond_mm[0] * MM, beyond_mm[1] * MM)
    assert (sand.again, sand.off_plan, piped.again, piped.off_plan) == (0, 0, 0, 0)
    assert left_nm(state) == 0
    assert [(part.done_nm, part.left_nm) for part in part_records(state, DAY)] == [
        (done, 0) for done in done_m
    ]


def test_old_passes_of_the_field_come_to_the_same() -> None:
    """Passes that gave one length for every leg are read to 13,998.000 m, where sums of them
    would come to 21,879.000 m, and 1,410.500 m for 2,016.000 m.
    """  # noqa: D205, D400, D415
    old = [
        PassCut(
            pass_id=f"F-{one.number}",
            surface_id="F",
            line_ids=one.line_ids,
            length_nm=one.driven_nm,
        )
        for one in field().layout.drives
    ]
    sums = [
        sum(one.driven_nm * len(one.line_ids) for one in field().layout.drives if one.use == use)
        for use in ("sand_slit", "piped_slit")
    ]
    state = worked(old)

    assert sums == [21_879 * M, 2_016 * M]
    assert [one.done for one in done_on(state).values()] == [SAND_M, PIPED_M]
    assert [one.beyond for one in done_on(state).values()] == [0, 0]
    assert left_nm(state) == 0


def test_twelve_passes_through_the_square_are_not_three_times_what_they_are() -> None:
    """Passes 41 to 52 are 1,696.800 m by their pieces; a length for every piece said 4,752."""
    drives = [one for one in field().layout.drives if 41 <= one.number <= 52]
    state = worked(driven((one, one.driven_nm) for one in drives))

    assert sum(one.driven_nm * len(one.line_ids) for one in drives) == 4_752 * M
    assert done_on(state)["sand_slit"].done == 1_696_800 * MM


def test_a_drive_that_ran_over_ends_so_where_it_ended() -> None:
    """Drive 19 at 99.040 m: the whole leg by the drive, the parted one by its stakes."""
    (cut,) = driven([(drive(19), 99_040 * MM)])

    assert [(one.line_id, one.leg, one.length_nm, one.by) for one in cut.pieces] == [
        ("S037", 1, 99_040 * MM, "drive"),
        ("S040a", 2, 19_250 * MM, "plan"),
        ("S040b", 2, 59_500 * MM, "plan"),
        ("S040c", 2, 19_290 * MM, "plan"),
    ]
    assert sum(one.length_nm for one in cut.pieces) == 197_080 * MM


def test_a_drive_that_stopped_leaves_what_it_did_not_reach() -> None:
    """Drive 19 stopped at 50 m leaves 49.000, 29.250 and 19.250 m, which are proposed next."""
    others = [(one, one.driven_nm) for one in field().layout.drives if one.number < 19]
    passes = driven([*others, (drive(19), 50 * M)])
    state = worked(passes)
    ledger = ledger_of(state)
    twin = machines()[0]
    assert isinstance(twin, Machine)
    proposed = next_lines(state, field().surface, "sand_slit", twin)

    assert {name: ledger.line("F", name).left for name in drive(19).line_ids} == {
        "S037": 49 * M,
        "S040a": 0,
        "S040b": 29_250 * MM,
        "S040c": 19_250 * MM,
    }
    assert [line.line_id for line in proposed] == ["S037", "S040b", "S040c"]
    rest = plan_pass(state, field().surface, [one.line_id for one in proposed], twin)
    assert rest.length_nm == 49 * M
    (after,) = driven([(drive(19), 49 * M)], state)
    assert done_on(worked([*passes, after]))["sand_slit"].done == sum(
        line.length_nm
        for one, _ in [*others, (drive(19), 0)]
        for line in field().surface.lines
        if line.line_id in one.line_ids
    )


def drive(number: int) -> PlannedDrive:
    """A planned drive by its number."""
    return field().layout.drives[number - 1]


def chance_passes(chance: random.Random, count: int) -> list[PassCut]:
    """Passes as crews make them: stopped, run over, driven again, old ones among them."""
    drives = [chance.choice(field().layout.drives[:12]) for _ in range(count)]
    made = driven(
        (one, round(one.driven_nm * chance.choice((0.4, 0.8, 0.999, 1, 1.004)))) for one in drives
    )
    for place, one in enumerate(made):
        if chance.random() < 0.2:
            stripped = {"pieces": (), "is_along": None, "drive_number": 0}
            made[place] = one.model_copy(update={**stripped, "length_nm": 99 * M})
    return [one.model_copy(update={"pass_id": f"F-{number}"}) for number, one in enumerate(made)]


def figures(state: JobState) -> Any:
    """All that the ledger says of the field."""
    ledger = ledger_of(state)
    return [
        tally._replace(pieces=())
        for tally in (*ledger.lines(field().surface).values(), ledger.line("F", "X1"))
    ]


@pytest.mark.parametrize("seed", range(25))
def test_the_laws_of_the_ledger_hold_over_chance_passes(seed: int) -> None:
    """Done, short and left come to the plan, none is counted twice, days add up, and an entry
    struck, or come in another order, leaves no trace.
    """  # noqa: D205, D400, D415
    chance = random.Random(seed)
    passes = chance_passes(chance, chance.randint(2, 14))
    days = [DAY] * len(planned()) + [f"2026-05-{chance.randint(4, 8):02d}" for _ in passes]
    entries = entries_of([*planned(), *passes], days)
    state = JobState(entries)
    ledger = ledger_of(state)
    lines = {one.line_id: one.length_nm for one in field().surface.lines}
    for name, planned_nm in lines.items():
        tally = ledger.line("F", name)
        assert tally.done + tally.short + tally.left == planned_nm
        assert min(tally[1:7]) >= 0
        assert all(a.to_nm < b.from_nm for a, b in pairwise(tally.cut))
        for piece in tally.pieces:
            assert piece.share.length_nm == piece.piece.length_nm
    by_day: dict[str, Tally] = {}
    for _, _, piece in ledger.every_piece():
        by_day[piece.day] = by_day.get(piece.day, Tally()).plus(piece)
    for day in sorted(set(days)):
        seen = sum(ledger.line_on("F", name, day).done for name in lines)
        assert seen == sum(one.done for on, one in by_day.items() if on <= day)
    mixed = chance.sample(entries, len(entries))
    assert figures(JobState(mixed)) == figures(state)
    _strike_leaves_no_trace(entries, passes, days, chance)


def _strike_leaves_no_trace(
    entries: list[AnyEntry], passes: list[PassCut], days: list[str], chance: random.Random
) -> None:
    """A pass struck is as one never written, entry by entry and folded whole."""
    gone = chance.randrange(len(passes))
    at = len(planned()) + gone
    state = JobState(entries)
    figures(state)
    strike = {"kind": "struck", "strikes": [entries[at].id], "fields": {"why": "never cut"}}
    (struck,) = written_entries([{**strike, "lc": 900, "seq": 900, "id": "x"}])
    state.add(struck)
    kept = [one for place, one in enumerate(passes) if place != gone]
    days_kept = days[:at] + days[at + 1 :]
    never = JobState(entries_of([*planned(), *kept], days_kept))

    assert figures(state) == figures(never)
    assert figures(JobState([*entries, struck])) == figures(never)


def test_a_ledger_kept_entry_by_entry_is_that_of_the_whole_fold() -> None:
    """After every pass of the field the ledger is what a new one would be."""
    passes = driven((one, one.driven_nm) for one in field().layout.drives[:6])
    entries = entries_of([*planned(), *passes])
    state = JobState()
    kept = ledger_of(state)
    for number, entry in enumerate(entries, start=1):
        state.add(entry)
        fresh = JobState(entries[:number])
        names = [line.line_id for line in field().surface.lines[:30]]
        assert [kept.line("F", name) for name in names] == [
            Ledger(fresh).line("F", name) for name in names
        ]
