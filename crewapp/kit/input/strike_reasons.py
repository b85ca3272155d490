"""Reasons an entry is crossed out for, so that nobody has to type one."""

from __future__ import annotations

from crewapp.words.translate import later

READING_REASONS = (
    later("misread"),
    later("wrong line"),
    later("wrong place"),
    later("wrong key"),
    later("twice logged"),
    later("not taken"),
)
LOAD_REASONS = (
    later("wrong amount"),
    later("wrong material"),
    later("wrong ticket"),
    later("twice logged"),
    later("wrong key"),
    later("never came"),
)
