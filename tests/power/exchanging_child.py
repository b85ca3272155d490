"""A watched program: a tablet inks entries and brings them to a stick, turn by turn."""

from __future__ import annotations

import sys
from pathlib import Path

from sync.stores.folder import FolderStore
from sync.trust.keys import Signer
from tests.power.inside import Recorder
from tests.power.publishing_child import weaken
from tests.sync.exchange.crew import Crew

SECRET = bytes(range(32))
BOOK, STICK = "tablet/green-7.book", "stick"


def main(folder: Path, mode: str, turns: int) -> None:
    """Found a job, then write two entries and exchange, so many times."""
    (folder / BOOK).parent.mkdir()
    (folder / STICK).mkdir()
    one = Crew(folder / BOOK, Signer(SECRET))
    one.found()
    if mode != "as it is":
        weaken(mode)
    recorder = Recorder()
    for _ in range(turns):
        rows = [*one.ink(), *one.ink()]
        recorder.tell(" ".join(["inked", *(row.id for row in rows)]))
        report = one.sync(FolderStore(folder / STICK))
        assert report.is_complete
        recorder.tell(f"sent {one.key}")
    one.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]))
