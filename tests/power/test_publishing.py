"""A power cut while files are published: what was called published is there, whole."""

from __future__ import annotations

from tests.power.conftest import Record
from tests.power.judging import judge_all
from tests.power.judging_files import COUNT, judge_bytes, judge_shelf
from tests.power.parcels import FOLDER, is_as_named, parcel
from tests.power.replay import cut

CONTROL_IMAGES = 40


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
