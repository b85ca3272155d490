"""A program to be killed, for tests: it exchanges a book with a folder, over and over.

Called with a book, the secret key of its stream and a folder. Every line on its input starts
a child that writes two notes, says so, and exchanges until it is killed.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import NoReturn

from sync.stores.folder import FolderStore
from sync.trust.keys import Signer
from tests.sync.exchange.crew import Crew, begin_ids_at


def say(text: str) -> None:
    """Write one line in one piece."""
    os.write(1, f"{text}\n".encode())


def send_until_killed(book: Path, secret: str, folder: Path) -> NoReturn:
    """Write, tell, exchange; and again."""
    one = Crew(book, Signer(bytes.fromhex(secret)))
    say(f"pid {os.getpid()}")
    while True:
        for row in one.ink():
            say(row.id)
        one.sync(FolderStore(folder), allow_less=True)


if __name__ == "__main__":
    for _ in sys.stdin:
        child = os.fork()
        if child == 0:
            begin_ids_at(os.getpid() << 20)  # or they would be those of the child before
            send_until_killed(Path(sys.argv[1]), sys.argv[2], Path(sys.argv[3]))
        os.waitpid(child, 0)
        say("dead")
