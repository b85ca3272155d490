"""Names of segments: one form, and fifty that are not it."""

from __future__ import annotations

import pytest

from sync.segments.errors import SegmentNameError
from sync.segments.file_name import SegmentName

STREAM, DIGEST = "0a" * 16, "b1" * 32
GOOD = f"{STREAM}-1-40-{DIGEST}.seg"
NUMBERS = ["0-40", "01-40", "40-1", "-1-40", "1-", "1-4e1", "1-40-", "+1-40", "1.0-40", "1-４０"]
NUMBERS += [f"1-{10**12}", " 1-40", "1 -40"]

HOSTILE = [
    "",
    ".",
    "..",
    "/",
    "\\",
    "con",
    "nul.seg",
    "~",
    "x.seg",
    ".seg",
    GOOD[:-4],
    f"{GOOD}.exe",
    f"{GOOD}\n",
    f"{GOOD}\x00",
    f"\x00{GOOD}",
    f" {GOOD}",
    f"{GOOD} ",
    f"{GOOD}.",
    f"{GOOD}:stream",
    f"../{GOOD}",
    f"..\\{GOOD}",
    f"/etc/{GOOD}",
    f"C:{GOOD}",
    f"C:\\{GOOD}",
    f"\\\\host\\share\\{GOOD}",
    f"./{GOOD}",
    f"a/../{GOOD}",
    f"{GOOD}/..",
    f"%2e%2e%2f{GOOD}",
    f"\u202e{GOOD}",
    f"{GOOD}\u200b",
    f"{STREAM[:-1]}-1-40-{DIGEST}.seg",
    f"{STREAM}0-1-40-{DIGEST}.seg",
    f"{STREAM[:-1]}g-1-40-{DIGEST}.seg",
    f"{STREAM}-1-40-{DIGEST[:-1]}.seg",
    f"{STREAM}-1-40-{DIGEST}.SEG.seg",
    f"{STREAM}--40-{DIGEST}.seg",
    f"{'A' * 5000}.seg",
    *(f"{STREAM}-{numbers}-{DIGEST}.seg" for numbers in NUMBERS),
]


def test_name_comes_back() -> None:
    """Taken apart and put together."""
    assert str(SegmentName.read(GOOD)) == GOOD
    assert len(f"{STREAM}-{10**12 - 1}-{10**12 - 1}-{DIGEST}.seg") <= 143


def test_there_are_fifty() -> None:
    """As many as were promised, each another."""
    assert len(set(HOSTILE)) >= 50


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_name_is_refused(name: str) -> None:
    """No other form is a segment's, and the sentence does not obey the name."""
    with pytest.raises(SegmentNameError) as fault:
        SegmentName.read(name)

    assert "\n" not in str(fault.value)
    assert "\x00" not in str(fault.value)


def test_capitals_are_the_same_name() -> None:
    """Some sticks show them so."""
    assert SegmentName.find(f"GREEN-7/SEG/{GOOD.upper()}") == SegmentName.read(GOOD)
