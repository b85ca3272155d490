"""A process that is killed in mid-write, over and over: what it acknowledged is there."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path

import pytest

from models.book.store import Book

KILLS = 60
LONGEST_LIFE_S = 0.02


def kill_one(program: subprocess.Popen[str], wanted: int, life_s: float) -> list[str]:
    """Start a writer, kill it a while after so many acknowledgements; return them all."""
    assert program.stdin is not None
    assert program.stdout is not None
    program.stdin.write("go\n")
    program.stdin.flush()
    child = int(program.stdout.readline().removeprefix("pid "))
    told = [program.stdout.readline().strip() for _ in range(wanted)]
    time.sleep(life_s)
    os.kill(child, signal.SIGKILL)
    return told + [line.strip() for line in iter(program.stdout.readline, "dead\n")]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that can be forked")
def test_killed_at_random_moments_nothing_acknowledged_is_lost(path: Path) -> None:
    """After sixty kills: every acknowledged entry, no half batch, no gap, one whole chain."""
    Book.create(path, stream="5f" * 16, reserve_bytes=10).close()
    dice = random.Random(20_260_504)
    command = [sys.executable, str(Path(__file__).with_name("inker.py")), str(path)]
    told: list[str] = []
    with subprocess.Popen(
        command,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={"PYTHONPATH": str(Path(__file__).parents[3])},
    ) as program:
        for _ in range(KILLS):
            # Some die before their first entry, most in the middle of a later one.
            told += kill_one(program, dice.choice((0, 1, 2, 4)), dice.random() * LONGEST_LIFE_S)

    with Book.open(path, stream="5f" * 16, reserve_bytes=10) as book:
        rows = list(book.rows())
        report = book.verify()
    assert len(told) > KILLS
    assert set(told) <= {row.id for row in rows}
    assert [row.seq for row in rows] == list(range(1, len(rows) + 1))
    assert report.is_sound
    assert report.forks == ()
    for job, found in Counter(row.job for row in rows).items():
        assert found == int(job.split("-")[0])
