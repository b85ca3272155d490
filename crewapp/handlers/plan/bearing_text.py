"""Words for bearings that nobody gave: what they are, and where each comes from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from crewapp.words.translate import say, translate_later
from models.queries.layout.line_bearings import SettledBearing
from models.units import show_bearing

_TITLES = {
    "sand_slit": translate_later("Bearing of the sand slits"),
    "piped_slit": translate_later("Bearing of the piped slits"),
}
_REASONS = {
    "laid before": translate_later("none was given, so as they were laid before"),
    "as they lie": translate_later("none was given, so as they lie on the plan"),
    "longest": translate_later("none was given, so along the longest way of the surface"),
    "across": translate_later("none was given, so across the longest way of the surface"),
    "no longest": translate_later("none was given, and no way of the surface is the longest"),
}
_SQUARE = {
    "sand_slit": translate_later("none was given, so square to the piped slits"),
    "piped_slit": translate_later("none was given, so square to the sand slits"),
}


class BearingText(NamedTuple):
    """A bearing that nobody gave, in words: which, where it comes from, its figure."""

    title: str
    detail: str
    figure: str


def bearing_texts(settled: Iterable[SettledBearing]) -> Iterator[BearingText]:
    """Yield the words for each bearing that nobody gave."""
    for one in settled:
        words = _SQUARE[one.use] if one.reason == "square" else _REASONS[one.reason]
        yield BearingText(say(_TITLES[one.use]), say(words), show_bearing(one.bearing_udeg))
