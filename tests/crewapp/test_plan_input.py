"""Plans that are wrong in many places: every fault is told at once, with what would do.

The field is that of an invented club: 100 by 64 m, twenty places to keep out of, a practice
green drawn as a circle, and a collector along its south side.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read
from crewapp.cli.main import main
from models.entries.bodies.job import Machine
from models.entries.kind_names import LAYOUT, MACHINE, SURFACE

SLIT = {"width_tolerance": "6 mm", "under": "13 mm", "over": "25 mm"}
SLIT |= {"probe_every": "8 m", "probe_end": "1.5 m"}
Captured = pytest.CaptureFixture[str]


def box(along: str, across: str, east: str, north: str) -> dict[str, str]:
    """A rectangle of a plan file."""
    return {"along": along, "across": across, "east": east, "north": north}


def head(number: int, east: int, north: int, **circle: str) -> dict[str, Any]:
    """A sprinkler head of a plan file."""
    told = {"radius": "100 mm", "east": f"{east} m", "north": f"{north} m", **circle}
    return {"name": f"head {number}", "circle": told}


def field() -> dict[str, Any]:
    """A sound plan of the field."""
    keep_outs = [
        {"name": "square", "rectangle": box("28 m", "23.2 m", "36 m", "20.4 m")},
        *(head(number, 4 + 5 * number, 10) for number in range(1, 17)),
        {"name": "goal 1", "rectangle": box("300 mm", "300 mm", "3 m", "32 m")},
        {"name": "goal 2", "rectangle": box("300 mm", "300 mm", "96 m", "32 m")},
        {"name": "pond", "ring": [{"x": f"{x} m", "y": f"{y} m"} for x, y in POND]},
    ]
    return {
        "job": {"job_id": "oak", "name": "Oak End", "unit_system": "metric", "zone": "UTC"}
        | {"station_style": "metric_1000m", "planned_finish": "2026-09-01"},
        "machine": [{"machine_id": "twin", "legs": 2, "leg_spacing": "1200 mm"}],
        "surface": [
            {
                "surface_id": "F1", "name": "Field", "use": "field", "collector_id": "C1",
                "rectangle": {"along": "100 m", "across": "64 m"},
                "sand_slits": {"spacing": "400 mm", "width": "25 mm", "depth": "230 mm", **SLIT},
                "layout": {"setback": "500 mm", "keep_outs": keep_outs,
                           "sand_slits": {"bearing": "90 deg", "machine": "twin"}},
            },
            {
                "surface_id": "G1", "name": "Practice green", "use": "green",
                "circle": {"radius": "8 m", "east": "115 m", "north": "20 m"},
            },
        ],
        "collector": [
            {
                "collector_id": "C1", "name": "South side",
                "design": {
                    "stationed_from": "outlet", "start": "0+000", "length": "100 m",
                    "start_invert": "48 m", "grade": "1%", "least_grade": "0.5%", "high": "12 mm",
                    "low": "12 mm", "shot_every": "5 m", "bore": "100 mm", "outside": "110 mm",
                    "trench_width": "200 mm", "bedding": "25 mm", "bedding_least": "20 mm",
                    "cover_least": "300 mm", "protection_depth": "1.2 m",
                    "ground": [{"station": f"0+0{s}", "level": "49 m"} for s in ("00", "50", "90")],
                    "path": [{"x": "0 m", "y": "-1 m"}, {"x": "100 m", "y": "-1 m"}],
                },
            }
        ],
    }  # fmt: skip


POND = [(5, 50), (9, 50), (9, 54), (5, 54)]


def bring(tmp_path: Path, told: dict[str, Any], *words: str) -> tuple[int, Path]:
    """Bring a plan into a new book by command."""
    plan, book = tmp_path / "field.json", tmp_path / "field.book"
    plan.write_text(json.dumps(told), "utf-8")
    return main(["plan", "import", str(book), str(plan), *words]), book


def test_a_sound_field_is_laid_without_a_question(tmp_path: Path, capsys: Captured) -> None:
    """Twenty keep-outs, none lost; by hand 158 rows of sand slits at 400 mm in 63 m and a bit."""
    code, book = bring(tmp_path, field())
    told = capsys.readouterr().out

    assert code == 0
    assert not re.search("asks:|note:", told)
    with book_to_read(book) as job:
        layout: Any = job.state.latest(LAYOUT, "F1")
        surface: Any = job.state.latest(SURFACE, "F1")
    assert len(layout.keep_outs) == 20
    assert max(int(one.line_id[1:4]) for one in surface.lines) == 158


def spoilt() -> dict[str, Any]:
    """The plan wrong in twelve places."""
    told = field()
    told["job"]["planned_finish"] = "1926-09-01"
    told["machine"][0]["deepest"] = "200 mm"
    f1, g1 = told["surface"]
    f1["sand_slits"]["width"] = "400 mm"
    f1["piped_slits"] = {"spacing": "4 m", "width": "0 mm", "depth": "300 mm", **SLIT}
    f1["piped_slits"]["pipe_outside"] = "310 mm"
    keep_outs = f1["layout"]["keep_outs"]
    keep_outs[1] = {"name": "head 1", "circle": {"east": "9 m", "north": "10 m"}}
    keep_outs[2] = {"name": "head 2"}
    keep_outs[3] = head(3, 800, 10)
    keep_outs[19]["ring"][1:3] = [keep_outs[19]["ring"][2], keep_outs[19]["ring"][1]]
    g1["circle"]["radius"] = "8"
    design = told["collector"][0]["design"]
    design |= {"length": "120 m", "grade": "0.4%"}
    design["ground"][1]["station"] = "0+095"
    return told


SAID = (
    "job, planned_finish: '1926-09-01' lies before 2000. Accepted: a day as 2026-05-11, in the "
    "years 2000 to 2100.",
    "surface 1 (F1), sand_slits: The sand slits of F1 are 400 mm wide and 400 mm apart, so no turf "
    "would be left between them. Accepted: a spacing of more than 400 mm, or a narrower slit.",
    "surface 1 (F1), sand_slits, depth: The sand slits of F1 are planned 230 mm deep, and twin "
    "cuts 200 mm at most. Accepted: a depth of at most 200 mm, or a machine that cuts deeper.",
    "surface 1 (F1), piped_slits, width: The piped slits of F1 have a width of nothing.",
    "surface 1 (F1), piped_slits, pipe_outside: The pipe in the slits of F1 is 310 mm thick and "
    "the slit 300 mm deep.",
    "keep_outs, 2 (head 1), circle: ",
    "keep_outs, 3 (head 2), ring: is missing, so no line would keep off it.",
    "keep_outs (head 3): The keep-out head 3 does not touch F1",
    "its nearest edge is 699.90 m away. Accepted: a place on the surface in the plan's unit",
    "keep_outs (pond): side 1 (from corner 1) meets side 3",
    "surface 2 (G1), circle, radius: '8' has no unit.",
    "collector 1 (C1), design, length: C1 is 120.00 m long by its design and 100.00 m along its "
    "course. Accepted: the two within 0.60 m of each other: a length of 100.00 m, or a course of "
    "120.00 m.",
    "collector 1 (C1), design, grade: C1 falls 0.40 % by its design, and the least allowed is "
    "0.50 %. Accepted: a grade of 0.50 % or more, or a smaller least.",
    "collector 1 (C1), design, ground, 3: The ground over C1 goes back from 0+095.0 to 0+090.0.",
)


def test_everything_wrong_with_a_plan_is_told_at_once(tmp_path: Path, capsys: Captured) -> None:
    """Fourteen sentences, each with its place; no book is made."""
    code, book = bring(tmp_path, spoilt())
    told = capsys.readouterr().err

    assert code == 2
    assert not book.exists()
    assert [said for said in SAID if said not in told] == []
    assert "has 14 things to put right" in told


def test_what_may_be_meant_is_written_asked_about_and_flagged(
    tmp_path: Path, capsys: Captured
) -> None:
    """Lines 16 ft apart, a limit of half the depth, a surface over another: each is a flag."""
    told = field()
    f1, g1 = told["surface"]
    f1["sand_slits"] |= {"spacing": "4877 mm", "under": "120 mm"}
    f1["layout"]["sand_slits"] |= {"legs": 1}
    g1["circle"]["east"] = "105 m"
    code, book = bring(tmp_path, told)
    out = capsys.readouterr().out

    assert code == 0
    assert "asks: The sand slits of F1 are planned 4877 mm (4.88 m) apart" in out
    assert "asks: F1 and G1 overlap." in out
    assert main(["check", str(book), "--json"]) == 0
    flags = {one["flag"] for one in json.loads(capsys.readouterr().out)["flags"]}
    assert {"plan/A03/F1/sand_slit", "plan/A06/F1/sand_slit.under", "plan/A28/F1/G1"} <= flags


def test_a_layout_is_audited_before_it_is_written(tmp_path: Path, capsys: Captured) -> None:
    """A pattern deeper than the machine cuts is refused by the command that lays lines."""
    told = field()
    told["machine"][0]["deepest"] = "250 mm"
    _, book = bring(tmp_path, told)
    wide = "width=25 mm, width_tolerance=6 mm, depth={}, under=13 mm, over=25 mm"
    wide += ", probe_every=8 m, probe_end=1 m"
    lay = ["plan", "layout", str(book), "--surface", "G1", "--sand-slits", "400 mm"]
    lay += ["--sand-machine", "twin", "--sand-pattern"]
    capsys.readouterr()

    assert main([*lay, wide.format("260 mm")]) == 2
    refused = capsys.readouterr().err
    assert "G1 are planned 260 mm deep, and twin cuts 250 mm at most. Accepted: " in refused
    assert main([*lay, wide.format("260 mm"), "--dry-run"]) == 1
    assert "It could not be written: The sand slits of G1" in capsys.readouterr().out
    assert main([*lay, wide.format("250 mm")]) == 0
    with book_to_read(book) as job:
        machine: Any = job.state.latest(MACHINE, "twin")
    assert isinstance(machine, Machine)
    assert machine.deepest_nm == 250_000_000


def test_faults_of_field_notes_are_told_row_by_row(tmp_path: Path, capsys: Captured) -> None:
    """A row's unknown name is told beside its cell; rows of a faulty pass are not blamed."""
    _, book = bring(tmp_path, field())
    notes = tmp_path / "notes.csv"
    notes.write_text(
        "day,entry,surface,pass,lines,length,at,depth,who,run\n"
        "2026-05-11,pass,F1,A,S001,far,,,,\n"
        "2026-05-11,probe,,A,S001,,2,nine,,\n"
        "2101-05-11,pass,F9,B,S002,wide,,,,\n"
        "2026-05-11,crew,,,,,,,Ana,99 h\n",
        "utf-8",
    )
    capsys.readouterr()

    assert main(["log", str(book), str(notes)]) == 2
    told = capsys.readouterr().err
    assert "has 6 things to put right" in told
    for row, column in ((2, "length"), (3, "depth"), (4, "day"), (4, "length"), (4, "surface")):
        assert f"row {row}, column {column}: " in told
    assert "row 5, column run: '99 h' is 99 h, longer than a day. Accepted: 0 to 24 h." in told
