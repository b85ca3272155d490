"""A job in one file: made, taken in, and safe to open whoever made it."""

from __future__ import annotations

import hashlib
import io
import struct
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from models.book.store import Book
from sync.exchange.photos import PHOTO_BYTES
from sync.exchange.request import ExchangeRequest
from sync.handover.errors import (
    HandoverEmptyError,
    HandoverHoldsNothingError,
    HandoverJobError,
    HandoverNotMadeError,
    HandoverUnreadableError,
)
from sync.handover.file_store import HandoverStore
from sync.handover.maker import make_handover
from sync.handover.taker import take_handover, take_new_handover
from sync.stores.errors import NotInStoreError, StoreRefusedError, TooLargeError
from sync.trust.keys import MemoryKeyRing, Signer
from tests.sync.exchange.crew import Crew, MemoryStore, draft
from tests.sync.segments.test_file_name import HOSTILE

PHOTO = b"\xff\xd8\xff" + bytes(999)
DIGEST = hashlib.sha256(PHOTO).hexdigest()
TERMS = ExchangeRequest(where="")


@pytest.fixture
def founder(tmp_path: Path) -> Crew:
    """A tablet with two days and a photo of the first."""
    one = Crew(tmp_path / "a.book", Signer(hashlib.sha256(b"a").digest()))
    one.found()
    one.ink(draft("photo", sha256=DIGEST, suffix="jpg", caption="wet corner"))
    one.place.photos.mkdir()
    (one.place.photos / f"{DIGEST}.jpg").write_bytes(PHOTO)
    return one


def handed_over(one: Crew, out: Path, **options: object) -> Path:
    """Make a hand-over of a tablet's job."""
    day = str(options.get("day", ""))
    return make_handover(one.book, MemoryKeyRing(one.signer), out, day=day).path


def test_stranger_gets_the_whole_job(founder: Crew, tmp_path: Path) -> None:
    """Entries and photo, in a new book."""
    file = handed_over(founder, tmp_path / "job.crew")
    report, book = take_new_handover(file, tmp_path / "new.book", Signer.new().stream, TERMS)
    with book:
        assert [row.raw for row in book.rows()] == founder.raws()
    assert report.is_complete
    assert (tmp_path / "new.book.photos" / f"{DIGEST}.jpg").read_bytes() == PHOTO


def test_same_job_gives_the_same_bytes(founder: Crew, tmp_path: Path) -> None:
    """Whenever it is made."""
    one = handed_over(founder, tmp_path / "1.crew").read_bytes()

    assert handed_over(founder, tmp_path / "2.crew").read_bytes() == one


def test_day_leaves_out_what_came_later(founder: Crew, tmp_path: Path) -> None:
    """Later segments and other days' photos stay; what leads up to the day goes along."""
    handed_over(founder, tmp_path / "first.crew")
    founder.ink(replace(draft(), day="2026-05-29"))
    handed_over(founder, tmp_path / "second.crew")
    files = {}
    for day in ("2026-05-28", "2026-05-29", ""):
        with HandoverStore(handed_over(founder, tmp_path / f"{day or 'all'}.crew", day=day)) as one:
            files[day] = [name.name.split("/")[1] for name in one.list("")]

    assert files["2026-05-28"] == ["blob", "seg"]
    assert files["2026-05-29"] == ["seg", "seg"]
    assert files[""] == ["blob", "seg", "seg"]


def test_day_takes_the_job_along_whenever_it_was_planned(founder: Crew, tmp_path: Path) -> None:
    """A day typed up from paper may lie before the plan; without the job nobody could take it."""
    file = handed_over(founder, tmp_path / "early.crew", day="2020-01-01")
    report, book = take_new_handover(file, tmp_path / "new.book", Signer.new().stream, TERMS)

    with book:
        assert [row.kind for row in book.of_kinds(["job"])] == ["job"]
    assert report.is_complete


def test_news_is_taken_into_a_book_that_is_there(founder: Crew, tmp_path: Path) -> None:
    """Twice does no harm."""
    file = handed_over(founder, tmp_path / "1.crew")
    _, book = take_new_handover(file, tmp_path / "new.book", Signer.new().stream, TERMS)
    founder.ink()
    file = handed_over(founder, tmp_path / "2.crew")
    with book:
        assert take_handover(file, book, TERMS).new_rows == 1
        assert take_handover(file, book, TERMS).new_rows == 0


