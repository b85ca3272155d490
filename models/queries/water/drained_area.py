"""Area of a surface, and the area whose rain comes to it."""

from __future__ import annotations

from models.entries.bodies.planning import DrainageTerms
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import DRAINAGE_TERMS
from models.science.shapes.rings import PointNm, signed_area_nm2
from models.state.job_state import JobState

_MM2_PER_M2 = 10**6
_NM2_PER_M2 = 10**18


def area_m2(surface: Surface) -> float | None:
    """Area inside a surface's outline, or None where it has none."""
    ring = tuple(PointNm(point.x_nm, point.y_nm) for point in surface.outline)
    area = abs(signed_area_nm2(ring)) if len(ring) > 2 else 0
    return float(area / _NM2_PER_M2) if area else None


def drained_m2(state: JobState, surface: Surface) -> float | None:
    """Area whose rain comes to a surface: as its terms say, else the surface itself."""
    terms = state.latest(DRAINAGE_TERMS, surface.surface_id)
    if isinstance(terms, DrainageTerms) and terms.drained_area_mm2:
        return terms.drained_area_mm2 / _MM2_PER_M2
    return area_m2(surface)
