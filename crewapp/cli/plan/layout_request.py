"""Reads the options of ``plan layout`` into the request for a surface's lines."""

from __future__ import annotations

import argparse
from typing import Any

from crewapp.cli.plan.arguments import USES
from crewapp.commands.plan.layout import LayoutRequest
from crewapp.imports.plan.typed_layout import read_pair, read_pattern, read_sides, read_terms
from crewapp.job.open_job import OpenJob
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import LAYOUT, SURFACE
from models.errors import CrewError
from models.plan.line import LineUse
from models.queries.layout.lay_lines import plan_points
from models.science.shapes.offsets import ORIGIN, circle, rectangle
from models.science.shapes.rings import PointNm
from models.units import parse_bearing
from models.units.job_units import Figures

_PARTS = ("bearing", "first", "least", "machine", "legs", "turning")


class TwoShapesError(CrewError, ValueError):
    """A surface was given two shapes at once."""

    code = "laying.two_shapes"
    sentence = "Nothing was written: a surface is a rectangle or a circle, not both. Give one."


def read_layout_request(args: argparse.Namespace, job: OpenJob) -> LayoutRequest:
    """Read a layout request from options; what they leave out stays as it stands.

    Raises
    ------
    CrewError
        If a figure can't be read, or the words don't go together.
    """
    asked = read_surface(args)
    figures = job.figures
    if args.rectangle or args.circle:
        asked["outline"], asked["source"] = _shape(args, figures)
    if args.setback is not None:
        asked["setback_nm"] = figures.read_length(args.setback)
    if args.reach is not None:
        asked["reach_nm"] = figures.read_length(args.reach)
    _read_lines(args, job, asked)
    return asked


def read_surface(args: argparse.Namespace) -> LayoutRequest:
    """Name, use and collector of a surface, as far as they are given."""
    asked: LayoutRequest = {}
    if args.name is not None:
        asked["name"] = args.name
    if args.use is not None:
        asked["use"] = args.use
    if args.drains_to is not None:
        asked["collector_id"] = args.drains_to
    return asked


def _shape(args: argparse.Namespace, figures: Figures) -> tuple[list[object], str]:
    """Outline of a typed rectangle or circle, and how it was typed."""
    if args.rectangle and args.circle:
        raise TwoShapesError
    at = PointNm(*read_pair(args.at, figures)) if args.at is not None else ORIGIN
    if args.circle:
        ring = circle(figures.read_length(args.circle), at).ring
        return list(plan_points(ring)), f"circle of {args.circle}"
    sides = read_sides(args.rectangle, figures)
    ring = rectangle(*sides, at, parse_bearing(args.towards)).ring
    return list(plan_points(ring)), f"rectangle of {args.rectangle}"


def _read_lines(args: argparse.Namespace, job: OpenJob, asked: LayoutRequest) -> None:
    """Terms, patterns, and uses that are to go."""
    old: SurfaceLayout | None = job.state.latest(LAYOUT, args.surface)
    surface: Surface | None = job.state.latest(SURFACE, args.surface)
    standing = {one.use: one for one in old.terms} if old is not None else {}
    terms: list[dict[str, Any]] = []
    patterns: dict[LineUse, Any] = {}
    without: list[LineUse] = []
    for word, line_use in USES.items():
        told = _told(args, word)
        typed = getattr(args, f"{word}_pattern")
        if getattr(args, f"no_{word}_slits"):
            without.append(line_use)
        elif told or typed:
            pattern = surface.pattern_of(line_use) if surface is not None else None
            fields = read_terms(line_use, told, job.figures, standing.get(line_use), pattern)
            terms.append(fields)
            if typed:
                spacing_nm = fields["spacing_nm"]
                patterns[line_use] = read_pattern(typed, line_use, spacing_nm, job.figures)
    asked.update({"terms": terms, "patterns": patterns, "without": without})


def _told(args: argparse.Namespace, word: str) -> dict[str, str]:
    """Texts that were given for one use, by what they say."""
    spacing = getattr(args, f"{word}_slits")
    told = {} if spacing is None else {"spacing": spacing}
    for part in _PARTS:
        text = getattr(args, f"{word}_{part}")
        if text is not None:
            told[part] = text
    return told
