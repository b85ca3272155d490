"""A second program with the same book, for tests: opens it, says how, and waits."""

from __future__ import annotations

import sys
from pathlib import Path

from models.book.store import Book

if __name__ == "__main__":
    with Book.open(Path(sys.argv[1]), stream="cc" * 16, reserve_bytes=10) as book:
        print(book.read_only_reason or "may write", flush=True)
        for _ in sys.stdin:
            print(book.count(), flush=True)
