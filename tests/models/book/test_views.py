"""The views by which any SQL tool can read the book."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from models.book.row import Draft
from models.book.store import Book
from models.book.views import Dialect, Source, view_statements
from models.entries.kinds import KINDS

Make = Callable[..., Draft]


class Probe(BaseModel):
    """A kind with one field of each sort, and one named like a column of the envelope."""

    line_id: str
    depth_nm: int
    width_nm: int | None = None
    is_wet: bool = False
    readings_nm: tuple[int, ...] = ()
    day: str = ""


class Probe2(Probe):
    """The same kind, grown by a field."""

    note: str = ""


class Order(BaseModel):
    """A kind named like a word of SQL."""

    text: str


def ask(path: Path, question: str) -> list[dict[str, Any]]:
    """Ask the file as any other program would."""
    with closing(sqlite3.connect(path)) as file:
        file.row_factory = sqlite3.Row
        return [dict(row) for row in file.execute(question)]


@pytest.fixture
def read(book: Book, draft: Make) -> dict[str, str]:
    """Write three probes, the first struck, and return what the test needs of them."""
    body = {"line_id": "L7", "depth_nm": 5, "is_wet": True, "readings_nm": [1, 2], "day": "d"}
    one = book.commit_all([draft(body=body, author='O"Dell')])[0]
    two = book.commit_all([draft(body=body, strikes=(one.id,), reason="misread", offset_min=345)])[
        0
    ]
    book.commit_all([draft(kind="order", body={"text": "sand"})])
    assert book.refresh_views({"probe": Probe, "order": Order})
    return {"one": one.id, "two": two.id}


def test_view_of_a_kind_shows_its_fields(path: Path, read: dict[str, str]) -> None:
    """One column a field under its own name, lists as JSON, and where and when it was said."""
    one, two = ask(path, "SELECT * FROM probe ORDER BY id")

    assert two == {
        "id": read["two"],
        "day": "2026-05-28",
        "at": "2026-05-29T02:11:40+05:45",
        "author": "Rhea",
        "struck": 0,
        "struck_by": None,
        "reason": None,
        "line_id": "L7",
        "depth_nm": 5,
        "width_nm": None,
        "is_wet": 1,
        "readings_nm": "[1,2]",
        "body_day": "d",
    }
    assert one["at"] == "2026-05-28T15:26:40-05:00"
    assert (one["struck"], one["struck_by"], one["reason"]) == (1, read["two"], "misread")


def test_kind_named_like_a_word_of_sql(path: Path, read: dict[str, str]) -> None:
    """A view's name is quoted where SQL needs that."""
    assert [row["text"] for row in ask(path, 'SELECT * FROM "order"')] == ["sand"]


def test_current_and_struck_entries(path: Path, read: dict[str, str]) -> None:
    """One view holds what stands, the other who struck what and why."""
    assert [row["kind"] for row in ask(path, "SELECT * FROM current_entry")] == ["probe", "order"]
    assert ask(path, "SELECT struck, struck_by, author, reason FROM strike") == [
        {"struck": read["one"], "struck_by": read["two"], "author": "Rhea", "reason": "misread"}
    ]


def test_entry_struck_twice_is_one_row(book: Book, path: Path, draft: Make, read: Any) -> None:
    """Two strikes of one entry are both named, and the entry is not doubled."""
    second = book.commit_all([draft(strikes=(read["one"],), reason="too shallow")])[0]

    rows = ask(path, f"SELECT * FROM probe WHERE id = '{read['one']}'")

    assert len(rows) == 1
    assert set(rows[0]["struck_by"].split()) == {read["two"], second.id}


def test_views_are_made_anew_only_when_the_models_changed(
    book: Book, path: Path, draft: Make
) -> None:
    """The fingerprint in the file decides; views of kinds that are gone go too."""
    book.commit_all([draft(body={"line_id": "L7", "note": "late"})])

    assert book.refresh_views({"probe": Probe, "order": Order})
    assert not book.refresh_views({"probe": Probe, "order": Order})
    assert book.refresh_views({"probe": Probe2})

    assert [row["note"] for row in ask(path, "SELECT note FROM probe")] == ["late"]
    views = ask(path, "SELECT name FROM sqlite_master WHERE type = 'view'")
    assert {view["name"] for view in views} == {"probe", "strike", "current_entry"}
    assert book.verify().is_sound


def test_every_kind_there_is_can_be_asked(book: Book, path: Path) -> None:
    """The views of the app's own models are valid SQL, under the kind's own name."""
    assert book.refresh_views(KINDS)
    for kind, model in KINDS.items():
        with closing(sqlite3.connect(path)) as file:
            columns = [row[1] for row in file.execute(f'PRAGMA table_info("{kind}")')]
        assert len(columns) == 7 + len(model.model_fields)


def test_kind_named_like_our_own_tables() -> None:
    """A kind called entry or strike does not hide the table or view of that name."""
    made = view_statements({"entry": Order, "strike": Order}, Dialect.SQLITE)

    assert list(made) == ["strike", "current_entry", "entry_entry", "strike_entry"]


def test_same_views_for_postgresql() -> None:
    """The other dialect has the same views, with numbers and yes or no as such."""
    ours = view_statements({"probe": Probe}, Dialect.SQLITE)
    theirs = view_statements({"probe": Probe}, Dialect.POSTGRESQL)

    assert list(ours) == list(theirs)
    assert "json_extract" not in "".join(theirs.values())
    whole = r"replace(convert_from(e.raw, 'UTF8'), '\u0000', '\ufffd')"
    field = (whole + "::jsonb #>> '{{body,{0}}}'").format
    for expected in (
        f'({field("line_id")}) AS "line_id"',
        f'({field("depth_nm")})::numeric AS "depth_nm"',
        f'({field("width_nm")})::numeric AS "width_nm"',
        f'({field("is_wet")})::boolean::integer AS "is_wet"',
        f'({field("readings_nm")}) AS "readings_nm"',
    ):
        assert expected in theirs["probe"]


@pytest.mark.parametrize("dialect", list(Dialect))
def test_views_over_many_jobs_tell_them_apart(dialect: Dialect) -> None:
    """Where entries of many jobs lie together, each view says whose, and strikes stay within."""
    views = view_statements({"probe": Probe}, dialect, Source("job_entry", "job_key"))

    assert all("SELECT e.job_key, " in view for view in views.values())
    assert "AS x ON x.struck = e.id AND x.job_key = e.job_key" in views["probe"]
    assert "(e.job_key, e.id) NOT IN (SELECT job_key, struck FROM strike)" in views["current_entry"]
