"""Views of the covering of the collector: layers, protection, leave to cover."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from crewapp.kit.look.palette import Status
from crewapp.pages.grade.question_fields import CoverField
from crewapp.words.translate import translate_later
from models.plan.collector import Layer
from models.units.job_units import Figures

LAYER_WORDS: dict[Layer, str] = {
    "bedding": translate_later("bedding"),
    "pipe": translate_later("pipe"),
    "tracer_wire": translate_later("tracer wire"),
    "surround": translate_later("surround"),
    "fabric": translate_later("fabric"),
    "sand": translate_later("sand"),
    "sod": translate_later("sod"),
}
THICKNESS: dict[Layer, CoverField] = {
    "bedding": "thick:bedding",
    "surround": "thick:surround",
    "sand": "thick:sand",
}
"""Question how thick a layer lies; the other layers have no thickness to measure."""
THICK_LAYER = {field: layer for layer, field in THICKNESS.items()}
PROTECTIONS = ("sloped", "shored", "shield", "nobody_enters", "judged_stable", "stable_rock")
PROTECTION_WORDS = {
    "sloped": translate_later("sides sloped"),
    "shored": translate_later("shored"),
    "shield": translate_later("trench shield"),
    "nobody_enters": translate_later("nobody enters"),
    "judged_stable": translate_later("judged stable"),
    "stable_rock": translate_later("all stable rock"),
}

SHOOT: Final = "shoot"
FLAGS: Final = "flags"
PROTECT: Final = "protect"
LASER: Final = "laser"

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class LayerKey:
    """Name of the key that checks a layer."""

    layer: Layer


CoverKey = Literal["from", "to", "protect", "release", "back"] | LayerKey
"""Name of a key over the range."""
Mend = Literal["shoot", "flags", "protect", "laser"] | LayerKey
"""Where the first thing missing is put right."""


@dataclass(frozen=True, slots=True)
class LayerRow:
    """Layer over the range: how much of it has been looked at."""

    layer: Layer
    text: str
    status: str = Status.NOT_MEASURED


@dataclass(frozen=True, slots=True)
class CoverView:
    """The range of stations, its layers, and what is missing before it may be covered.

    ``inverts`` says how many inverts of it are proven. ``mend`` leads to where the first
    thing missing is put right; None where nothing is.
    """

    collector_id: str
    figures: Figures
    from_nm: int
    to_nm: int
    start_nm: int
    end_nm: int
    step_nm: int
    layers: tuple[LayerRow, ...] = ()
    protection: str = ""
    protection_status: str = Status.NOT_MEASURED
    release: str = ""
    is_released: bool = False
    inverts: str = ""
    missing: tuple[str, ...] = ()
    mend: Mend | None = None
    people: tuple[str, ...] = ()


def uncovered_parts(whole: Range, covered: Sequence[Range]) -> list[Range]:
    """Return what of a range no other range covers, in order."""
    bare, at = [], whole[0]
    for low, high in sorted(covered):
        if high <= at:
            continue
        if low >= whole[1]:
            break
        if low > at:
            bare.append((at, low))
        at = max(at, high)
    if at < whole[1]:
        bare.append((at, whole[1]))
    return bare
