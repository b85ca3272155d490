"""Programs that are killed in mid-exchange, over and over: nothing is lost, nothing is half."""

from __future__ import annotations

import hashlib
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sync.exchange.joining import join_book
from sync.exchange.request import ExchangeRequest
from sync.segments.file_name import SegmentName
from sync.segments.reader import open_segment
from sync.stores.folder import FolderStore
from sync.trust.keys import Signer
from tests.sync.exchange.crew import Crew

KILLS = int(os.environ.get("CREWAPP_EXCHANGE_KILLS", "8"))
LONGEST_LIFE_S = 0.15


class Loop:
    """Starts a sender, kills it, and remembers what it told."""

    def __init__(self, book: Path, signer: Signer, folder: Path) -> None:
        script = str(Path(__file__).with_name("sender.py"))
        words = [sys.executable, script, str(book), signer.secret_text().strip(), str(folder)]
        self.program = subprocess.Popen(
            words,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[3])},
        )
        self.told: set[str] = set()

    def kill_one(self, life_s: float) -> None:
        """Let a child live for a while from its start on."""
        assert self.program.stdin is not None
        assert self.program.stdout is not None
        self.program.stdin.write("go\n")
        self.program.stdin.flush()
        child = int(self.program.stdout.readline().removeprefix("pid "))
        time.sleep(life_s)
        os.kill(child, signal.SIGKILL)
        self.told |= {line.strip() for line in iter(self.program.stdout.readline, "dead\n")}

    def end(self) -> None:
        """Let the program end."""
        self.program.communicate()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that can be forked")
def test_killed_at_random_moments_of_sending_and_fetching(tmp_path: Path) -> None:
    """Two tablets at one folder, each killed in turn: both books and the folder are whole."""
    assert kill_in_turn(tmp_path, KILLS) > 0


def kill_in_turn(tmp_path: Path, kills: int) -> int:
    """Kill two tablets in turn, look at everything, and return how many entries were told."""
    dice = random.Random(20_260_528)
    signers = [Signer(hashlib.sha256(name).digest()) for name in (b"a", b"b")]
    folder = tmp_path / "stick"
    folder.mkdir()
    founder = Crew(tmp_path / "a.book", signers[0])
    founder.found()
    founder.add(signers[1])
    founder.sync(FolderStore(folder))
    terms = ExchangeRequest(where="x", own_stream=signers[1].stream)
    join_book(tmp_path / "b.book", founder.key, FolderStore(folder), terms)[1].close()
    founder.close()
    loops = [Loop(tmp_path / f"{n}.book", s, folder) for n, s in zip("ab", signers, strict=True)]
    for number in range(kills):
        loops[number % 2].kill_one(dice.random() * LONGEST_LIFE_S)
    for loop in loops:
        loop.end()
    told = loops[0].told | loops[1].told
    require_whole(tmp_path, signers, folder, told)
    return len(told)


def require_whole(tmp_path: Path, signers: list[Signer], folder: Path, told: set[str]) -> None:
    """Open both books again, exchange once more, and look at everything."""
    crew = [Crew(tmp_path / f"{n}.book", s) for n, s in zip("ab", signers, strict=True)]
    for one in (*crew, *crew):
        assert one.sync(FolderStore(folder), allow_less=True).is_complete
    assert crew[0].raws() == crew[1].raws()
    for one in crew:
        ids = {row.id for row in one.book.rows()}
        assert told <= ids
        report = one.book.verify()
        assert report.is_sound
        assert report.forks == ()
        one.close()
    for path in folder.rglob("*.seg"):
        assert open_segment(SegmentName.read(path.name), path.read_bytes()).rows()
