"""A power cut while files are published: what was called published is there, whole."""

from __future__ import annotations

from pathlib import Path

from sync.stores.folder import FolderStore
from tests.power.conftest import Record
from tests.power.judging import judge_all
from tests.power.parcels import FOLDER, is_as_named, parcel
from tests.power.replay import Image, cut

COUNT = 60
CONTROL_IMAGES = 40


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


def test_nothing_published_is_lost(watch: Record, images: int) -> None:
    """Cut off anywhere: every acknowledged file is whole, and the next run mends the rest."""
    recording = watch("publishing_child", "as it is", str(COUNT))

    verdict = judge_all(cut(recording.deeds, images, seed=20_260_513), judge_shelf)

    assert verdict.images == images
    assert verdict.damaged == []
    assert (verdict.lost, verdict.worst) == (0, 0)


def test_files_not_acknowledged_are_whole_or_told_by_their_hash(watch: Record) -> None:
    """Only what another program left half under a final name is there half, and is found out."""
    recording = watch("publishing_child", "as it is", str(COUNT))
    theirs = {parcel(number)[0] for number in range(COUNT) if number % 5 in (1, 2)}

    for image in cut(recording.deeds, CONTROL_IMAGES, seed=8):
        mine = {name: data for name, data in image.files.items() if name.startswith(f"{FOLDER}/0")}
        for name, data in mine.items():
            assert is_as_named(name, data or b"") or name in theirs - set(image.told)


def test_publishing_without_syncing_the_file_loses_bytes(watch: Record) -> None:
    """Control: the name is there, the bytes are not, and the harness sees it by the hash."""
    recording = watch("publishing_child", "file", str(COUNT))

    verdict = judge_all(cut(recording.deeds, CONTROL_IMAGES, seed=9), judge_bytes)

    assert verdict.lost > CONTROL_IMAGES // 4
    assert len(verdict.damaged) > CONTROL_IMAGES // 4


def test_publishing_without_syncing_the_folder_loses_names(watch: Record) -> None:
    """Control: the bytes were safe, their name was not."""
    recording = watch("publishing_child", "folder", str(COUNT))

    verdict = judge_all(cut(recording.deeds, CONTROL_IMAGES, seed=10), judge_bytes)

    assert verdict.lost > CONTROL_IMAGES // 4
