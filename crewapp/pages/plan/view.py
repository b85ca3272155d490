"""Views of the Plan and As-built screens."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from crewapp.commands.plan.layout import LayoutRequest
from crewapp.commands.query import Query
from crewapp.kit.drawing.plan_picture import PlanPicture
from models.units.job_units import Figures
from sync.papers.drawing.primitives import Drawing


@dataclass(frozen=True, slots=True)
class Row:
    """Row of a list: its name, what more there is to say, its figure, how it stands."""

    title: str
    detail: str = ""
    figure: str = ""
    status: str = ""
    key: str = ""


Rows = tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class UseTerms:
    """Terms of the lines of one use, each as it would be typed, "" where unknown."""

    use: str
    name: str = ""
    spacing: str = ""
    bearing: str = ""
    width: str = ""
    depth: str = ""
    machine: str = ""
    first: str = ""
    least: str = ""
    turning: str = ""
    count: int = 0


@dataclass(frozen=True, slots=True)
class Preview:
    """Lines as they would be laid: how they look, what they come to, or why not.

    ``request`` is what the lines were laid by, so that what was seen is what is written.
    """

    picture: PlanPicture = PlanPicture()
    rows: Rows = ()
    why_not: str = ""
    request: LayoutRequest = field(default_factory=LayoutRequest)
    bearings: dict[str, str] = field(default_factory=dict)  # that nobody gave, by use of line
    moves: str = ""  # lines with work on them that it would move
    layers: Rows = ()  # of a drawing, to choose from
    offers_mended: bool = False


@dataclass(frozen=True, slots=True)
class TakeoffItem:
    """Item of the take-off, with its arithmetic and what a price of it is by."""

    key: str
    name: str
    figure: str
    arithmetic: str = ""
    price: str = ""
    per: str = ""


@dataclass(frozen=True, slots=True)
class TakeoffView:
    """The take-off of the job: what to order, the parts, the estimate, what it rests on."""

    items: tuple[TakeoffItem, ...] = ()
    money: Rows = ()
    estimate: str = ""
    missing: tuple[str, ...] = ()
    basis: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class GatesView:
    """The gates of the water on a surface, and the terms they are reckoned from."""

    rows: Rows = ()
    notes: tuple[str, ...] = ()
    estimate: str = ""
    terms: dict[str, str] = field(default_factory=dict)
    kept: dict[str, Any] = field(default_factory=dict)  # as the book has them
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class AsBuiltView:
    """The As-built screen's own: the two strips of a collector, quantities, the package."""

    collectors: Rows = ()
    collector_id: str = ""
    design: str = ""
    chart: Callable[[float, float], Drawing] | None = None
    quantities: Rows = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanPageView:
    """The whole screen; what the part in front does not show is left out."""

    figures: Figures = field(default_factory=Figures)
    job_name: str = ""
    has_job: bool = False
    surface_id: str = ""
    surface_name: str = ""
    surfaces: Rows = ()
    machines: Rows = ()
    next_names: dict[str, str] = field(default_factory=dict)
    picture: PlanPicture = PlanPicture()
    summary: Rows = ()
    line_id: str = ""
    life: Rows = ()
    setback: str = ""
    uses: tuple[UseTerms, ...] = ()
    preview: Preview = Preview()
    drives: Rows = ()
    bearings: Rows = ()
    bearings_why_not: str = ""
    takeoff: TakeoffView = TakeoffView()
    gates: GatesView = GatesView()
    built: AsBuiltView = AsBuiltView()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowPlan(Query[PlanPageView]):
    """Query for what the Plan page shows of a surface, or of the first one.

    ``new`` is a surface still to be written, ``typed`` what was typed of its lines.
    """

    part: str = "plan"
    surface_id: str = ""
    line_id: str = ""
    collector_id: str = ""
    use: str = ""
    typed: Mapping[str, Any] | None = None
    new: Mapping[str, Any] | None = None
