"""Answers to tap in the day's questions: causes, things met in the ground, reasons."""

from __future__ import annotations

from crewapp.kit.input.forms import Option
from crewapp.words.translate import later, say

SKY = {
    "clear": later("clear"),
    "cloud": later("cloud"),
    "rain": later("rain"),
    "storm": later("storm"),
    "fog": later("fog"),
    "snow": later("snow"),
}
GROUND = {
    "dry": later("dry"),
    "firm": later("firm"),
    "soft": later("soft"),
    "wet": later("wet"),
    "standing_water": later("standing water"),
}
WIND = (later("calm"), later("light wind"), later("strong wind"), later("gusts"))
CAUSES = (
    later("rain"),
    later("ground too wet"),
    later("breakdown"),
    later("waiting for sand"),
    later("waiting for pipe"),
    later("waiting for a locate"),
    later("players or event"),
    later("no access"),
    later("something hit"),
    later("lightning"),
    later("owner's request"),
    later("short of crew"),
)
MET = (
    later("irrigation pipe"),
    later("irrigation wire"),
    later("electric"),
    later("gas"),
    later("water main"),
    later("sewer"),
    later("old drain"),
    later("phone or fibre"),
    later("rock"),
    later("unknown"),
)
DONE_ABOUT = (
    later("exposed by hand"),
    later("marked and kept clear"),
    later("work stopped here"),
    later("owner told"),
    later("utility called"),
    later("repaired"),
    later("line moved"),
)
NOTES = (
    later("Owner was on site"),
    later("Visitor on site"),
    later("Safety talk held"),
    later("Gate locked"),
    later("Irrigation ran on the work"),
    later("Sprinkler head broken"),
    later("Ground rutted"),
    later("Extra work asked for"),
)
SHOWS = (
    later("open trench"),
    later("pipe before cover"),
    later("turf before"),
    later("turf after"),
    later("found in the ground"),
    later("damage"),
    later("delivery"),
    later("outlet"),
)
LOOKING = (
    later("looking north"),
    later("looking east"),
    later("looking south"),
    later("looking west"),
)
WORK = (
    later("sand slits"),
    later("piped slits"),
    later("collector pipe"),
    later("cover and sod"),
    later("spoil away"),
    later("turf strips back"),
    later("clean up"),
    later("no work"),
)
CLEAR = (later("whole surface"), later("haul route"), later("sand stockpile"), later("outlet"))
REOPENED = (
    later("something was left out"),
    later("hours were wrong"),
    later("ticket came late"),
    later("owner asked for a change"),
    later("closed by mistake"),
)
DAY_REASONS = (
    later("wrong amount"),
    later("wrong person"),
    later("wrong key"),
    later("twice logged"),
    later("wrong time"),
    later("not so"),
)


def texts(words: tuple[str, ...]) -> tuple[Option, ...]:
    """Return words as options whose value is the word as it is read."""
    return tuple(Option(say(word), say(word)) for word in words)


def named(words: dict[str, str]) -> tuple[Option, ...]:
    """Return options whose value is the name that the book keeps."""
    return tuple(Option(name, say(word)) for name, word in words.items())
