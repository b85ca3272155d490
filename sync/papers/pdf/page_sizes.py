"""Sizes of a page and its margin, mm."""

from __future__ import annotations

LETTER_MM = (215.9, 279.4)


A4_MM = (210.0, 297.0)


MARGIN_MM = 11.0
