"""Drawings and printed pages as lists that can be compared: what is drawn, and where."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from sync.papers.drawing.primitives import Drawing, Line, Mark, Polygon, Polyline, Primitive, Text
from sync.papers.pdf.recorder import DrawnItem

Facts = dict[str, Any]
"""Facts of one picture: a list of things for each kind of thing."""

STEP_MM = 0.5


def round_to_half(length: float) -> float:
    """Round a length to the nearest half, so that a difference nobody sees is no change."""
    return round(length / STEP_MM) * STEP_MM + 0.0


def drawing_facts(drawing: Drawing) -> Iterator[Facts]:
    """Facts of each primitive of a drawing, in its own mm from the lower left corner."""
    for item in drawing:
        yield {"kind": type(item).__name__.lower(), **_primitive(item)}


def _primitive(item: Primitive) -> Facts:
    match item:
        case Line():
            return {"points": _flat([item.start, item.end]), "tone": item.tone, "dash": item.dash}
        case Polyline():
            return {"points": _flat(item.points), "tone": item.tone, "dash": item.dash}
        case Polygon():
            return {"points": _flat(item.points), "tone": item.fill}
        case Text():
            at = {"points": _flat([item.at]), "tone": item.tone, "bold": item.is_bold}
            return {"text": item.text, **at}
        case Mark():
            at = {"points": _flat([item.at]), "tone": item.tone}
            return {"text": item.shape.value, **at, "filled": item.is_filled}


def _flat(points: Iterable[tuple[float, float]]) -> list[float]:
    return [round_to_half(side) for point in points for side in point]


def paper_facts(drawn: Iterable[DrawnItem], page: int, size_mm: tuple[float, float]) -> Facts:
    """Facts of one printed page: its words and all else on it, boxes in mm from the upper left."""
    here = [one for one in drawn if one.page == page]
    return {
        "size_mm": [round_to_half(side) for side in size_mm],
        "texts": [{"text": one.words, "box": _box(one)} for one in here if one.kind == "text"],
        "drawn": [{"kind": one.kind, "box": _box(one)} for one in here if one.kind != "text"],
    }


def _box(one: DrawnItem) -> list[float]:
    return [round_to_half(side) for side in one.box]


def write_facts(path: Path, facts: Facts) -> None:
    """Write facts with one thing a line, so that a change is seen where it is."""
    parts = []
    for name, things in facts.items():
        if things and isinstance(things[0], dict):
            lines = ",\n".join("  " + json.dumps(one, ensure_ascii=False) for one in things)
            parts.append(f" {json.dumps(name)}: [\n{lines}\n ]")
        else:
            parts.append(f" {json.dumps(name)}: {json.dumps(things)}")
    path.write_text("{\n" + ",\n".join(parts) + "\n}\n", encoding="utf-8")
