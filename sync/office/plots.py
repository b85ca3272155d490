"""Plots as drawings of our own: bars by week and by job, legible in black and white."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sync.office.markup import Markup, join_markup, tag

WIDTH, HEIGHT = 560, 280
_LEFT, _RIGHT, _TOP, _BOTTOM = 64, 12, 46, 30
_STEPS = (1, 2, 5)
_LABELS_MOST = 7
_NAME_LETTERS = 22
_THICK, _GAP = 16, 10

INK = "#1a1a1a"
_GRID = "#c9c9c9"
FILLS = ("#1d3f5e", "#6fa3c8", "#e3edf5")
"""Dark, middle and light: told apart without colour; every bar has a dark outline too."""


@dataclass(frozen=True, slots=True)
class Series:
    """A kind of bar: its name in the legend and a value for each place."""

    name: str
    values: Sequence[float]


def columns(title: str, places: Sequence[str], series: Sequence[Series], unit: str) -> Markup:
    """Bars that stand on one another, one column a place."""
    tops = [sum(one.values[n] for one in series) for n in range(len(places))]
    scale = nice_scale(max(tops, default=0))
    parts = [_legend(series), *_grid(scale, unit)]
    step = (WIDTH - _LEFT - _RIGHT) / max(len(places), 1)
    room = HEIGHT - _TOP - _BOTTOM
    every = max(1, -(-len(places) // _LABELS_MOST))
    for n, place in enumerate(places):
        left, foot = _LEFT + n * step, float(HEIGHT - _BOTTOM)
        for fill, one in zip(FILLS, series, strict=False):
            height = one.values[n] / scale[-1] * room
            foot -= height
            told = f"{place}: {one.name} {_shown(one.values[n])} {unit}"
            parts.append(_bar(left + step * 0.14, foot, step * 0.72, height, fill, told))
        if n % every == 0:
            parts.append(_words(place, left + step / 2, HEIGHT - _BOTTOM + 18, "middle"))
    return _drawing(title, HEIGHT, parts)


def rows(title: str, places: Sequence[str], series: Sequence[Series], unit: str) -> Markup:
    """Bars that lie beside one another, a group a place, each with its figure."""
    most = max((value for one in series for value in one.values), default=0)
    scale = nice_scale(most)
    left, right = 176, 92
    row = _THICK * len(series) + _GAP
    height = _TOP + row * max(len(places), 1)
    parts = [_legend(series)]
    for n, place in enumerate(places):
        top = _TOP + n * row
        parts.append(_words(_short(place), left - 8, top + (row - _GAP) / 2 + 4, "end", place))
        for turn, (fill, one) in enumerate(zip(FILLS, series, strict=False)):
            length = one.values[n] / scale[-1] * (WIDTH - left - right)
            at = top + turn * _THICK
            told = f"{place}: {one.name} {_shown(one.values[n])} {unit}"
            parts.append(_bar(left, at, length, _THICK - 3, fill, told))
            figure = f"{_shown(one.values[n])} {unit}".strip()
            parts.append(_words(figure, left + length + 5, at + _THICK - 5, "start"))
    return _drawing(title, height, parts)


def nice_scale(most: float) -> list[float]:
    """Marks of an axis from 0 to at least the most, four to eight of them in round steps.

    Examples
    --------
    >>> nice_scale(37.0)
    [0.0, 10.0, 20.0, 30.0, 40.0]
    >>> nice_scale(0)
    [0.0, 1.0]
    """
    if most <= 0:
        return [0.0, 1.0]
    power = 10.0 ** len(str(int(most))) / 100
    step = next(
        size * power * tens
        for tens in (0.1, 1, 10, 100)
        for size in _STEPS
        if most / (size * power * tens) <= 6
    )
    count = int(-(-most // step))
    return [step * n for n in range(count + 1)]


def _grid(scale: Sequence[float], unit: str) -> list[Markup]:
    room = HEIGHT - _TOP - _BOTTOM
    parts = []
    for mark in scale:
        at = round(HEIGHT - _BOTTOM - mark / scale[-1] * room, 1)
        ends = {"x1": _LEFT, "x2": WIDTH - _RIGHT, "y1": at, "y2": at}
        parts.append(tag("line", **ends, stroke=INK if mark == 0 else _GRID))
        parts.append(_words(_shown(mark), _LEFT - 8, at + 4, "end"))
    parts.append(_words(unit, _LEFT - 8, _TOP - 14, "end"))
    return parts


def _legend(series: Sequence[Series]) -> Markup:
    parts, at = [], float(_LEFT)
    for fill, one in zip(FILLS, series, strict=False):
        parts.append(_bar(at, 4, 14, 12, fill, one.name))
        parts.append(_words(one.name, at + 20, 15, "start"))
        at += 42 + 7.4 * len(one.name)
    return join_markup(*parts)


def _bar(x: float, y: float, width: float, height: float, fill: str, told: str) -> Markup:
    if height <= 0 or width <= 0:
        return Markup("")
    place = {"x": round(x, 1), "y": round(y, 1)}
    size = {"width": round(width, 1), "height": round(height, 1)}
    return tag("rect", tag("title", told), **place, **size, fill=fill, stroke=INK)


def _words(text: str, x: float, y: float, anchor: str, whole: str = "") -> Markup:
    inner = [text, tag("title", whole)] if whole and whole != text else [text]
    return tag("text", *inner, x=round(x, 1), y=round(y, 1), text_anchor=anchor, fill=INK)


def _drawing(title: str, height: float, parts: Sequence[Markup]) -> Markup:
    return tag(
        "svg",
        tag("title", title),
        *parts,
        viewBox=f"0 0 {WIDTH} {height:g}",
        role="img",
        xmlns="http://www.w3.org/2000/svg",
        font_size="13",
        font_family="sans-serif",
    )


def _short(name: str) -> str:
    return name if len(name) <= _NAME_LETTERS else name[: _NAME_LETTERS - 3] + "..."


def _shown(value: float) -> str:
    return f"{value:.0f}" if value >= 100 or value == int(value) else f"{value:.1f}"
