"""Bulk density and bulking of a material, with the origin of each figure.

One rule for both: the newest figure measured on the site wins over the planned one, and
the answer says which it is. A box of moist sand counts as it was weighed, and is told as moist.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.job import Material
from models.entries.kind_names import BOX_WEIGHING, BULKING_TEST, MATERIAL
from models.science.materials.bulking import bulking
from models.state.job_state import JobState

UG_PER_PL = Fraction(1, 10**9)
"""One gram in a cubic metre [ug/pl]."""


@dataclass(frozen=True, slots=True)
class Density:
    """A bulk density [ug/pl]; ``day`` is when it was weighed, empty for a planned figure."""

    ug_per_pl: Fraction
    day: str = ""
    moisture: str = "dry"

    @property
    def is_measured(self) -> bool:
        """Whether somebody weighed a box."""
        return bool(self.day)

    @property
    def g_per_m3(self) -> Fraction:
        """Density in grams in a cubic metre."""
        return self.ug_per_pl / UG_PER_PL

    @property
    def origin(self) -> str:
        """Origin of the density, in words."""
        return f"a box weighed {self.moisture} on {self.day}" if self.day else "as planned"


@dataclass(frozen=True, slots=True)
class Bulking:
    """Gain in volume of moist sand over dry; ``day`` is when it was measured."""

    share: Fraction
    day: str

    @property
    def origin(self) -> str:
        """Origin of the bulking, in words."""
        return f"a jar flooded on {self.day}"


def density_of(state: JobState, material_id: str) -> Density | None:
    """Bulk density of a material: its newest box, else the planned figure, else None."""
    boxes = state.current(BOX_WEIGHING, material_id)
    if boxes:
        box = boxes[-1].body
        return Density(Fraction(box.mass_ug, box.volume_pl), boxes[-1].day, box.moisture)
    material = state.latest(MATERIAL, material_id)
    if not isinstance(material, Material) or material.bulk_density_g_per_m3 is None:
        return None
    return Density(material.bulk_density_g_per_m3 * UG_PER_PL)


def bulking_of(state: JobState, material_id: str) -> Bulking | None:
    """Bulking of a sand by its newest jar, or None where nobody filled one."""
    jars = state.current(BULKING_TEST, material_id)
    if not jars:
        return None
    jar = jars[-1].body
    return Bulking(bulking(jar.moist_nm, jar.flooded_nm), jars[-1].day)


def dry_share_of(state: JobState, material_id: str, moisture: str | None) -> int | Fraction:
    """Share that a volume of sand keeps once it is dry: less than one where it is damp.

    Sand that is wet through stands as dry sand does (flooding a jar shows it), so only
    damp sand is taken as bulked; without a jar nothing is.
    """
    jar = bulking_of(state, material_id) if moisture == "damp" else None
    return 1 / (1 + jar.share) if jar else 1


def dry_volume_of(state: JobState, material_id: str, mass_ug: int) -> Fraction | None:
    """Loose dry volume of a mass [pl], or None without a density.

    A box weighed damp gives the damp volume first; a jar then says what that is dry.
    """
    density = density_of(state, material_id)
    if density is None:
        return None
    return mass_ug / density.ug_per_pl * dry_share_of(state, material_id, density.moisture)
