"""The shelf: what stands on it, and how a book comes there."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crewapp.pages.jobs.library import (
    JobNameMissingError,
    import_plan,
    library_view,
    open_demo,
    salvage_book,
    slug,
    start_job,
)
from crewapp.pages.jobs.view import NewJob
from crewapp.tablet.settings import Settings, Tablet
from models.book.store import Book
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import MATERIAL, PERSON, SURFACE
from models.errors import CrewError
from tests.crewapp.conftest import plan_text, put_plan
from tests.crewapp.pages.frame_driver import open_book, put_book


@pytest.fixture
def tablet(tmp_path: Path) -> Tablet:
    """A tablet without a book."""
    tablet = Tablet(tmp_path / "home")
    tablet.keep_settings(Settings(author="Wren"))
    return tablet


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("North lawn", "north-lawn"),
        ("Élan / 7", "elan-7"),
        ("球場", "job"),
        ("../../etc/passwd", "etc-passwd"),
        ("x" * 99, "x" * 40),
    ],
)
def test_name_makes_a_plain_file_name(name: str, file: str) -> None:
    """No name leads out of the folder, and none is empty."""
    assert slug(name) == file


def test_same_name_twice_gives_two_books(tablet: Tablet) -> None:
    """A book is never written over."""
    first = start_job(tablet, NewJob(name="North lawn", zone="UTC"))
    second = start_job(tablet, NewJob(name="North lawn", zone="UTC"))

    assert [first.name, second.name] == ["north-lawn.book", "north-lawn-2.book"]


@pytest.mark.parametrize(
    ("along", "across"), [("300 ft", "80 ft"), ("91.44 m", "24.384 m")], ids=["us", "metric"]
)
def test_rectangle_is_planned_with_the_usual_pattern(
    tablet: Tablet, along: str, across: str
) -> None:
    """80 ft at 16 in is sixty slits of 300 ft, by hand; half a spacing free at each side."""
    path = start_job(tablet, NewJob(name="Lawn", zone="UTC", along=along, across=across))
    job = open_book(path)
    surface = job.state.latest(SURFACE, "A")
    sand = [line for line in surface.lines if line.use == "sand_slit"]  # type: ignore[union-attr]
    job.close()

    assert len(sand) in (60, 61)
    assert {line.length_nm for line in sand} == {300 * 304_800_000}


def test_metric_rectangle_has_whole_millimetres(tablet: Tablet) -> None:
    """20 m at 400 mm is fifty slits of 50 m, 25 mm by 230 mm: nothing in it is an inch."""
    sides = {"along": "50 m", "across": "20 m"}
    path = start_job(tablet, NewJob(name="Lawn", zone="UTC", unit_system="metric", **sides))
    job = open_book(path)
    surface = job.state.latest(SURFACE, "A")
    job.close()

    assert isinstance(surface, Surface)
    assert len([line for line in surface.lines if line.use == "sand_slit"]) in (50, 51)
    for pattern in (surface.sand_slits, surface.piped_slits):
        assert pattern is not None
        fields = pattern.model_dump().items()
        sizes = [nm for name, nm in fields if name.endswith("_nm") and nm is not None]
        assert not [nm for nm in sizes if nm % 1_000_000]


def test_job_needs_a_name(tablet: Tablet) -> None:
    """Nothing is made without."""
    with pytest.raises(JobNameMissingError):
        start_job(tablet, NewJob(name="  "))

    assert library_view(tablet).books == ()


def test_author_is_the_tablets(tablet: Tablet) -> None:
    """What is planned on the tablet carries the name set there, and its stream."""
    job = open_book(start_job(tablet, NewJob(name="Lawn", zone="UTC")))
    entries = list(job.state.entries.values())
    job.close()

    assert {entry.author for entry in entries} == {"Wren"}
    assert {entry.stream for entry in entries} == {tablet.stream()}


def test_job_by_its_size_can_be_worked(tablet: Tablet) -> None:
    """Sand and a coil can come in, and who starts it can sign and release: no key is a dead end."""
    job = open_book(start_job(tablet, NewJob(name="Lawn", along="60 ft", across="16 ft")))
    uses = {job.state.latest(MATERIAL, name).use for name in job.state.every_name(MATERIAL)}  # type: ignore[union-attr]
    people = job.state.every_name(PERSON)
    job.close()

    assert uses == {"sand", "pipe"}
    assert list(people) == ["Wren"]


def test_day_of_the_plan_is_the_jobs_own(tablet: Tablet) -> None:
    """Kiritimati is fourteen hours ahead: its day is not London's."""
    job = open_book(start_job(tablet, NewJob(name="Lawn", zone="Pacific/Kiritimati")))
    entries = list(job.state.entries.values())
    job.close()

    assert {entry.zone for entry in entries} == {"Pacific/Kiritimati"}
    assert {entry.offset_min for entry in entries} == {14 * 60}


def test_bad_plan_makes_nothing(tablet: Tablet, tmp_path: Path) -> None:
    """Not even an empty book."""
    path = put_plan(tmp_path, benchmark=[{"benchmark_id": "BM1", "elevation": "tall"}])
    with pytest.raises(CrewError, match="tall"):
        import_plan(tablet, path)

    assert not tablet.books.exists() or not list(tablet.books.iterdir())


def test_plan_is_named_for_its_job(tablet: Tablet, tmp_path: Path) -> None:
    """The file's own name does not matter."""
    path = tmp_path / "from office.json"
    path.write_text(plan_text(), encoding="utf-8")

    assert import_plan(tablet, path).name == "hollow-green.book"


def test_shelf_tells_broken_from_unknown(tablet: Tablet) -> None:
    """A damaged book can be copied; a later version's can't, and neither stops the list."""
    good = put_book(tablet.books, "good")
    broken = put_book(tablet.books, "broken")
    broken.write_bytes(good.read_bytes()[:5000])
    (tablet.books / "letter.book").write_text("Dear Sir", encoding="utf-8")
    told = {Path(book.path).stem: book for book in library_view(tablet).books}

    assert (told["good"].name, told["good"].is_broken) == ("Hollow green", False)
    assert (told["broken"].is_broken, told["broken"].can_salvage) == (True, True)
    assert (told["letter"].is_broken, told["letter"].can_salvage) == (True, False)


def test_book_found_broken_later_can_be_copied(tablet: Tablet) -> None:
    """A fault in the middle is met only when the book is read whole."""
    path = put_book(tablet.books)
    (book,) = library_view(tablet, frozenset({path})).books

    assert book.can_salvage
    copy = salvage_book(path)
    with Book.open(path, read_only=True) as old, Book.open(copy, read_only=True) as new:
        assert new.count() == old.count()


def test_plan_files_of_the_inbox_are_listed(tablet: Tablet) -> None:
    """The folder is made, so that there is one to put them into."""
    inbox = Path(library_view(tablet).inbox)
    (inbox / "b.json").write_text(json.dumps({}), encoding="utf-8")
    (inbox / "note.txt").write_text("x", encoding="utf-8")

    assert library_view(tablet).plans == ("b.json",)


def test_demo_cut_off_is_made_anew(tablet: Tablet) -> None:
    """A half-made demo is never opened as if it were whole."""
    tablet.books.mkdir(parents=True)
    (tablet.books / "larkfield-demo.making").write_bytes(b"half")
    path = open_demo(tablet)

    assert [one.name for one in tablet.books.iterdir() if "making" in one.name] == []
    with Book.open(path, read_only=True) as book:
        assert book.count() > 100
