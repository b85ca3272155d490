"""Limits of a segment; FORMAT.md gives the same figures."""

from __future__ import annotations

from typing import Final

PACKED_BYTES: Final = 4 * 1024 * 1024
UNPACKED_BYTES: Final = 64 * 1024 * 1024
ENTRIES: Final = 100_000
LINE_BYTES: Final = 1024 * 1024
HEADER_BYTES: Final = 4096
DEPTH: Final = 16
HIGHEST_LC: Final = 2**40

WRITTEN_ENTRIES: Final = 5000
WRITTEN_BYTES: Final = 3 * 1024 * 1024
