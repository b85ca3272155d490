"""Views of the After the rain screen: places, the rains and tests so far, ends to tie."""

from __future__ import annotations

from dataclasses import dataclass, field

from crewapp.commands.query import Query
from crewapp.kit.input.list_rows import DayRow, NamedItem
from models.units.job_units import Figures


@dataclass(frozen=True, slots=True)
class AfterRainView:
    """The ground and what was written after the work.

    ``lines`` and ``plots`` are by surface: its lines, and parts of it that were looked at.
    ``chambers`` are outlets that people could go into. ``ends`` are keyed by what a tie names,
    such as ``collector_head/C1``.
    """

    figures: Figures = field(default_factory=Figures)
    today: str = ""
    now_ms: int = 0
    zone: str = "UTC"
    is_closed: bool = False
    surfaces: tuple[NamedItem, ...] = ()
    collectors: tuple[NamedItem, ...] = ()
    lines: dict[str, tuple[str, ...]] = field(default_factory=dict)
    plots: dict[str, tuple[str, ...]] = field(default_factory=dict)
    gauges: tuple[str, ...] = ()
    materials: tuple[NamedItem, ...] = ()
    sands: tuple[NamedItem, ...] = ()
    points: tuple[NamedItem, ...] = ()
    ends: tuple[DayRow, ...] = ()
    outlets: tuple[DayRow, ...] = ()
    outlet_names: tuple[NamedItem, ...] = ()
    chambers: frozenset[str] = frozenset()
    counts: dict[str, int] = field(default_factory=dict)
    rains: tuple[DayRow, ...] = ()
    sand_facts: tuple[DayRow, ...] = ()

    def surface_text(self, name: str) -> str:
        """Return a surface's name in full."""
        return next((one.text for one in self.surfaces if one.name == name), name)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowAfterRain(Query[AfterRainView]):
    """Query for what the After rain page shows in the part that is in front."""

    part: str = ""
