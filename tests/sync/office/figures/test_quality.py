"""Right the first time: the worked example and rows counted by hand, on a file and PostgreSQL."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.kit.input.strike_reasons import READING_REASONS
from crewapp.words.translate import table
from models.book.row import Draft
from models.checks.flag_board import FlagBoard
from models.entries.envelope import read_stored_entry
from models.queries.quality.first_readings import SLIP_REASONS
from models.state.job_state import JobState
from sync.office.database import Office
from sync.office.figure_tables import refresh_index
from sync.office.figures.quality import Quality
from sync.office.report import OfficeReport, read_report
from sync.office.report_tables import quality_table
from tests.sync.office.test_figure_tables import fresh, line
from tests.sync.office.written import FT, IN, KEY, NOON_MS, draft, written

DEEP, SHALLOW = 9 * IN, 8 * IN
MINUTE_MS = 60_000


def field() -> list[Draft]:
    """A job with one sand slit 100 ft long, to be 9 in deep, half an inch less at the least."""
    sizes = {"width_nm": IN, "width_tolerance_nm": IN // 4, "under_nm": IN // 2, "over_nm": IN}
    slits = {**sizes, "probe_every_nm": 10 * FT, "probe_end_nm": 5 * FT, "spacing_nm": 16 * IN}
    surface: dict[str, Any] = {
        "surface_id": "G7",
        "name": "Seven",
        "use": "green",
        "lines": [line("S1", "sand_slit")],
    }
    slits["depth_nm"] = DEEP
    cut: dict[str, Any] = {"surface_id": "G7", "line_ids": ["S1"], "length_nm": 100 * FT}
    return [
        draft(1, "job", job_id="green-7", name="Green 7"),
        draft(2, "surface", **surface, sand_slits=slits),
        draft(3, "pass", pass_id="A", **cut),
    ]


def probe(number: int, at_ft: float, depth_nm: int, **told: Any) -> Draft:
    """A probe of the slit."""
    place: dict[str, Any] = {"pass_id": "A", "line_id": "S1", "along_nm": round(at_ft * FT)}
    return draft(number, "probe", **place, depth_nm=depth_nm, **told)


def id_of(number: int) -> str:
    """Id of the draft of a number."""
    return draft(number).id


def struck(number: int, target: int, reason: str, minutes: float, author: str = "Wren") -> Draft:
    """A strike of one entry, so many minutes after it."""
    made = draft(number, "struck", why=reason, strikes=[id_of(target)], reason=reason)
    when = draft(target).at_ms + round(minutes * MINUTE_MS)
    return Draft(**{**vars_of(made), "at_ms": when, "author": author})


def vars_of(one: Draft) -> dict[str, Any]:
    """Fields of a draft."""
    return {name: getattr(one, name) for name in one.__dataclass_fields__}


def accepted(number: int, before: list[Draft], key: str) -> Draft:
    """The owner accepts what a flag tells, for the figures that it has by then."""
    board = FlagBoard(JobState(read_stored_entry(row.raw) for row in written(before)))
    finding = next(flag.finding for flag in board.flags() if flag.finding.key == key)
    told = {"flag": key, "figures": finding.figures, "answer": "accept", "why": "the owner saw it"}
    return draft(number, "disposition", **told)


def counts(office: Office, *drafts: Draft, what: str = "depth probe") -> Quality:
    """Take the field with these readings in; what its job's counts are."""
    office.source_of(KEY).import_rows(written([*field(), *drafts]))
    return fresh(office).jobs[0].quality.get(what, Quality())


def shown(report: OfficeReport) -> tuple[str, ...]:
    """First row of the table of quality."""
    return quality_table(report, "job").rows[0]


def test_forty_places(office: Office) -> None:
    """Of 40, 36 at once; of 4 out, 2 dug again and in, 1 dug again and out, 1 accepted."""
    first = [probe(10 + n, 2 * n + 1, SHALLOW if n < 4 else DEEP) for n in range(40)]
    again = [
        probe(60, 1, DEEP),
        probe(61, 3, DEEP),
        probe(62, 5, SHALLOW),
    ]
    kept = accepted(70, [*field(), *first, *again], f"depth_shallow/A/S1@{7 * FT}")

    told = counts(office, *first, *again, kept)

    assert (told.places, told.first_in, told.last_in, told.reworked) == (40, 36, 38, 3)
    assert (told.out_answered, told.out_open) == (1, 1)
    assert (told.all_places, told.all_first_in, told.struck_late) == (40, 36, 0)
    assert shown(read_report(office))[1:] == (
        "depth probe",
        "36 of 40, 90 %",
        "36 of 40, 90 %",
        "38 of 40, 95 %",
        "3 of 40, 7.5 %",
        "2, 1 answered",
        "0",
    )


@pytest.mark.parametrize(
    ("reason", "minutes", "author", "is_slip", "is_late"),
    [
        ("misread", 1, "Wren", True, False),
        ("mal leído", 1, "Wren", True, False),
        ("slip, undone at once", 0.1, "Wren", True, False),
        ("misread", 10, "Wren", True, False),
        ("misread", 10.01, "Wren", False, True),
        ("misread", 1, "Ash", False, True),
        ("dug again", 1, "Wren", False, False),
    ],
)
def test_what_is_a_slip(
    office: Office, reason: str, minutes: float, author: str, is_slip: bool, is_late: bool
) -> None:
    """Struck within 10 minutes by who took it, as a slip; else it stays the first reading.

    By hand: a place read out, struck, read in. As a slip it was right the first time, else it
    was out at first and reworked; with every reading it was out at first in any case.
    """
    told = counts(
        office,
        probe(10, 20, SHALLOW),
        struck(11, 10, reason, minutes, author),
        probe(12, 20, DEEP),
    )

    assert (told.places, told.first_in, told.last_in) == (1, int(is_slip), 1)
    assert told.reworked == int(not is_slip)
    assert (told.all_places, told.all_first_in) == (1, 0)
    assert told.struck_late == int(is_late)


