"""Reasons an entry is crossed out for, so that nobody has to type one."""

from __future__ import annotations

from crewapp.words.translate import translate_later

READING_REASONS = (
    translate_later("misread"),
    translate_later("wrong line"),
    translate_later("wrong place"),
    translate_later("wrong key"),
    translate_later("twice logged"),
    translate_later("not taken"),
)
LOAD_REASONS = (
    translate_later("wrong amount"),
    translate_later("wrong material"),
    translate_later("wrong ticket"),
    translate_later("twice logged"),
    translate_later("wrong key"),
    translate_later("never came"),
)