def test_file_that_is_there_is_left(founder: Crew, tmp_path: Path) -> None:
    """Nothing is written over."""
    (tmp_path / "x.crew").write_bytes(b"mine")
    with pytest.raises(HandoverNotMadeError, match="a file of that name"):
        handed_over(founder, tmp_path / "x.crew")

    assert (tmp_path / "x.crew").read_bytes() == b"mine"
    with pytest.raises(HandoverNotMadeError):
        handed_over(founder, tmp_path / "no" / "folder" / "x.crew")


def test_notes_of_an_exchange_are_left_to_it(founder: Crew, tmp_path: Path) -> None:
    """A hand-over may be made while another program exchanges the book: it takes no notes."""
    store = MemoryStore()
    founder.sync(store)
    before = founder.place.log.read_bytes()
    founder.ink()
    handed_over(founder, tmp_path / "1.crew")
    assert founder.place.log.read_bytes() == before

    report = founder.sync(store)
    assert (report.out.files, report.sealed_rows, report.new_rows) == (1, 0, 0)
    assert report.is_complete


def test_nothing_is_left_of_one_that_was_not_made(founder: Crew, tmp_path: Path) -> None:
    """Neither when it is stopped nor when there is no room: half of it would keep a disk full."""
    for fault, told in ((KeyboardInterrupt(), KeyboardInterrupt), (OSError(28, "full"), Exception)):

        def stop(_step: str, done: int, _total: int, fault: BaseException = fault) -> None:
            if done == 1:
                raise fault

        with pytest.raises(told):
            make_handover(
                founder.book, MemoryKeyRing(*founder.held), tmp_path / "x.crew", on_step=stop
            )
        assert not [path for path in tmp_path.iterdir() if "x.crew" in path.name]


def test_other_job_is_told(founder: Crew, tmp_path: Path) -> None:
    """A handed-over file of another job is refused, and nothing of it is taken."""
    other = Crew(tmp_path / "b.book", Signer.new())
    other.found()
    file = handed_over(other, tmp_path / "b.crew")

    with pytest.raises(HandoverJobError, match="Nothing was taken"):
        take_handover(file, founder.book, TERMS)


def archive(*members: tuple[str, bytes], method: int = zipfile.ZIP_STORED) -> bytes:
    """Return an archive with these members."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as file:
        for name, data in members:
            info = zipfile.ZipInfo("x")
            info.filename = name
            info.compress_type = method
            file.writestr(info, data)
    return out.getvalue()


def put(folder: Path, data: bytes) -> Path:
    """Keep bytes as a file."""
    path = folder / "stranger.crew"
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("under", ["", "seg/", "blob/"])
def test_hostile_names_lead_nowhere(founder: Crew, tmp_path: Path, under: str) -> None:
    """No file appears outside its folder, or with what they held, and the good one is read."""
    file = handed_over(founder, tmp_path / "good.crew")
    with zipfile.ZipFile(file) as good:
        members = [(info.filename, good.read(info)) for info in good.infolist()]
    start = f"{founder.key}/{under}" if under else ""
    members += [(f"{start}{name}", b"harm") for name in HOSTILE if start + name]
    home = tmp_path / "home"
    home.mkdir()
    file = put(home, archive(*members))
    before = {path for path in tmp_path.rglob("*") if home not in path.parents}
    report, book = take_new_handover(file, home / "new.book", Signer.new().stream, TERMS)
    with book:
        assert [row.raw for row in book.rows()] == founder.raws()

    assert {path for path in tmp_path.rglob("*") if home not in path.parents} == before
    assert not any(path.read_bytes() == b"harm" for path in home.rglob("*") if path.is_file())
    assert report.new_rows == 2


def overlapping() -> bytes:
    """Two entries of the list that lead to one member."""
    data = bytearray(archive(("a", b"x" * 50), ("b", b"y")))
    first = data.index(b"PK\x01\x02")
    second = data.index(b"PK\x01\x02", first + 1)
    data[second + 42 : second + 46] = data[first + 42 : first + 46]
    return bytes(data)


def lying_list() -> bytes:
    """A list of members said to be larger than any hand-over's."""
    data = bytearray(archive(("a", b"x")))
    data[-10:-6] = struct.pack("<L", 2**31)
    return bytes(data)


