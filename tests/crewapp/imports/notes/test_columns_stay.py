"""A page of notes that people have typed up goes on being read: its columns only grow.

fixtures/notes/columns.json is the answer of ``crewapp columns --json`` as people may have
written it down. A column that comes needs no change of it; once a release has one, print it anew.
"""

from __future__ import annotations

import json

import pytest

from crewapp.cli.main import main
from crewapp.imports.notes.rows import ROWS
from models.entries.kinds import KINDS
from models.entries.shows import marked_fields
from tests.house.tree import ROOT

Rows = dict[str, list[str]]
KNOWN: dict[str, Rows] = json.loads((ROOT / "fixtures/notes/columns.json").read_text("utf-8"))


def changed(known: Rows, now: Rows) -> list[str]:
    """Return the rows that lack one of their columns, have them in another order or want more."""
    return [
        word
        for word, columns in known.items()
        if [one for one in now.get(word, []) if one in columns] != columns
        or any(one.endswith("*") and one not in columns for one in now.get(word, []))
    ]


@pytest.mark.parametrize("pages", ["rows", "levels"])
def test_columns_in_use_stay(pages: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Each row has its columns in their order, and none that must be filled came to them."""
    assert main(["columns", "--json"]) == 0

    assert changed(KNOWN[pages], json.loads(capsys.readouterr().out)[pages]) == []


def test_columns_are_the_marked_fields(capsys: pytest.CaptureFixture[str]) -> None:
    """A field that its mark puts into notes is a column of its kind's rows, starred if needed."""
    assert main(["columns", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)

    missing = []
    for row in ROWS:
        for field in marked_fields(KINDS[row.kind]):
            column = field.shows.notes_column
            is_set_by_row = field.name in dict(row.fixed)
            if not field.shows.in_notes or not column or is_set_by_row:
                continue
            if f"{column}{'*' * field.is_needed}" not in told["rows"][row.word]:
                missing.append(f"{row.word}: {column}")
            if column not in told["columns"]:
                missing.append(f"header: {column}")
    assert missing == []


def test_every_row_is_of_a_kind_with_marks() -> None:
    """So no kind's columns are written by hand beside its body."""
    assert {row.word for row in ROWS if not any(marked_fields(KINDS[row.kind]))} == set()


@pytest.mark.parametrize(
    "now",
    [
        {"probe": ["at"]},
        {"probe": ["depth*", "at"]},
        {"probe": ["at", "depth"]},
        {"probe": ["at", "depth*", "width*"]},
        {},
    ],
    ids=["gone", "another order", "no star", "must be filled too", "no row"],
)
def test_a_change_is_found(now: Rows) -> None:
    """Planted: whatever would refuse a page that was typed up before, or read it otherwise."""
    assert changed({"probe": ["at", "depth*"]}, now) == ["probe"]


def test_a_column_that_comes_is_no_change() -> None:
    """Wherever in the row it stands, if it may be left empty."""
    now = {"probe": ["width", "at", "note", "depth*"], "layer": ["from*"]}

    assert changed({"probe": ["at", "depth*"]}, now) == []
