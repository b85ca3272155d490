"""Every word a person reads in the app, in the language chosen.

The English text is the key. ``say("Inked {time}", time=...)`` gives it in the
language set, with the facts filled in. A text kept in a table for later is
marked by ``translate_later("...")``, which changes nothing but lets the tests find it.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from models.counted import with_counts

LANGUAGES = {"en": "English", "es": "Español"}
_FOLDER = Path(__file__).parent / "locale"
_chosen = "en"


def set_language(code: str) -> None:
    """Speak ``code`` from now on; a code not known speaks English."""
    global _chosen  # one tablet speaks one language at a time
    _chosen = code if code in LANGUAGES else "en"


def language() -> str:
    """Return the code of the language set."""
    return _chosen


@cache
def table(code: str) -> dict[str, str]:
    """Return English text to its translation; empty for English."""
    found: dict[str, str] = {}
    for path in files(code):
        found |= json.loads(path.read_text(encoding="utf-8"))
    return found


def files(code: str) -> list[Path]:
    """Return a language's files: one for each part of the app, es_today.json and the like."""
    return sorted(_FOLDER.glob(f"{code}_*.json"))


def say(key_text: str, /, **facts: object) -> str:
    """Return the text in the language set, its ``{facts}`` filled in.

    A count has its noun in it, in both forms: ``{count:entry|entries}``.
    """
    text = table(_chosen).get(key_text, key_text)
    return text.format(**with_counts(facts)) if facts else text


def translate_later(key_text: str) -> str:
    """Return the text unchanged, marked for translation by a variable's name later."""
    return key_text
