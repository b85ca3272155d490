"""Flow through the soil between the piped slits of a surface, from its plan."""

from __future__ import annotations

from dataclasses import dataclass

from models.entries.bodies.planning import DrainageTerms
from models.entries.bodies.surfaces import Surface
from models.science.water.hooghoudt import DrainedSoil, soil_discharge, soil_spacing

NM_PER_MM = 1_000_000
UM_PER_MM = 1000


@dataclass(frozen=True, slots=True)
class SoilBetween:
    """The soil between piped slits: conductivity [um/h] and lengths [nm] as they were given.

    ``layer_nm`` is how deep the impermeable layer lies under the surface; ``slit_nm`` how
    deep the piped slits are, ``spacing_nm`` how far apart, ``pipe_nm`` the outside diameter
    of their pipe, 0 where nobody needs it.
    """

    soil_um_per_h: int
    layer_nm: int
    slit_nm: int
    spacing_nm: int
    pipe_nm: int

    @property
    def head_nm(self) -> int:
        """Height of water at the surface above the pipe, or above a layer over the pipe."""
        return min(self.slit_nm, self.layer_nm)

    @property
    def below_nm(self) -> int:
        """Depth from the bottom of the slits to the layer; 0 where they reach it."""
        return max(0, self.layer_nm - self.slit_nm)

    @property
    def formula_soil(self) -> DrainedSoil:
        """The soil as Hooghoudt's formula takes it, in mm and mm an hour."""
        return DrainedSoil(
            self.soil_um_per_h / UM_PER_MM,
            self.head_nm / NM_PER_MM,
            self.below_nm / NM_PER_MM,
            (self.pipe_nm or 1) / 2 / NM_PER_MM,  # on the layer the radius plays no part
        )

    @property
    def rate_mm_per_h(self) -> float:
        """Depth of water over the surface that walks through the soil to the piped slits."""
        return soil_discharge(self.formula_soil, self.spacing_nm / NM_PER_MM)

    def spacing_for_nm(self, rate_mm_per_h: float) -> int | None:
        """Widest spacing of piped slits at which the soil alone passes a rate; None: none does."""
        spacing = soil_spacing(self.formula_soil, rate_mm_per_h)
        return None if spacing is None else round(spacing * NM_PER_MM)


def soil_between(surface: Surface, terms: DrainageTerms, missing: list[str]) -> SoilBetween | None:
    """Gather the soil between a surface's piped slits; missing figures are listed, not guessed."""
    pattern, name = surface.piped_slits, surface.surface_id
    if pattern is None:
        return None
    left_out = f"what the soil between the piped slits of {name} carries to them is left out."
    if not pattern.spacing_nm or not pattern.depth_nm:
        missing.append(f"The piped slits of {name} need a spacing and a depth: {left_out}")
        return None
    soil, layer = terms.soil_um_per_h, terms.impermeable_depth_nm
    if not soil or not layer:
        wanted = ["the conductivity of its soil"] * (not soil)
        wanted += ["the depth to the impermeable layer"] * (not layer)
        are = "are" if len(wanted) > 1 else "is"
        missing.append(f"For {name} {' and '.join(wanted)} {are} not known: {left_out}")
        return None
    if layer > pattern.depth_nm and not pattern.pipe_outside_nm:
        missing.append(f"The pipe in the slits of {name} needs its outside diameter: {left_out}")
        return None
    return SoilBetween(soil, layer, pattern.depth_nm, pattern.spacing_nm, pattern.pipe_outside_nm)
