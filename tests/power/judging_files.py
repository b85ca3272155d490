"""What a start after the cut finds of files: those published, and those that a tablet keeps."""

from __future__ import annotations

import json
from pathlib import Path

from crewapp.tablet.drafts import Drafts
from crewapp.tablet.settings import Tablet
from sync.stores.folder import FolderStore
from tests.power.parcels import is_as_named, parcel
from tests.power.replay import Image

COUNT = 60


def names_not_whole(folder: Path) -> list[str]:
    """Return the published names whose bytes are not those that the name promises."""
    listed = FolderStore(folder).list("")
    return [
        one.name for one in listed if not is_as_named(one.name, (folder / one.name).read_bytes())
    ]


def judge_shelf(image: Image, folder: Path) -> tuple[int, str | None]:
    """Look for every acknowledged file; then publish all again and find every one whole."""
    missing = sum(not (folder / name).is_file() for name in image.told)
    missing += len(set(image.told) & set(names_not_whole(folder)))
    store = FolderStore(folder)
    for number in range(COUNT):
        store.write(*parcel(number))
    left = names_not_whole(folder)
    return missing, f"cut at {image.place}: {left} stay as they are" if left else None


def judge_bytes(image: Image, folder: Path) -> tuple[int, str | None]:
    """Look for every acknowledged file, and for one under a final name that is not whole."""
    bad = names_not_whole(folder)
    missing = sum(not (folder / name).is_file() for name in image.told)
    return missing + len(set(image.told) & set(bad)), str(bad) if bad else None


def is_kept(tablet: Tablet, kind: str, told: str) -> bool:
    """Tell whether what was acknowledged is there, or what was kept in its place since."""
    if kind == "stream":
        return tablet.stream() == told and tablet.keys.signer(told) is not None
    if kind == "settings":
        return int(tablet.settings().author.rpartition(" ")[2] or -1) >= int(told)
    if kind == "photo":
        name, data = parcel(int(told))
        place = tablet.books / "green.book.photos" / Path(name).name
        return place.is_file() and place.read_bytes() == data
    return True  # a draft may be the one before


def judge_tablet(image: Image, folder: Path) -> tuple[int, str | None]:
    """Start on the image: everything acknowledged is there, and no draft is half."""
    tablet = Tablet(folder / "tablet")
    draft = tablet.drafts / "pass.json"
    torn = None
    if draft.exists():
        typed = Drafts(tablet.drafts).read("pass")
        if typed != json.loads(draft.read_text()) or len(typed["typed"]) != 2 * (
            400 + typed["turn"]
        ):
            torn = f"cut at {image.place}: half a draft"
    kept = [is_kept(tablet, *line.split()) for line in image.told]
    return kept.count(False), torn


def count_missing(image: Image, folder: Path) -> tuple[int, str | None]:
    """Count the photos that are not there as they were kept."""
    tablet = Tablet(folder / "tablet")
    photos = [line.split() for line in image.told if line.startswith("photo")]
    return sum(not is_kept(tablet, *photo) for photo in photos), None
