"""Views of the covering of the collector: layers, protection, leave to cover."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from crewapp.kit.look.palette import Status
from crewapp.words.translate import translate_later
from models.units.job_units import Figures

LAYER_WORDS = {
    "bedding": translate_later("bedding"),
    "pipe": translate_later("pipe"),
    "tracer_wire": translate_later("tracer wire"),
    "surround": translate_later("surround"),
    "fabric": translate_later("fabric"),
    "sand": translate_later("sand"),
    "sod": translate_later("sod"),
}
THICK_LAYERS = frozenset({"bedding", "surround", "sand"})
PROTECTIONS = ("sloped", "shored", "shield", "nobody_enters", "judged_stable", "stable_rock")
PROTECTION_WORDS = {
    "sloped": translate_later("sides sloped"),
    "shored": translate_later("shored"),
    "shield": translate_later("trench shield"),
    "nobody_enters": translate_later("nobody enters"),
    "judged_stable": translate_later("judged stable"),
    "stable_rock": translate_later("all stable rock"),
}

SHOOT, FLAGS, PROTECT, LASER = "shoot", "flags", "protect", "laser"

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class LayerRow:
    """Layer over the range: how much of it has been looked at."""

    layer: str
    text: str
    status: str = Status.NOT_MEASURED


@dataclass(frozen=True, slots=True)
class CoverView:
    """The range of stations, its layers, and what is missing before it may be covered.

    ``mend`` is ``SHOOT``, ``FLAGS``, ``PROTECT`` or ``LASER``, or that of a layer's key.
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
    missing: tuple[str, ...] = ()
    mend: str = ""  # key that puts the first thing missing right
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
