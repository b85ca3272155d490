"""The morning's sheet: what stands on it, read back by other programs, the same every time."""

from __future__ import annotations

import csv
import io
import subprocess
from pathlib import Path

import openpyxl
import pytest

from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import LAYOUT, SURFACE
from models.state.job_state import JobState
from sync.papers.drawing.plan_lines import LineProgress
from sync.papers.stakeout.facts import PadQuestion, gather_stakeout
from sync.papers.stakeout.pdf_file import build_stakeout_pdf
from sync.papers.stakeout.stakeout_files import (
    build_stakeout_csv,
    build_stakeout_xlsx,
    write_stakeout_sheets,
)
from tests.models.checks.any_job import FT
from tests.models.checks.written_job import written_entries
from tests.models.queries.grade.test_trench_depth import planned
from tests.models.queries.layout.test_stakeout import LINES, state

DRIVE = {
    "number": 1, "use": "sand_slit", "legs": [["S01"], ["S04"]], "driven_nm": 30 * FT,
    "start": {"x_nm": 0, "y_nm": 0}, "end": {"x_nm": 0, "y_nm": 30 * FT}, "across_nm": 0,
}  # fmt: skip
CUT = {"pass_id": "F1-01", "surface_id": "F1", "line_ids": ["S01", "S04"], "length_nm": 30 * FT}


def printed(data: bytes) -> str:
    """Return the words of a PDF as poppler reads them."""
    done = subprocess.run(
        ["pdftotext", "-layout", "-", "-"], input=data, capture_output=True, check=True
    )
    return done.stdout.decode()


def test_sheet_lists_what_is_left_and_leaves_out_what_is_cut() -> None:
    """The first pass is driven: four lines in two passes are left, unless all are asked for."""
    job = state({"kind": "pass", "fields": CUT})
    left = gather_stakeout(job, PadQuestion())
    whole = gather_stakeout(job, PadQuestion(has_done=True))

    assert left.surfaces[0].n_left == 2
    assert [len(sheet.tables[0].rows) for sheet in (left, whole)] == [4, 6]
    assert [row.items[-1].value for row in whole.tables[0].rows].count("cut") == 2


def test_paper_says_what_the_facts_say() -> None:
    """Poppler finds the passes, the tape, the cautions and the cut sheet."""
    text = printed(build_stakeout_pdf(gather_stakeout(state(), PadQuestion(setup_id="L1"))))

    assert "F1, sand slits: 3 of 3 passes to drive" in text
    assert "lay a tape of 6.7 ft" in text
    assert "locate ticket in date" in text
    assert "Rod readings on grade are those of setup L1" in text
    assert "S06" in text
    assert "0+40.0" in text


def test_workbook_holds_numbers_with_their_unit_in_the_head() -> None:
    """Another reader finds lengths as numbers, in feet."""
    data = build_stakeout_xlsx(gather_stakeout(state(), PadQuestion()))
    book = openpyxl.load_workbook(io.BytesIO(data))
    rows = list(book.worksheets[0].iter_rows(values_only=True))

    assert rows[0][4:7] == ("station_ft", "start_offset_ft", "end_offset_ft")
    assert rows[1][3:7] == ("S01", 0, 1, 30)
    assert rows[2][3:5] == ("S04", 4)
    assert "locate ticket in date" in str(book["cautions"]["A2"].value)
    assert "enters a trench" in str(book["cautions"]["A4"].value)


def test_csv_has_every_row_of_every_table() -> None:
    """Tables follow one another, each row led by its table's name."""
    sheet = gather_stakeout(state(), PadQuestion(has_done=True))
    read = list(csv.reader(io.StringIO(build_stakeout_csv(sheet).decode())))

    assert sum(row[0] != "table" for row in read) == sum(len(table.rows) for table in sheet.tables)
    assert len([row for row in read if row[0] == "table"]) == len(sheet.tables) == 2


def test_same_book_gives_the_same_bytes(tmp_path: Path) -> None:
    """Printed twice, every file is the same."""
    one = write_stakeout_sheets(state(), PadQuestion(), tmp_path / "one")
    two = write_stakeout_sheets(state(), PadQuestion(), tmp_path / "two")

    assert [path.read_bytes() for path in one] == [path.read_bytes() for path in two]
    assert len(one) == 3


