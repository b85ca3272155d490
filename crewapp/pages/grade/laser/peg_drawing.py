"""The drawing of a peg test: where the level stands, and where the rod is read."""

from __future__ import annotations

from crewapp.pages.grade.laser.peg_form import FIGURES, PegDraft
from crewapp.words.translate import say
from models.units.job_units import Figures
from sync.papers.drawing.primitives import (
    Anchor,
    Drawing,
    Line,
    Mark,
    Polygon,
    Primitive,
    Shape,
    Text,
    Tone,
)

CAP_MM = 3.0
ROD_MM, SIGHT_MM = 8.0, 5.8
ROW_MM = 22.0
"""Least height of one setup; with less than twice as much, only the one to be read is drawn."""
PEGS = (0.12, 0.88)
"""Where pegs A and B stand, as shares of the width."""
PLACES = {"mid": 0.5, "end": 0.58}
"""Where the level stands first and then; close to B, but drawn far enough for its distance."""


def draw_pegs(draft: PegDraft, figures: Figures, wide_mm: float, high_mm: float) -> Drawing:
    """Lay both setups out under each other, or the one to be read where there is less room."""
    half = high_mm / 2
    if half >= ROW_MM:
        rows = [("mid", half), ("end", 0.0)]
    else:
        has_mid = draft.value("mid_a") is not None and draft.value("mid_b") is not None
        rows = [("end" if has_mid else "mid", max((high_mm - ROW_MM) / 2, 0.0))]
    items = [item for setup, low in rows for item in _setup(draft, figures, wide_mm, low, setup)]
    return Drawing(wide_mm, high_mm, tuple(items))


def _setup(
    draft: PegDraft, figures: Figures, wide: float, low: float, setup: str
) -> list[Primitive]:
    """Draw one setup: the ground, both rods, the level and its two sights."""
    ground = low + CAP_MM * 1.8
    at, sight = PLACES[setup] * wide, ground + SIGHT_MM
    head = say("First: midway") if setup == "mid" else say("Then: close to B")
    items: list[Primitive] = [
        Line((0.0, ground), (wide, ground), 0.35, Tone.RULE),
        Text((0.0, ground + ROD_MM + 1.7 * CAP_MM), head, CAP_MM, is_bold=True),
    ]
    for share, peg, side in zip(PEGS, ("a", "b"), (Anchor.RIGHT, Anchor.LEFT), strict=True):
        x = share * wide
        beside = x - 1.8 if side is Anchor.RIGHT else x + 1.8
        items += [
            Line((at, sight), (x, sight), 0.35, Tone.PLANNED),
            Line((x, ground), (x, ground + ROD_MM), 0.9),
            Mark((x, ground), Shape.SQUARE, 2.2),
            Text((beside, ground + 0.9), peg.upper(), CAP_MM, side, is_bold=True),
            _figure(draft, figures, f"{setup}_{peg}", (x, ground + ROD_MM + 0.8)),
            _distance(draft, figures, setup, peg, ((x + at) / 2, ground - CAP_MM * 1.5)),
        ]
    return items + _level(at, ground, sight)


def _figure(draft: PegDraft, figures: Figures, name: str, at: tuple[float, float]) -> Text:
    """Write a reading with its number, or the number alone before it is taken."""
    value, number = draft.value(name), FIGURES.index(name) + 1
    text = f"{number}" if value is None else f"{number}: {figures.level(value)}"
    return Text(at, text, CAP_MM, anchor=Anchor.MIDDLE, is_bold=value is not None)


def _distance(
    draft: PegDraft, figures: Figures, setup: str, peg: str, at: tuple[float, float]
) -> Text:
    """Write how far the level stands from a peg; from midway it is as far to both."""
    if setup == "mid":
        return Text(at, "=", CAP_MM, anchor=Anchor.MIDDLE)
    name = f"to_{peg}"
    value, number = draft.value(name), FIGURES.index(name) + 1
    text = f"{number}" if value is None else f"{number}: {figures.length(value)}"
    return Text(at, text, CAP_MM, anchor=Anchor.MIDDLE)


def _level(at: float, ground: float, sight: float) -> list[Primitive]:
    """Draw the level on its tripod."""
    low, high = sight - 0.9, sight + 1.1
    return [
        Line((at, sight), (at - 2.2, ground), 0.5),
        Line((at, sight), (at + 2.2, ground), 0.5),
        Polygon(((at - 2.0, low), (at + 2.0, low), (at + 2.0, high), (at - 2.0, high)), Tone.INK),
    ]
