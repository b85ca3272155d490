"""What the tablet keeps beside its books, over a power cut: identity, settings, photos, drafts."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crewapp.drafts import Drafts
from crewapp.tablet import Tablet
from tests.power.conftest import Record
from tests.power.judging import judge_all
from tests.power.parcels import parcel
from tests.power.replay import Image, cut

CONTROL_IMAGES = 40


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


def test_what_the_tablet_keeps_is_there(watch: Record, images: int) -> None:
    """Its identity with its key, the settings and the photos last; a draft is whole or gone."""
    recording = watch("keeping_child", "as it is")

    verdict = judge_all(cut(recording.deeds, images, seed=20_260_518), judge_tablet)

    assert verdict.images == images
    assert verdict.damaged == []
    assert (verdict.lost, verdict.worst) == (0, 0)


@pytest.mark.parametrize("left_out", ["file", "folder"])
def test_what_is_kept_carelessly_is_lost(watch: Record, left_out: str) -> None:
    """Control: without the sync of the file, or of its folder, the same cuts lose things."""
    recording = watch("keeping_child", left_out)

    verdict = judge_all(cut(recording.deeds, CONTROL_IMAGES, seed=11), count_missing)

    assert verdict.lost > CONTROL_IMAGES // 4


def count_missing(image: Image, folder: Path) -> tuple[int, str | None]:
    """Count the photos that are not there as they were kept."""
    tablet = Tablet(folder / "tablet")
    photos = [line.split() for line in image.told if line.startswith("photo")]
    return sum(not is_kept(tablet, *photo) for photo in photos), None
