"""What the tablet keeps beside its books, over a power cut: identity, settings, photos, drafts."""

from __future__ import annotations

import pytest

from tests.power.conftest import Record
from tests.power.judging import judge_all
from tests.power.judging_files import count_missing, judge_tablet
from tests.power.replay import cut

CONTROL_IMAGES = 40


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
