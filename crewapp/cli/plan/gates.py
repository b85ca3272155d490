"""``crewapp plan gates``: how much water each surface passes, gate by gate, as an estimate."""

from __future__ import annotations

import argparse
import json
from dataclasses import asdict
from typing import Any

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.words.translate import translate_later
from models.entries.kind_names import SURFACE
from models.queries.water.drainage_text import GateText, gate_texts, no_outlet_text
from models.queries.water.surface_drainage import GateSet, SurfaceDrainage, surface_drainage

EXAMPLES = (
    Example(
        "crewapp plan gates larkfield.book --surface F2",
        translate_later("What lets least water through on the field, as an estimate"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Print the gates of one surface or of all, each figure marked as an estimate."""
    with book_to_read(args.book) as job:
        names = [args.surface] if args.surface else job.state.every_name(SURFACE)
        found = [surface_drainage(job.state, name) for name in names]
        name = job.name
    if args.json:
        told = {"job": name, "surfaces": [_told(one) for one in found]}
        print(json.dumps(told, ensure_ascii=False))
        return 0
    print(name)
    if not found:
        print("  no surface is planned yet")
    for one in found:
        _print(one)
    return 0


def _print(drainage: SurfaceDrainage) -> None:
    print(f"\n{drainage.surface_id} {drainage.name}")
    lost = no_outlet_text(drainage.inputs)
    if lost:
        print(f"  {lost}")
    for text in gate_texts(drainage):
        _print_gates(text)
    for sentence in drainage.missing:
        print(f"  {sentence}")
    print(f"  {drainage.estimate}")


def _print_gates(text: GateText) -> None:
    print(f"  {text.title}")
    for line in text.lines:
        mark = "  <- governs" if line.governs else ""
        how = f" = {line.how}" if line.how else ""
        print(f"    {line.gate}: {line.rate}{how}{mark}")
    print(f"    {text.governs}")
    for wider in text.wider:
        print(f"    would widen it: {wider}")
    print(f"    {text.gone}")
    for told in filter(None, (text.runs, text.soil)):
        print(f"    {told}")
    for warning in text.warnings:
        print(f"    {warning}")


def _told(drainage: SurfaceDrainage) -> dict[str, Any]:
    texts = gate_texts(drainage)
    soil = drainage.inputs.soil
    sets = [drainage.designed, *([drainage.laid] if drainage.laid else [])]
    return {
        "surface": drainage.surface_id,
        "name": drainage.name,
        "rain_mm": drainage.rain_mm,
        "rain_h": drainage.rain_h,
        "no_outlet": no_outlet_text(drainage.inputs),
        "gates": [
            {**asdict(text), **_figures(gates)} for text, gates in zip(texts, sets, strict=True)
        ],
        "soil_mm_per_h": soil.rate_mm_per_h if soil else None,
        "missing": list(drainage.missing),
        "estimate": drainage.estimate,
    }


def _figures(gates: GateSet) -> dict[str, Any]:
    return {
        "mm_per_h": {one.gate.name.lower(): one.rate_mm_per_h for one in gates.rates},
        "governing": gates.governs.name.lower() if gates.governs else None,
        "gone_h": gates.gone.gone_h if gates.gone else None,
    }
