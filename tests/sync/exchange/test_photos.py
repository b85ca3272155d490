"""Photos: small ones first, whole ones by their content, and rows never wait for them."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

import pytest

from sync.exchange.photos import NO_THUMBNAILS
from sync.exchange.request import PhotoChoice
from tests.sync.exchange.crew import Crew, MemoryStore, draft

Recruit = Callable[[str], Crew]
PHOTO = b"\xff\xd8\xff" + bytes(range(256)) * 40
DIGEST = hashlib.sha256(PHOTO).hexdigest()


@pytest.fixture
def pair(recruit: Recruit, store: MemoryStore) -> tuple[Crew, Crew]:
    """A tablet with a photo, and one that knows the job."""
    a, b = recruit("a"), recruit("b")
    a.found()
    a.add(b)
    b.close()
    b.path.unlink()
    a.book.backup(b.path)
    a.ink(draft("photo", sha256=DIGEST, suffix="jpg", caption="wet corner"))
    a.place.photos.mkdir()
    (a.place.photos / f"{DIGEST}.jpg").write_bytes(PHOTO)
    return a, recruit("b")


def test_photo_travels_by_its_content(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """It lands beside the other's book, under the name that the entry gives it."""
    a, b = pair
    sent = a.sync(store).pictures
    came = b.sync(store).pictures

    assert (sent.sent, came.came, came.awaited) == (1, 1, 0)
    assert (b.place.photos / f"{DIGEST}.jpg").read_bytes() == PHOTO
    assert store.files[f"{a.key}/blob/{DIGEST[:2]}/{DIGEST}"] == PHOTO
    assert NO_THUMBNAILS in sent.notes


def test_small_ones_go_first(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """With a poor signal the crew sees small pictures, and the whole ones wait."""
    a, b = pair
    a.sync(store, thumbnail=lambda data: data[:100], photos=PhotoChoice.SMALL)
    report = b.sync(store, photos=PhotoChoice.SMALL)

    assert report.pictures.came == 1
    (small,) = b.place.thumbs.iterdir()
    assert small.read_bytes() == PHOTO[:100]
    assert small.name.startswith(f"{DIGEST}-")
    assert not (b.place.photos / f"{DIGEST}.jpg").exists()


def test_small_picture_of_an_outsider_does_not_pass_for_ours(
    pair: tuple[Crew, Crew], store: MemoryStore
) -> None:
    """Who has the photo makes its own, and puts it beside what lies there, whole or rubbish."""
    a, b = pair
    false = hashlib.sha256(b"another course").hexdigest()
    for digest, data in ((false, b"another course"), ("0" * 64, b"rubbish")):
        store.files[f"{a.key}/thumb/{DIGEST[:2]}/{DIGEST}-{digest}"] = data
    a.sync(store, thumbnail=lambda data: data[:100])
    assert [path.read_bytes() for path in a.place.thumbs.iterdir()] == [PHOTO[:100]]
    assert PHOTO[:100] in store.files.values()

    del store.files[f"{a.key}/thumb/{DIGEST[:2]}/{DIGEST}-{false}"]
    b.sync(store, photos=PhotoChoice.SMALL)
    assert [path.read_bytes() for path in b.place.thumbs.iterdir()] == [PHOTO[:100]]


def test_order_is_entries_small_whole(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """A cut after any of them leaves the more needed ones done."""
    a, _ = pair
    steps: list[str] = []
    a.sync(
        store,
        thumbnail=lambda data: data[:9],
        on_step=lambda step, _done, _total: steps.append(step),
    )

    assert [step for step in dict.fromkeys(steps) if step in ("send", "thumbs", "photos")] == [
        "send",
        "thumbs",
        "photos",
    ]


def test_photo_that_is_not_there_yet_is_awaited(
    pair: tuple[Crew, Crew], store: MemoryStore
) -> None:
    """The entries are in all the same."""
    a, b = pair
    a.sync(store, photos=PhotoChoice.NONE)
    report = b.sync(store)

    assert (report.new_rows, report.pictures.awaited) == (1, 1)


@pytest.mark.parametrize("bad", [b"", PHOTO[:-1], b"x" * len(PHOTO)])
def test_bytes_of_another_picture_are_not_taken(
    pair: tuple[Crew, Crew], store: MemoryStore, bad: bytes
) -> None:
    """The name is the content; half of it, or something else, is not kept."""
    a, b = pair
    a.sync(store)
    store.files[f"{a.key}/blob/{DIGEST[:2]}/{DIGEST}"] = bad

    assert b.sync(store).pictures.awaited == 1
    assert not (b.place.photos / f"{DIGEST}.jpg").exists()


def test_photo_nobody_tells_of_is_not_fetched(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """A store may be full of rubbish; what no entry names stays there."""
    a, b = pair
    a.sync(store)
    other = hashlib.sha256(b"other").hexdigest()
    store.files[f"{a.key}/blob/{other[:2]}/{other}"] = b"other"
    b.sync(store)

    assert [path.name for path in b.place.photos.iterdir()] == [f"{DIGEST}.jpg"]


def test_damaged_photo_is_not_sent(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """A damaged photo stays on the tablet and is named in the report."""
    a, _ = pair
    (a.place.photos / f"{DIGEST}.jpg").write_bytes(PHOTO[:-1])
    report = a.sync(store)

    assert report.pictures.sent == 0
    assert "damaged" in " ".join(report.pictures.notes)


def test_small_picture_is_made_of_a_photo_and_of_nothing_else() -> None:
    """A JPEG no longer than asked, without the place the camera noted."""
    import io

    from PIL import Image

    from sync.exchange.thumbnails import LONGEST_PX, find_thumbnailer, make_thumbnail

    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "taken at the owner's house"
    Image.new("RGB", (1600, 900), (20, 90, 20)).save(out, "JPEG", exif=exif)
    small = make_thumbnail(out.getvalue())

    assert find_thumbnailer() is make_thumbnail
    assert small is not None
    assert b"owner" in out.getvalue()
    assert b"owner" not in small
    with Image.open(io.BytesIO(small)) as image:
        assert image.size == (LONGEST_PX, 270)
    for rubbish in (b"", PHOTO, b"GIF89a", out.getvalue()[:200]):
        assert make_thumbnail(rubbish) is None