def test_permanent_points_tie_the_tape() -> None:
    """By hand: zero of the tape at (16 in, 10 ft); a point 10 ft south of it lies 10 ft away."""
    point = {"point_id": "PP1", "where": "gatepost", "x_nm": 16 * FT // 12, "y_nm": 0}
    sheet = gather_stakeout(state({"kind": "permanent_point", "fields": point}), PadQuestion())

    assert "Zero lies 10.0 ft from PP1." in sheet.surfaces[0].baselines[0]


def test_text_of_a_user_is_never_a_formula(tmp_path: Path) -> None:
    """A line named like a formula stays a text."""
    named = [{**line, "line_id": f"={line['line_id']}"} for line in LINES]
    surface = {
        "surface_id": "=F", "name": "<b>=cmd</b>\n", "use": "field", "lines": named,
    }  # fmt: skip
    job = JobState(written_entries([{"kind": "surface", "fields": surface}]))
    book = openpyxl.load_workbook(
        io.BytesIO(build_stakeout_xlsx(gather_stakeout(job, PadQuestion())))
    )

    assert book.worksheets[0]["D2"].data_type == "s"
    assert ",'=S01," in build_stakeout_csv(gather_stakeout(job, PadQuestion())).decode()
    assert "<b>=cmd</b>" in printed(build_stakeout_pdf(gather_stakeout(job, PadQuestion())))


def test_a_line_that_is_not_square_to_the_tape_has_two_places_along_it() -> None:
    """Beside lines north, one from (0, 0) to (3, 4) ft is staked at 0 and 3 ft of the tape."""
    ends = {"x1_nm": 0, "y1_nm": 0, "x2_nm": 3 * FT, "y2_nm": 4 * FT, "length_nm": 5 * FT}
    skew = {"line_id": "S00", "use": "sand_slit", **ends}
    surface = {"surface_id": "F1", "name": "Field", "use": "field", "lines": [skew, *LINES]}
    job = JobState(written_entries([{"kind": "surface", "fields": surface}]))
    sheet = gather_stakeout(job, PadQuestion())
    table = sheet.tables[0]
    heads = [field.header for field in table.fields][4:8]

    assert heads == ["start_station_ft", "end_station_ft", "start_offset_ft", "end_offset_ft"]
    assert [item.value for item in table.rows[0].items][3:8] == ["S00", 0, 3, 0, 4]
    assert "offsets are square to it" in sheet.surfaces[0].baselines[0]
    assert (
        "lines are square to it" in gather_stakeout(state(), PadQuestion()).surfaces[0].baselines[0]
    )


def test_surfaces_of_like_names_have_tables_of_their_own() -> None:
    """Names that are one in a tab's 31 letters, or without regard to case, are told apart."""
    names = ("g" * 40, "g" * 41, "Feld", "FELD", "\u0424")
    written = [
        {
            "kind": "surface",
            "fields": {"surface_id": own, "name": own, "use": "field", "lines": [n]},
        }
        for own, n in zip(names, LINES, strict=False)
    ]
    sheet = gather_stakeout(JobState(written_entries(written)), PadQuestion())
    tabs = openpyxl.load_workbook(io.BytesIO(build_stakeout_xlsx(sheet))).sheetnames
    read = csv.reader(io.StringIO(build_stakeout_csv(sheet).decode()))

    assert len({tab.casefold() for tab in tabs}) == len(names) + 1
    assert len({row[0] for row in read if row[0] != "table"}) == len(names)


def test_rods_of_a_setup_whose_check_missed_are_not_to_be_used() -> None:
    """Read 0.1 ft off its backsight, the laser has moved: the sheet says so beside the rods."""
    check = {"setup_id": "L1", "on_point": "BM1", "reading_nm": 21 * FT // 10}
    moved = gather_stakeout(
        state({"kind": "check_shot", "fields": check}), PadQuestion(setup_id="L1")
    )
    held = {**check, "reading_nm": 2 * FT}
    good = gather_stakeout(
        state({"kind": "check_shot", "fields": held}), PadQuestion(setup_id="L1")
    )

    assert "last check shot of L1 missed: do not use them" in moved.cuts[0].note
    assert "missed" not in good.cuts[0].note


def test_a_job_without_lines_or_collector_says_so() -> None:
    """A surface nobody has laid out gets a sentence, no table."""
    surface = {"surface_id": "F1", "name": "Field", "use": "field"}
    job = JobState(written_entries([{"kind": "surface", "fields": surface}]))
    sheet = gather_stakeout(job, PadQuestion())

    assert sheet.tables == []
    assert "No line is planned here." in printed(build_stakeout_pdf(sheet))


@pytest.mark.parametrize("is_kept", [True, False])
def test_order_is_the_layouts_where_there_is_one(is_kept: bool) -> None:
    """A layout that names every line gives the drives; one that does not is left aside."""
    rest = [["S02"], ["S05"], ["S03"], ["S06"]] if is_kept else [["S02"]]
    layout = {"surface_id": "F1", "drives": [DRIVE, {**DRIVE, "number": 2, "legs": rest}]}
    job = state({"kind": "layout", "fields": layout})
    sheet = gather_stakeout(job, PadQuestion())

    assert isinstance(job.latest(LAYOUT, "F1"), SurfaceLayout)
    assert isinstance(job.latest(SURFACE, "F1"), Surface)
    assert ("keeps no driving order" in sheet.surfaces[0].baselines[0]) is not is_kept


def test_plan_shows_what_is_next_and_where_the_tape_lies() -> None:
    """The first pass is cut: its lines are thin and nameless, the four to come heavy and named."""
    sheet = gather_stakeout(state({"kind": "pass", "fields": CUT}), PadQuestion())
    plan = sheet.surfaces[0].plan

    assert plan is not None
    shown = {line.label or "cut": line.standing for line in plan.lines}
    assert shown == {
        "cut": LineProgress.DONE,
        **dict.fromkeys(("S02", "S03", "S05", "S06"), LineProgress.TODAY),
    }
    assert plan.collectors_nm == (((16 * FT // 12, 10 * FT), (96 * FT // 12, 10 * FT)),)


def test_cut_sheet_says_where_to_protect_before_anybody_digs() -> None:
    """Ground 4 ft to 6 ft over a level invert; the floor 1-1/4 in lower meets 5 ft at 17.9 ft."""
    sheet = gather_stakeout(planned([(0, 4), (40, 6)]), PadQuestion())
    (cuts,) = sheet.cuts
    place = [field.name for field in cuts.fields].index("protection")
    text = " ".join(printed(build_stakeout_pdf(sheet)).split())

    assert [(row.items[0].value, row.items[place].value) for row in cuts.rows] == [
        (0, ""), (10, ""), (20, "protect"), (30, "protect"), (40, "protect"),
    ]  # fmt: skip
    assert cuts.rows[0].items[place - 1].value == pytest.approx(4 + 1.25 / 12, abs=1e-6)
    assert (
        "From 0+17.9 to 0+40.0 the trench is planned 5.0 ft deep or deeper, 6.10 ft at 0+40.0: "
        "PROTECT it before anybody enters." in text
    )
    assert ",protect," in build_stakeout_csv(sheet).decode()


def test_cut_sheet_never_takes_unknown_ground_for_a_shallow_trench() -> None:
    """Where no ground level is known the depth is not, and the paper says so."""
    sheet = gather_stakeout(planned([(0, 4), (20, 4)]), PadQuestion())
    text = " ".join(printed(build_stakeout_pdf(sheet)).split())

    assert "From 0+20.0 to 0+40.0 the depth is not known" in text
    assert "nowhere as deep" not in text
    place = [field.name for field in sheet.cuts[0].fields].index("protection")
    assert [row.items[place].value for row in sheet.cuts[0].rows][-1] == "not known"


@pytest.mark.parametrize(
    "words",
    [
        "wait until its blades stand still",
        "Never enter a basin, manhole or large pipe",
        "29 CFR 1910.146, 1926 Subpart AA",
        "silica dust",
        "Local codes and a competent person",
        "Pare la máquina",
        "No entre nunca en una arqueta, pozo",
        "Nadie entra en una zanja sin protección",
        "polvo de sílice",
        "Los códigos locales",
    ],
)
def test_paper_cautions_in_both_languages(words: str) -> None:
    """Who digs by the paper reads English or Spanish; both stand before the first stake."""
    sheet = gather_stakeout(state(), PadQuestion())
    text = " ".join(printed(build_stakeout_pdf(sheet)).split())
    tab = openpyxl.load_workbook(io.BytesIO(build_stakeout_xlsx(sheet)))["cautions"]

    assert words in text.split("passes to drive")[0]
    assert any(words in str(row[0]) for row in tab.iter_rows(values_only=True))
