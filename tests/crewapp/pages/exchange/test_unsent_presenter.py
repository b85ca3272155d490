"""What waits for the others is counted from the book and its notes, never asked of the store."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewapp.commands.photos import KeepPhoto
from crewapp.job.dispatch import do
from crewapp.pages.exchange.presenter import exchange_view
from crewapp.pages.exchange.view import ExchangeView
from crewapp.pages.today.presenter import today_view
from crewapp.pages.today.view import ShowToday
from sync.stores.errors import StoreUnreachableError
from sync.stores.folder import FolderStore
from tests.crewapp.pages.sync_driver import Crew, cut_line, found_job


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """The first tablet with the job, and a stick."""
    (tmp_path / "stick").mkdir()
    found_job(tmp_path / "first")
    return Crew(tmp_path, tmp_path / "stick")


def face_of(crew: Crew) -> ExchangeView:
    """Read the view of the first tablet, whose store is the stick."""
    tablet = crew.tablet("first")
    job = crew.open("first")
    settings = tablet.settings()
    if settings.store != str(crew.folder):
        (tablet.folder / "settings.json").write_text(f'{{"store": "{crew.folder}"}}')
    try:
        return exchange_view(job, tablet)
    finally:
        job.close()


def photo(crew: Crew) -> Path:
    """A file that passes for a photo."""
    path = crew.root / "trench.jpg"
    path.write_bytes(b"\xff\xd8\xff\xe0 a trench")
    return path


def test_entries_and_pictures_wait_until_they_were_sent(crew: Crew) -> None:
    """All of the book at first, nothing after an exchange, then what was written since."""
    crew.exchange("first", lambda job: do(job, KeepPhoto(path=str(photo(crew)), caption="trench")))
    assert (face_of(crew).unsent_entries, face_of(crew).unsent_pictures) == (0, 0)
    job = crew.open("first")
    cut_line("S01")(job)
    (crew.root / "trench.jpg").write_bytes(b"\xff\xd8\xff\xe0 another")
    do(job, KeepPhoto(path=str(crew.root / "trench.jpg"), caption="another"))
    line = today_view(job, ShowToday(store=str(crew.folder))).exchange
    job.close()
    view = face_of(crew)

    assert (view.unsent_entries, view.unsent_pictures) == (2, 1)
    assert view.last == "today 08:30"
    assert line == "Exchange: 2 entries wait, last today 08:30."


def test_tablet_that_never_exchanged_has_all_waiting(crew: Crew) -> None:
    """And Today says nothing of it where nobody exchanges."""
    job = crew.open("first")
    count = job.book.count()
    line = today_view(job, ShowToday()).exchange
    job.close()
    view = face_of(crew)

    assert (view.unsent_entries, view.last, line) == (count, "", "")


def test_exchange_that_was_cut_is_not_the_last_one(
    crew: Crew, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its time stays that of the one before, which came to its end."""
    crew.exchange("first")
    crew.clock.set_to("2026-05-12", 9 * 60)

    def gone(store: FolderStore, name: str, data: bytes) -> None:
        raise StoreUnreachableError(where="stick", why="it was pulled out")

    monkeypatch.setattr(FolderStore, "write", gone)
    crew.exchange("first", cut_line("S01"))
    view = face_of(crew)

    assert (view.unsent_entries, view.last) == (1, "yesterday 08:30")


def test_without_a_job_only_this_tablet_is_told_of(crew: Crew) -> None:
    """Its code is there to be read out, before it joined anything."""
    view = exchange_view(None, crew.tablet("new"))

    assert len(view.own_code) == 19
    assert (view.job, view.tablets, view.aside) == ("", (), ())
