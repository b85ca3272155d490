"""The contract alone is enough to read what crews wrote: another program does, from FORMAT.md."""

from __future__ import annotations

import hashlib

from models.book.row import GENESIS, Row, make_row
from sync.segments.writer import seal_rows, split_rows
from sync.trust.keys import DEMO, Signer
from tests.sync.exchange.crew import draft
from tests.sync.segments.plain_reader import read_plainly
from tests.sync.segments.test_frozen import FILES

JOB = "green-7-00112233445566aa"


def test_frozen_segments_are_read_by_another_program() -> None:
    """Of the one form that there is."""
    kinds = [[one["kind"] for one in read_plainly(p.name, p.read_bytes(), JOB)] for p in FILES]
    assert kinds == [["job", "note", "dowsed"]]


def test_what_is_sealed_today_is_read_by_another_program() -> None:
    """Portion after portion, whatever letters it holds, by any stream."""
    for signer in (DEMO, Signer(hashlib.sha256(b"another").digest())):
        rows: list[Row] = []
        for seq in range(1, 5101):
            text = f'{seq} é \u2028 \x00 \U0001f33e \\ " {"long " * (seq % 7)}'
            prev = rows[-1].hash if rows else GENESIS
            rows.append(
                make_row(draft(text=text, needs_owner=False), signer.stream, seq, seq, prev)
            )
        read: list[str] = []
        prev = GENESIS
        for portion in split_rows(rows):
            one = seal_rows(portion, prev, JOB, signer)
            read += [e["body"]["text"] for e in read_plainly(str(one.name), one.data, JOB)]
            prev = portion[-1].hash
        assert len(read) == 5100
        assert read[6] == '7 é \u2028 \x00 \U0001f33e \\ " '