def reaching_out() -> bytes:
    """A member said to be larger than the file."""
    data = bytearray(archive(("a", b"x" * 50)))
    at = data.index(b"PK\x01\x02")
    data[at + 20 : at + 28] = struct.pack("<LL", 5000, 5000)
    return bytes(data)


UNREADABLE: dict[str, Callable[[], bytes]] = {
    "empty": lambda: b"",
    "text": lambda: b"hello" * 100,
    "cut": lambda: archive(("a", b"x" * 100))[:-30],
    "packed": lambda: archive(("a", bytes(10_000_000)), method=zipfile.ZIP_DEFLATED),
    "one member twice": lambda: archive(("a", b"x"), ("a", b"y")),
    "members over each other": overlapping,
    "a list that lies": lying_list,
    "a member past the end": reaching_out,
    "a comment": lambda: archive(("a", b"x"))[:-2] + b"\x05\x00hello",
    "larger than a photo": lambda: archive(("a", bytes(PHOTO_BYTES + 1))),
    "packed twice": lambda: zlib.compress(archive(("a", b"x"))),
    "before another archive": lambda: archive(("a", b"x")) + archive(("b", b"x")),
}


@pytest.mark.filterwarnings("ignore:Duplicate name")
@pytest.mark.parametrize("what", UNREADABLE)
def test_file_that_no_crewapp_makes_is_refused(tmp_path: Path, what: str) -> None:
    """With a sentence, and nothing unpacks."""
    with pytest.raises(HandoverUnreadableError, match="Nothing was taken"):
        HandoverStore(put(tmp_path, UNREADABLE[what]()))


def test_member_that_is_altered_is_set_aside(founder: Crew, tmp_path: Path) -> None:
    """Its checksum does not hold; the rest would go on, and there is no rest."""
    data = bytearray(handed_over(founder, tmp_path / "1.crew").read_bytes())
    at = data.index(b".seg") + 60
    data[at] ^= 1
    with pytest.raises(HandoverHoldsNothingError, match="holds no entries of"):
        take_new_handover(put(tmp_path, bytes(data)), tmp_path / "n.book", "ab" * 16, TERMS)


def test_it_is_a_store_that_takes_nothing(founder: Crew, tmp_path: Path) -> None:
    """Listed and read like any other, and never written."""
    with HandoverStore(handed_over(founder, tmp_path / "1.crew")) as store:
        name = store.list(founder.key)[0].name
        assert store.list("nowhere") == []
        with pytest.raises(TooLargeError):
            store.read(name, 5)
        with pytest.raises(NotInStoreError):
            store.read("other", 5)
        with pytest.raises(StoreRefusedError):
            store.write("other", b"x")


def test_an_empty_hand_over_is_not_made(founder: Crew, tmp_path: Path) -> None:
    """A copied book without its segments and keys: no file, and a sentence with the count."""
    founder.book.backup(tmp_path / "copy.book")
    out = tmp_path / "none.crew"
    with (
        Book.open(tmp_path / "copy.book", read_only=True) as copied,
        pytest.raises(HandoverEmptyError, match=r"Holds 0 of 2 entries of .*never signed here"),
    ):
        make_handover(copied, MemoryKeyRing(), out)

    assert not out.exists()


def test_a_hand_over_that_holds_less_says_of_whom(founder: Crew, tmp_path: Path) -> None:
    """What is in segments goes along; what is not is counted, by the tablet that wrote it."""
    first = handed_over(founder, tmp_path / "first.crew")
    founder.ink()
    made = make_handover(founder.book, MemoryKeyRing(), tmp_path / "less.crew")
    (note,) = made.notes

    assert (made.entries, first.stat().st_size == made.size) == (2, True)
    assert note.startswith(f"Holds 2 of 3 entries of {founder.code}")
    assert (
        make_handover(founder.book, MemoryKeyRing(founder.signer), tmp_path / "all.crew").entries
        == 3
    )


def test_a_day_lacks_only_what_leads_up_to_it(founder: Crew, tmp_path: Path) -> None:
    """What was never signed here and came after the day is not missed."""
    handed_over(founder, tmp_path / "first.crew")
    founder.ink(replace(draft(), day="2026-05-29"))
    told = [
        make_handover(founder.book, MemoryKeyRing(), tmp_path / f"{day}.crew", day=day).notes
        for day in ("2026-05-28", "2026-05-29")
    ]

    assert [len(notes) for notes in told] == [0, 1]
