"""Chooses a font that can write a text, by the fonts' own character maps. No Kivy.

Roboto draws Latin, Greek and Cyrillic; a name in another script would come out as
boxes. So the first font that has every character is taken: Roboto, then DejaVu
Sans, then whatever the system brings.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path

SYSTEM_FOLDERS = ("/system/fonts", "/usr/share/fonts", "C:/Windows/Fonts")
SYSTEM_PATTERNS = ("Noto*", "Droid*", "msgothic*", "msyh*", "malgun*", "Nirmala*", "*")
_LATIN_LAST = 0xFF
MOST_CODE = 0x10FFFF


@cache
def coverage(path: Path) -> frozenset[int]:
    """Return the code points a TrueType or OpenType file (or collection) can draw.

    A file that is no font gives none: a broken font is a font that can't help.
    """
    try:
        data = path.read_bytes()
        start = struct.unpack_from(">I", data, 12)[0] if data[:4] == b"ttcf" else 0
        return frozenset(_code_points(data, _table(data, start, b"cmap")))
    except (OSError, struct.error, KeyError):
        return frozenset()


def _table(data: bytes, start: int, name: bytes) -> int:
    """Return the offset of a table, found through the font's directory."""
    count = struct.unpack_from(">H", data, start + 4)[0]
    for place in range(start + 12, start + 12 + 16 * count, 16):
        if data[place : place + 4] == name:
            return int(struct.unpack_from(">I", data, place + 8)[0])
    raise KeyError(name)


def _code_points(data: bytes, cmap: int) -> Iterable[int]:
    """Give the code points of every subtable of format 4 or 12."""
    count = struct.unpack_from(">H", data, cmap + 2)[0]
    for number in range(count):
        offset = struct.unpack_from(">I", data, cmap + 4 + 8 * number + 4)[0]
        subtable = cmap + offset
        form = struct.unpack_from(">H", data, subtable)[0]
        if form == 4:
            yield from _segments(data, subtable)
        elif form == 12:
            yield from _groups(data, subtable)


def _segments(data: bytes, at: int) -> Iterable[int]:
    """Give the code points of a format 4 subtable that have a glyph; 0xFFFF only ends it."""
    count = struct.unpack_from(">H", data, at + 6)[0] // 2
    ends = struct.unpack_from(f">{count}H", data, at + 14)
    starts, deltas, offsets = (
        struct.unpack_from(f">{count}H", data, at + 16 + step * count) for step in (2, 4, 6)
    )
    for place, (first, last) in enumerate(zip(starts, ends, strict=True)):
        own = at + 16 + 6 * count + 2 * place
        for code in range(first, min(last, 0xFFFE) + 1):
            glyph = code
            if offsets[place]:
                glyph = struct.unpack_from(">H", data, own + offsets[place] + 2 * (code - first))[0]
                if glyph == 0:
                    continue
            if (glyph + deltas[place]) & 0xFFFF:
                yield code


def _groups(data: bytes, at: int) -> Iterable[int]:
    """Give the code points of a format 12 subtable."""
    count = struct.unpack_from(">I", data, at + 12)[0]
    for number in range(count):
        first, last = struct.unpack_from(">2I", data, at + 16 + 12 * number)
        yield from range(first, min(last, MOST_CODE) + 1)


def missing_characters(text: str, path: Path) -> str:
    """Return the characters of the text that the font lacks, each once."""
    has = coverage(path)
    return "".join(c for c in dict.fromkeys(text) if c.isprintable() and ord(c) not in has)


def choose_font(text: str, fonts: Sequence[Path]) -> Path:
    """Return the first of ``fonts`` that lacks nothing, else the one that lacks least.

    Text within Latin-1 takes the first without opening any file.
    """
    if all(ord(letter) <= _LATIN_LAST for letter in text):
        return fonts[0]
    for path in fonts:
        if not missing_characters(text, path):
            return path
    candidates = (*fonts, *system_fonts())
    return min(candidates, key=lambda path: len(missing_characters(text, path)))


@cache
def system_fonts() -> tuple[Path, ...]:
    """Return the fonts that the system brings, wide families first."""
    found: dict[Path, None] = {}
    folders = [Path(folder) for folder in SYSTEM_FOLDERS if Path(folder).is_dir()]
    for pattern in SYSTEM_PATTERNS:
        for folder in folders:
            for ending in ("ttf", "ttc", "otf"):
                found.update(dict.fromkeys(sorted(folder.rglob(f"{pattern}.{ending}"))))
    return tuple(found)
