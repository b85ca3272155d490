"""A power cut while the crew is writing: what the app called inked is there at the next start."""

from __future__ import annotations

from pathlib import Path

from tests.power.conftest import Record
from tests.power.judging import judge_all, judge_book, judge_file
from tests.power.recording import quick_folder, record
from tests.power.replay import cut

TAPS = "240"
CONTROL_IMAGES = 40


def test_nothing_inked_is_lost(watch: Record, images: int) -> None:
    """The app's own job, cut off anywhere: every acknowledged tap whole, every book sound."""
    recording = watch("inking_child", "as it is", TAPS)

    verdict = judge_all(cut(recording.deeds, images, seed=20_260_511), judge_book)

    assert verdict.images == images
    assert verdict.damaged == []
    assert (verdict.lost, verdict.worst) == (0, 0)


def test_power_goes_again_at_the_next_start(recorder: Path, watch: Record, images: int) -> None:
    """A start on what one cut left, cut off in its turn: nothing of either run is lost."""
    first = list(cut(watch("inking_child", "as it is", "60").deeds, 2, seed=20_260_519))

    for number, image in enumerate(first):
        with quick_folder() as folder:
            words = ("tests.power.inking_child", "as it is", "20")
            again = record(recorder, folder, *words, start=image)
        later = cut(again.deeds, images // 8, seed=number, before=image)
        verdict = judge_all(later, judge_book)
        assert verdict.damaged == []
        assert (verdict.lost, verdict.worst) == (0, 0)


def test_a_book_that_syncs_less_loses_taps(watch: Record) -> None:
    """Control: with synchronous NORMAL the same cuts lose many taps, and the harness sees it."""
    recording = watch("inking_child", "normal", TAPS)

    verdict = judge_all(cut(recording.deeds, CONTROL_IMAGES, seed=20_260_512), judge_book)

    assert verdict.damaged == []
    assert verdict.lost > CONTROL_IMAGES // 4
    assert verdict.worst > 1


def test_a_book_without_a_log_loses_its_last_tap(watch: Record) -> None:
    """Control: a rollback journal with synchronous FULL loses one tap, the last, and no more."""
    recording = watch("inking_child", "delete", TAPS)
    book_made = next(n for n, deed in enumerate(recording.deeds) if deed.first == b"made")

    verdict = judge_all(
        (
            image
            for image in cut(recording.deeds, CONTROL_IMAGES, seed=7)
            if image.place > book_made
        ),
        judge_file,
    )

    assert verdict.damaged == []
    assert verdict.lost > 0
    assert verdict.worst == 1
