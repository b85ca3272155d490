"""Answers to tap in the day's questions: causes, things met in the ground, reasons."""

from __future__ import annotations

from crewapp.kit.input.forms import Option
from crewapp.words.translate import say, translate_later

SKY = {
    "clear": translate_later("clear"),
    "cloud": translate_later("cloud"),
    "rain": translate_later("rain"),
    "storm": translate_later("storm"),
    "fog": translate_later("fog"),
    "snow": translate_later("snow"),
}
GROUND = {
    "dry": translate_later("dry"),
    "firm": translate_later("firm"),
    "soft": translate_later("soft"),
    "wet": translate_later("wet"),
    "standing_water": translate_later("standing water"),
}
WIND = (
    translate_later("calm"),
    translate_later("light wind"),
    translate_later("strong wind"),
    translate_later("gusts"),
)
CAUSES = (
    translate_later("rain"),
    translate_later("ground too wet"),
    translate_later("breakdown"),
    translate_later("waiting for sand"),
    translate_later("waiting for pipe"),
    translate_later("waiting for a locate"),
    translate_later("players or event"),
    translate_later("no access"),
    translate_later("something hit"),
    translate_later("lightning"),
    translate_later("owner's request"),
    translate_later("short of crew"),
)
MET = (
    translate_later("irrigation pipe"),
    translate_later("irrigation wire"),
    translate_later("electric"),
    translate_later("gas"),
    translate_later("water main"),
    translate_later("sewer"),
    translate_later("old drain"),
    translate_later("phone or fibre"),
    translate_later("rock"),
    translate_later("unknown"),
)
DONE_ABOUT = (
    translate_later("exposed by hand"),
    translate_later("marked and kept clear"),
    translate_later("work stopped here"),
    translate_later("owner told"),
    translate_later("utility called"),
    translate_later("repaired"),
    translate_later("line moved"),
)
NOTES = (
    translate_later("Owner was on site"),
    translate_later("Visitor on site"),
    translate_later("Safety talk held"),
    translate_later("Gate locked"),
    translate_later("Irrigation ran on the work"),
    translate_later("Sprinkler head broken"),
    translate_later("Ground rutted"),
    translate_later("Extra work asked for"),
)
SHOWS = (
    translate_later("open trench"),
    translate_later("pipe before cover"),
    translate_later("turf before"),
    translate_later("turf after"),
    translate_later("found in the ground"),
    translate_later("damage"),
    translate_later("delivery"),
    translate_later("outlet"),
)
LOOKING = (
    translate_later("looking north"),
    translate_later("looking east"),
    translate_later("looking south"),
    translate_later("looking west"),
)
WORK = (
    translate_later("sand slits"),
    translate_later("piped slits"),
    translate_later("collector pipe"),
    translate_later("cover and sod"),
    translate_later("spoil away"),
    translate_later("turf strips back"),
    translate_later("clean up"),
    translate_later("no work"),
)
CLEAR = (
    translate_later("whole surface"),
    translate_later("haul route"),
    translate_later("sand stockpile"),
    translate_later("outlet"),
)
REOPENED = (
    translate_later("something was left out"),
    translate_later("hours were wrong"),
    translate_later("ticket came late"),
    translate_later("owner asked for a change"),
    translate_later("closed by mistake"),
)
DAY_REASONS = (
    translate_later("wrong amount"),
    translate_later("wrong person"),
    translate_later("wrong key"),
    translate_later("twice logged"),
    translate_later("wrong time"),
    translate_later("not so"),
)


def text_options(words: tuple[str, ...]) -> tuple[Option, ...]:
    """Return words as options whose value is the word as it is read."""
    return tuple(Option(say(word), say(word)) for word in words)


def name_options(words: dict[str, str]) -> tuple[Option, ...]:
    """Return options whose value is the name that the book keeps."""
    return tuple(Option(name, say(word)) for name, word in words.items())
