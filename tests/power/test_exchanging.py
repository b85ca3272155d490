"""A power cut while a tablet brings its entries to a stick: what was sent is on the stick."""

from __future__ import annotations

from tests.power.conftest import Record
from tests.power.judging import judge_all
from tests.power.judging_exchange import judge_exchange
from tests.power.replay import cut

TURNS = "8"


def test_nothing_sent_is_lost_and_the_next_exchange_mends_the_rest(
    watch: Record, images: int
) -> None:
    """Another tablet gets from the stick all that was called sent; then both are made alike."""
    recording = watch("exchanging_child", "as it is", TURNS)

    verdict = judge_all(cut(recording.deeds, images // 6, seed=20_260_520), judge_exchange)

    assert verdict.damaged == []
    assert (verdict.lost, verdict.worst) == (0, 0)


def test_exchange_without_syncs_loses_what_was_sent(watch: Record) -> None:
    """Control: the same exchange that leaves out the sync of its files loses entries."""
    recording = watch("exchanging_child", "file", TURNS)

    verdict = judge_all(cut(recording.deeds, 10, seed=12), judge_exchange)

    assert verdict.lost > 0
