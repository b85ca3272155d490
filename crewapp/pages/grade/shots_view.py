"""Views of the list of shots, struck ones crossed out."""

from __future__ import annotations

from dataclasses import dataclass

from models.units.job_units import Figures


@dataclass(frozen=True, slots=True)
class ShotRow:
    """Reading as written: where, what it read, how it lies; struck or not."""

    key: str
    title: str
    detail: str
    figure: str
    status: str = ""
    is_struck: bool = False
    kind: str = "grade_shot"


@dataclass(frozen=True, slots=True)
class ShotsView:
    """The shots of a collector, newest first."""

    collector_id: str
    figures: Figures
    shots: tuple[ShotRow, ...] = ()