def test_a_slip_in_the_wrong_place_makes_no_place(office: Office) -> None:
    """Left out it is nowhere; with every reading it is one more place, and nothing stands there."""
    told = counts(
        office, probe(10, 90, SHALLOW), struck(11, 10, "wrong place", 1), probe(12, 20, DEEP)
    )

    assert (told.places, told.first_in, told.none_stands) == (1, 1, 0)
    assert (told.all_places, told.all_first_in) == (2, 1)


def test_all_struck_late_leaves_a_place_where_nothing_stands(office: Office) -> None:
    """It was measured and was out, it is not right in the end, and it does not stand out."""
    told = counts(office, probe(10, 90, SHALLOW), struck(11, 10, "wrong line", 60))

    assert (told.places, told.first_in, told.last_in, told.none_stands) == (1, 0, 0, 1)
    assert (told.out_open, told.out_answered, told.struck_late) == (0, 0, 1)


def test_a_reading_within_a_foot_is_of_the_same_place(office: Office) -> None:
    """Out at 20 ft, in at 20.9 ft: one place put right. At 21 ft sharp it is another place."""
    near = counts(office, probe(10, 20, SHALLOW), probe(11, 20.9, DEEP), probe(12, 21.95, DEEP))

    assert (near.places, near.first_in, near.last_in, near.reworked) == (2, 1, 2, 1)


def test_a_foot_sharp_is_another_place(office: Office) -> None:
    """A place reaches less than a foot."""
    told = counts(office, probe(10, 20, SHALLOW), probe(11, 21, DEEP))

    assert (told.places, told.first_in, told.last_in, told.reworked, told.out_open) == (
        2,
        1,
        1,
        0,
        1,
    )


def falling_pipe() -> dict[str, Any]:
    """A collector from 97.00 ft at its outlet, 1 ft in 100 ft up, 0.04 ft allowed."""
    small = dict.fromkeys(
        (
            *("least_grade_fall_nm", "shot_every_nm", "trench_width_nm", "bedding_nm"),
            *("bedding_least_nm", "cover_least_nm", "protection_depth_nm"),
        ),
        IN,
    )
    line = {"start_nm": 0, "length_nm": 100 * FT, "start_invert_nm": 97 * FT}
    fall = {"fall_nm": FT, "run_nm": 100 * FT, "stationed_from": "outlet"}
    pipe = {"bore_nm": 4 * IN, "outside_nm": 5 * IN}
    allowed = {"high_nm": 4 * FT // 100, "low_nm": 4 * FT // 100}
    return {**small, **line, **fall, **pipe, **allowed}


def test_grade_shots(office: Office) -> None:
    """Of three inverts one is 0.10 ft high, lowered and shot again; what was shot is the place.

    By hand: datum 100.00, backsight 5.00, so the plane lies at 105.00; design falls 1 ft in
    100 ft from 98.00 at 1+00 to 97.00 at 0+00, 0.04 ft is allowed.
    """
    level = [
        draft(10, "benchmark", benchmark_id="BM1", elevation_nm=100 * FT),
        draft(11, "collector", collector_id="C1", name="Main", design=falling_pipe()),
        draft(12, "setup", setup_id="L1", on_point="BM1", backsight_nm=5 * FT, plane="level"),
    ]

    def shot(number: int, station_ft: int, reading_hundredths: int, on: str = "invert") -> Draft:
        place: dict[str, Any] = {
            "setup_id": "L1",
            "collector_id": "C1",
            "station_nm": station_ft * FT,
            "on": on,
        }
        return draft(number, "grade_shot", **place, reading_nm=reading_hundredths * FT // 100)

    told = counts(
        office,
        *level,
        shot(20, 0, 800),
        shot(21, 50, 740),
        shot(22, 100, 700),
        shot(23, 50, 750),
        shot(24, 50, 200, "ground"),
        what="grade shot",
    )

    assert (told.places, told.first_in, told.last_in, told.reworked) == (3, 2, 3, 1)
    assert shown(read_report(office))[1:4] == ("grade shot", "2 of 3", "2 of 3")


def test_a_correction_counts_for_the_day_and_tablet_of_the_reading(office: Office) -> None:
    """The week of the first reading has it, though it was dug again a week later."""
    late = probe(30, 20, DEEP, day="2026-06-02")
    office.source_of(KEY).import_rows(written([*field(), probe(10, 20, SHALLOW), late]))

    weeks = {one.name: one.quality for one in fresh(office).weeks}

    assert weeks["2026-W22"]["depth probe"].reworked == 1
    assert not weeks["2026-W23"]


def test_figures_of_an_older_count_are_made_anew(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A database whose figures were counted the old way is counted again by itself."""
    office.source_of(KEY).import_rows(written([*field(), probe(10, 20, DEEP)]))
    monkeypatch.setattr("sync.office.figure_tables._VERSION", 1)
    assert refresh_index(office, NOON_MS) == 1
    monkeypatch.undo()

    assert refresh_index(office, NOON_MS) == 1
    assert refresh_index(office, NOON_MS) == 0


def test_every_reason_on_the_tablet_is_known() -> None:
    """What the tablet offers for a reading is a slip's reason, in each of its languages."""
    spoken = {table("es")[reason] for reason in READING_REASONS}
    assert set(READING_REASONS) | spoken <= SLIP_REASONS
