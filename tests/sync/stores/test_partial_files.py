"""What counts as a piece of a file and gives way to it, and what does not."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sync.stores.partial_files import SECTOR, is_piece_of

WHOLE = bytes(range(1, 255)) * 9


@pytest.mark.parametrize(
    "met",
    [
        b"",
        WHOLE,
        WHOLE[:700],
        WHOLE[:700] + bytes(100),
        bytes(len(WHOLE)),
        WHOLE[:SECTOR] + bytes(SECTOR) + WHOLE[2 * SECTOR :],
    ],
    ids=["empty", "whole", "cut", "cut, zeros", "zeros", "a sector lost"],
)
def test_piece(met: bytes) -> None:
    """A copy that was cut off, and one of which sectors never reached the disk, are pieces."""
    assert is_piece_of(met, WHOLE)


@pytest.mark.parametrize(
    "met",
    [WHOLE + b"x", WHOLE + b"\0", b"x", WHOLE[1:], WHOLE[:-1] + b"x", bytes(99) + b"x"],
    ids=["longer", "longer by a zero", "other", "shifted", "last other", "other behind zeros"],
)
def test_no_piece(met: bytes) -> None:
    """One byte that is not ours makes it somebody else's."""
    assert not is_piece_of(met, WHOLE)


@given(st.data())
def test_torn_copies_are_pieces_until_one_byte_differs(draw: st.DataObject) -> None:
    """Any cut with any sectors zero is a piece; with one more byte that is not ours it is none."""
    whole = draw.draw(st.binary(min_size=1, max_size=5 * SECTOR))
    met = bytearray(whole[: draw.draw(st.integers(1, len(whole)))])
    for sector in draw.draw(st.sets(st.integers(0, 4))):
        part = met[sector * SECTOR : (sector + 1) * SECTOR]
        met[sector * SECTOR : (sector + 1) * SECTOR] = bytes(len(part))
    assert is_piece_of(bytes(met), whole)

    at = draw.draw(st.integers(0, len(met) - 1))
    met[at] = draw.draw(st.integers(1, 255).filter(lambda byte: byte != whole[at]))
    assert not is_piece_of(bytes(met), whole)
