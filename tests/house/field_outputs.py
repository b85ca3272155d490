"""Where a field of the pass shows: run as a process of its own, over packages that have it.

``python field_outputs.py FOLDER FIELD COLUMN VALUE`` logs a pass with the field by typed-up
notes and another by the page's question, crosses one out, writes the day's papers into the
folder, and prints as JSON what every other output says. Another act, ``forgotten``, prints
what was not done for the fields that bodies have.
"""

from __future__ import annotations

import csv
import io
import json
import sqlite3
import sys
from pathlib import Path
from typing import Any

from crewapp.commands.entries import Strike
from crewapp.commands.passes import LogPass
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.notes.notes import read_notes
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.dispatch import do, read
from crewapp.job.open_job import OpenJob
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.passes.view import ShowPass
from crewapp.tablet.clock import SetClock
from crewapp.words import translate
from models.book.store import Book
from models.entries.bodies.collector_work import POSITION
from models.entries.kinds import KINDS
from models.entries.schema import entry_schema
from models.entries.shows import marked_fields
from sync.papers.day.day_files import write_day_sheets
from sync.papers.wording.entry_text import details_of
from tests.house.tree import ROOT
from tests.models.entries.frozen_bodies import frozen_bodies, not_frozen

DAY = "2026-05-11"
SCHEMA = ROOT / "fixtures" / "schema" / "entries.schema.json"
WITHOUT_MARK = {
    "pass": {"pieces", "drive_number", "is_along"},
    "sand_placed": {"volume_pl", "mass_ug", "amount_typed", "hoppers_tenths"},
    "sand_top_up": {"volume_pl", "mass_ug", "amount_typed"},
    "delivery": {"mass_ug", "volume_pl", "length_nm", "amount_typed"},
    "utility": POSITION | {"x_nm", "y_nm"},
    "outlet_seen": POSITION,
}
"""Fields that are read and shown together, as one amount or one place."""
WITH_TABLE = {"pass", "probe", "grade_shot", "delivery", "spoil", "hours"}
"""Kinds whose table in the day sheet takes up the fields that came to a body in use."""
IN_TEXT = {("setup", "instrument_id")}
"""Fields that the text of their kind names by itself."""


def outputs(folder: Path, name: str, column: str, value: str) -> dict[str, Any]:
    """What each output says of a field of the pass that was given."""
    clock = SetClock("America/Chicago", 0)
    clock.set_to(DAY, 8 * 60)
    job = OpenJob(Book.create(folder / "small.book", stream="a", reserve_bytes=10), clock, "Wren")
    plan = ROOT / "fixtures" / "plans" / "small.json"
    set_up_all(job, read_plan(plan, plan.read_text("utf-8")))
    row = {"day": DAY, "entry": "pass", "surface": "G7", "pass": "G7-01", "lines": "S01"}
    row |= {"length": "40 ft", column: value}
    page = io.StringIO()
    writer = csv.DictWriter(page, row)
    writer.writeheader()
    writer.writerow(row)
    noted = job.ink(*read_notes(Path("notes.csv"), page.getvalue(), job)).entries[0]
    question = next(one for one in read(job, ShowPass()).questions if one.step.field == name)
    tapped = do(
        job,
        LogPass(
            surface_id="G7",
            line_ids=("S02",),
            length_nm=10**10,
            length_typed="32.8",
            more=question.fields({name: value}),
        ),
    ).entries[0]
    do(job, Strike(entry_id=tapped.id, reason="logged twice"))
    files = write_day_sheets(job.state, job.board, DAY, folder)
    told: dict[str, Any] = {
        "noted": json.loads(noted.raw)["body"][name],
        "tapped": json.loads(tapped.raw)["body"][name],
        "question": [question.step.name, question.step.question],
        "struck": details_of(tapped, job.figures),
        "line": entry_line(noted, job.figures),
        "schema": name in entry_schema()["$defs"]["PassCut"]["properties"],
        "files": sorted(path.name for path in files),
    }
    translate.set_language("es")
    told["linea"] = entry_line(noted, job.figures)
    job.close()
    with sqlite3.connect(folder / "small.book") as book:
        rows = book.execute(f'SELECT "{name}" FROM "pass" WHERE pass_id = ?', ("G7-01",))
        told["sql"] = rows.fetchone()[0]
    return told


def forgotten() -> list[str]:
    """What was not done for a field that a body has: a word and the field, or the kind."""
    found = []
    if json.loads(SCHEMA.read_text("utf-8")) != entry_schema():
        found.append("schema: crewapp schema prints it")
    found += [f"frozen body of {kind}" for kind in not_frozen(frozen_bodies())]
    spanish = translate.table("es")
    for kind, model in KINDS.items():
        marked = list(marked_fields(model))
        for field in marked:
            found += [f"Spanish: {text}" for text in field.texts if not spanish.get(text)]
            is_in_text = field.shows.said or (kind, field.name) in IN_TEXT
            if field.is_late and kind not in WITH_TABLE and not is_in_text:
                found.append(f"text on paper of {kind}.{field.name}")
            typed = f"{field.name.rsplit('_', 1)[0]}_typed"
            if field.typed == "" and typed in model.model_fields and field.name != typed:
                found.append(f"quantity of {kind}.{field.name}, which is typed")
        told = {name for field in marked for name in (field.name, field.typed)}
        left = [name for name in model.model_fields if name not in told] if marked else []
        found += [
            f"sheet, CSV, notes: how {kind}.{name} shows"
            for name in left
            if name not in WITHOUT_MARK.get(kind, ())
        ]
    return found


if __name__ == "__main__":
    if sys.argv[1] == "forgotten":
        print(json.dumps(forgotten()))
    else:
        print(json.dumps(outputs(Path(sys.argv[1]), *sys.argv[2:])))
