"""Words with the path of a folder in them: broken after a slash, never changed by a blank."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.look.theme import font_for, font_px, text_size_px
from crewapp.kit.text.label import TextLabel

SLASHES = frozenset({"/", os.sep})


def break_paths(text: str, fits: Callable[[str], bool]) -> str:
    """Return a text whose paths are parted by line breaks where they don't fit as they are."""
    return "\n".join(
        " ".join(_broken_word(word, fits) for word in line.split(" ")) for line in text.split("\n")
    )


def _broken_word(word: str, fits: Callable[[str], bool]) -> str:
    if fits(word) or not SLASHES.intersection(word):
        return word
    lines, line = [], ""
    for part in _parts(word):
        if line and not fits(line + part):
            lines.append(line)
            line = ""
        line += part
    return "\n".join([*lines, line])


def _parts(word: str) -> list[str]:
    """Part a path after each slash."""
    parts, part = [], ""
    for letter in word:
        part += letter
        if letter in SLASHES:
            parts.append(part)
            part = ""
    return [*parts, part] if part else parts


class PathLabel(TextLabel):
    """Text with paths in it, broken to fit the width."""

    said = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.bind(said=self._break, width=self._break)

    def _break(self, *_: object) -> None:
        size = font_px(self.least_mm)

        def fits(text: str) -> bool:
            wide: float = text_size_px(text, size, bool(self.bold), font_for(text))[0]
            return wide * 1.02 <= self.width

        self.text = break_paths(self.said, fits)
