"""What a start after the cut finds of an exchange: in the tablet, and on the stick alone."""

from __future__ import annotations

from pathlib import Path

from models.errors import CrewError
from sync.exchange.errors import NoJobYetError
from sync.exchange.joining import join_book
from sync.exchange.request import ExchangeRequest
from sync.stores.folder import FolderStore
from sync.trust.keys import MemoryKeyRing, Signer
from tests.power.exchanging_child import BOOK, SECRET, STICK
from tests.power.replay import Image
from tests.sync.exchange.crew import Crew

OTHER = Signer(bytes(range(32, 64)))


def ids_on(stick: Path, key: str, path: Path) -> set[str]:
    """Return the ids that another tablet gets from the stick, none if there is no job on it."""
    terms = ExchangeRequest(where="stick", ring=MemoryKeyRing(OTHER), own_stream=OTHER.stream)
    try:
        _, book = join_book(path, key, FolderStore(stick), terms)
    except NoJobYetError:
        return set()
    with book:
        return {row.id for row in book.rows()}


def promised(image: Image) -> tuple[set[str], set[str], str]:
    """Return the ids that were inked, those of them that were sent, and the job's key."""
    inked: set[str] = set()
    sent: set[str] = set()
    key = ""
    for line in image.told:
        what, *words = line.split()
        if what == "inked":
            inked.update(words)
        else:
            sent, key = set(inked), words[0]
    return inked, sent, key


def judge_exchange(image: Image, folder: Path) -> tuple[int, str | None]:
    """Ask another tablet what the stick holds; then exchange anew, and both have everything."""
    inked, sent, key = promised(image)
    if not inked:
        return 0, None
    missing = len(sent - ids_on(folder / STICK, key, folder / "first.book")) if key else 0
    try:
        one = Crew(folder / BOOK, Signer(SECRET))
        report = one.sync(FolderStore(folder / STICK))
        ids, key = {row.id for row in one.book.rows()}, one.key
        one.close()
        is_alike = ids_on(folder / STICK, key, folder / "second.book") == ids
    except CrewError as fault:
        return missing, f"cut at {image.place}: {fault}"
    missing += len(inked - ids)
    return missing, None if is_alike and report.is_complete else f"cut at {image.place}: {report}"
