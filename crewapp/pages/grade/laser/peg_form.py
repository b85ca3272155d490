"""A peg test as it is typed: six figures, and the verdict as far as they go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crewapp.commands.lasers import LogPegTest
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.question_fields import LaserField, PegField
from crewapp.words.translate import say, translate_later
from models.science.levelling.collimation import (
    PegReadings,
    collimation_error,
    corrected_reading_nm,
)
from models.units.job_units import Figures

READINGS: tuple[PegField, ...] = ("mid_a", "mid_b", "end_a", "end_b")
DISTANCES: tuple[PegField, ...] = ("to_a", "to_b")
FIGURES: tuple[PegField, ...] = (*READINGS, *DISTANCES)
NAMES: dict[LaserField, str] = {
    "mid_a": translate_later("1. Midway, rod on A"),
    "mid_b": translate_later("2. Midway, rod on B"),
    "end_a": translate_later("3. Close to B, rod on A"),
    "end_b": translate_later("4. Close to B, rod on B"),
    "to_a": translate_later("5. From there to A"),
    "to_b": translate_later("6. From there to B"),
}
"""The six figures in the order that they are taken."""

ON_KEYS: dict[PegField, str] = {
    "mid_a": translate_later("1 on A"),
    "end_a": translate_later("3 on A"),
    "to_a": translate_later("5 to A"),
    "mid_b": translate_later("2 on B"),
    "end_b": translate_later("4 on B"),
    "to_b": translate_later("6 to B"),
}
"""The same on keys, numbered as on the drawing, in two rows: peg A above, peg B below."""


@dataclass(frozen=True, slots=True)
class PegDraft:
    """Peg test as typed so far: figure and text by name."""

    instrument_id: str = ""
    typed: Mapping[str, tuple[int, str]] | None = None

    @classmethod
    def from_plain(cls, kept: Any) -> PegDraft:
        """Return a kept draft; what can't be read counts as none."""
        try:
            typed = {name: (int(nm), str(text)) for name, (nm, text) in kept["typed"].items()}
            return cls(str(kept["instrument_id"]), {n: typed[n] for n in FIGURES if n in typed})
        except (AttributeError, KeyError, TypeError, ValueError):
            return cls()

    def to_plain(self) -> dict[str, Any]:
        """Return the figures as a draft that survives a kill."""
        kept = {name: list(one) for name, one in (self.typed or {}).items()}
        return {"instrument_id": self.instrument_id, "typed": kept}

    def with_figure(self, name: str, value: int, text: str) -> PegDraft:
        """The draft with one more figure."""
        return PegDraft(self.instrument_id, {**(self.typed or {}), name: (value, text)})

    def value(self, name: str) -> int | None:
        """A figure in nm, or None before it is typed."""
        return (self.typed or {}).get(name, (None, ""))[0]

    @property
    def next(self) -> PegField | None:
        """The first figure that is still to be typed; None when all are there."""
        return next((name for name in FIGURES if self.value(name) is None), None)

    def readings(self) -> PegReadings | None:
        """The test, once it is whole and can be worked out."""
        values = [value for name in FIGURES if (value := self.value(name)) is not None]
        if len(values) < len(FIGURES) or self.value("to_a") == self.value("to_b"):
            return None
        return PegReadings(*values)

    def command(self) -> LogPegTest:
        """Return the command that logs the test; all six figures are there."""
        typed = self.typed or {}
        return LogPegTest(
            instrument_id=self.instrument_id,
            mid_a_nm=typed["mid_a"][0],
            mid_a_typed=typed["mid_a"][1],
            mid_b_nm=typed["mid_b"][0],
            mid_b_typed=typed["mid_b"][1],
            end_a_nm=typed["end_a"][0],
            end_a_typed=typed["end_a"][1],
            end_b_nm=typed["end_b"][0],
            end_b_typed=typed["end_b"][1],
            to_a_nm=typed["to_a"][0],
            to_a_typed=typed["to_a"][1],
            to_b_nm=typed["to_b"][0],
            to_b_typed=typed["to_b"][1],
        )


@dataclass(frozen=True, slots=True)
class PegVerdict:
    """How a peg test stands: its state, a line, and sentences under it."""

    status: str
    text: str
    sentences: tuple[str, ...] = ()


def judge_peg(draft: PegDraft, limit: Fraction, figures: Figures) -> PegVerdict:
    """Say what the figures typed so far come to; on the limit counts as within."""
    readings = draft.readings()
    if readings is None:
        return _unfinished(draft, figures)
    error = collimation_error(readings)
    text = error_words(error, limit, figures)
    if abs(error) <= limit:
        return PegVerdict(Status.OK, text, (_true_words(readings, figures),))
    right_a = corrected_reading_nm(readings.end_a_nm, readings.to_a_nm, error)
    right_b = corrected_reading_nm(readings.end_b_nm, readings.to_b_nm, error)
    adjust = say(
        "A level line reads {a} on A, {b} on B. Adjust it, test again.",
        a=figures.level(round(right_a)),
        b=figures.level(round(right_b)),
    )
    return PegVerdict(Status.OUT, text, (adjust, _true_words(readings, figures)))


def error_words(error: Fraction, limit: Fraction, figures: Figures) -> str:
    """Say which way a line of sight runs off level, by how much, and how much may be."""
    way = translate_later("rises {amount}, {allowed} allowed")
    if error < 0:
        way = translate_later("falls {amount}, {allowed} allowed")
    amount, allowed = figures.sight_error(error), figures.sight_error(limit)
    if abs(error) > limit and amount == allowed:
        amount = say("a trace more than {allowed}", allowed=allowed)
    return say(way, amount=amount, allowed=allowed)


def _unfinished(draft: PegDraft, figures: Figures) -> PegVerdict:
    """What is known before all six figures are there."""
    if not draft.next:
        text = say("as far from A as from B: it tells nothing")
        return PegVerdict(Status.CHECK, text, (say("Set up close to one peg and read both."),))
    told = sum(draft.value(name) is not None for name in FIGURES)
    text = say("{count} of 6 figures", count=told)
    mid_a, mid_b = draft.value("mid_a"), draft.value("mid_b")
    if mid_a is None or mid_b is None:
        hint = say("Drive two pegs, stand midway, read the rod on each.")
        return PegVerdict(Status.NOT_MEASURED, text, (hint,))
    hint = say("Now stand close to B and read both again.")
    return PegVerdict(Status.NOT_MEASURED, text, (hint, _rise_words(mid_a - mid_b, figures)))


def _true_words(readings: PegReadings, figures: Figures) -> str:
    return _rise_words(readings.mid_a_nm - readings.mid_b_nm, figures)


def _rise_words(rise_nm: int, figures: Figures) -> str:
    """Say how the pegs stand to each other: a larger reading is lower."""
    rise = figures.rise(rise_nm)
    if rise_nm >= 0:
        return say("B stands {rise} over A.", rise=rise)
    return say("B stands {rise} under A.", rise=rise)
