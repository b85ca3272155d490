"""A material's newest sieve sheet, judged: grain sizes, bands of a sand, factors of a gravel.

An edition is never assumed: a sheet that names none has its sizes, and no verdict.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from models.entries.bodies.job import Material
from models.entries.bodies.material_tests import SieveTest
from models.entries.envelope import AnyEntry
from models.entries.kind_names import MATERIAL, SIEVE_TEST
from models.errors import CalculationInputError
from models.science.materials.gradation import EDITIONS, BandResult
from models.science.materials.gravel import (
    Factor,
    FactorResult,
    GravelSizes,
    SandSizes,
    d15_range_um,
    judge_gravel,
    limits_of,
)
from models.science.materials.sieving import (
    PAN_UM,
    coarser_than_table,
    grain_size_um,
    judge_sieves,
    shares_passing,
    shares_retained,
)
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState

SIZES = (10, 15, 50, 60, 85, 90)
"""Shares whose grain size is shown: D10 to D90 [%]."""


@dataclass(frozen=True, slots=True)
class Grading:
    """A sieve sheet worked out.

    ``retained`` and ``passing`` are percent by opening in um; ``sizes_um`` has D10 to D90,
    None where the sieves don't reach. ``bands`` are a sand's, ``factors`` a gravel's;
    ``told`` says in sentences what is not judged and why.
    """

    material_id: str
    use: str
    edition: str
    day: str
    entry_id: str
    retained: dict[int, Fraction]
    passing: dict[int, Fraction]
    sizes_um: dict[int, int | None]
    bands: tuple[BandResult, ...] = ()
    factors: tuple[FactorResult, ...] = ()
    told: tuple[str, ...] = ()

    @property
    def verdict(self) -> Verdict:
        """OUT where anything is out; OK where all that was measured is in; else not measured."""
        if Verdict.OUT in self._verdicts:
            return Verdict.OUT
        return Verdict.OK if Verdict.OK in self._verdicts else Verdict.NOT_MEASURED

    @property
    def has_gaps(self) -> bool:
        """Whether something that the table asks for was not measured."""
        return Verdict.NOT_MEASURED in self._verdicts

    @property
    def _verdicts(self) -> list[Verdict]:
        return [one.verdict for one in self.bands] + [one.verdict for one in self.factors]

    @property
    def evenness(self) -> Fraction | None:
        """D60 to D10, the coefficient of uniformity; None where the sieves don't reach."""
        d60, d10 = self.sizes_um[60], self.sizes_um[10]
        return Fraction(d60, d10) if d60 and d10 else None


def grading_of(state: JobState, material_id: str) -> Grading | None:
    """The newest sieve sheet of a material worked out; None without one that can be."""
    sheets = state.current(SIEVE_TEST, material_id)
    return grading_of_sheet(state, sheets[-1]) if sheets else None


def grading_of_sheet(state: JobState, entry: AnyEntry) -> Grading | None:
    """A sieve sheet worked out, a gravel beside the job's sand; None where it can't be."""
    sheet = entry.body
    assert isinstance(sheet, SieveTest)
    bare = _bare(sheet, entry)
    return None if bare is None else grading_beside(state, bare)


def grading_beside(state: JobState, bare: Grading) -> Grading:
    """A sheet held to its table as the material of the job that it is of."""
    material = state.latest(MATERIAL, bare.material_id)
    if not isinstance(material, Material):
        return bare
    return judge_sheet(
        bare, material.use, _sand_beside(state) if material.use == "gravel" else None
    )


def _bare(sheet: SieveTest, entry: AnyEntry) -> Grading | None:
    held: dict[int, int] = {}
    for weight in sheet.weights:
        held[weight.opening_um] = held.get(weight.opening_um, 0) + weight.retained_mg
    try:
        return work_out_sheet(held, sheet.material_id, sheet.edition, entry.day, entry.id)
    except CalculationInputError:
        return None


def work_out_sheet(
    held: dict[int, int], material_id: str, edition: str, day: str = "", entry_id: str = ""
) -> Grading:
    """Shares and grain sizes of a sieve sheet, from the weight on each sieve; not judged yet.

    Raises
    ------
    CalculationInputError
        If nothing was held, or a figure is negative.
    """
    retained = shares_retained(held)
    passing = shares_passing(retained)
    sizes = {share: grain_size_um(passing, share) for share in SIZES}
    return Grading(material_id, "", edition, day, entry_id, retained, passing, sizes)


def judge_sheet(bare: Grading, use: str, sand: Grading | None = None) -> Grading:
    """A sieve sheet held to the table of its edition: a sand by bands, a gravel beside a sand."""
    told: list[str] = []
    bands: tuple[BandResult, ...] = ()
    factors: tuple[FactorResult, ...] = ()
    if use not in {"sand", "gravel"}:
        told.append(f"{bare.material_id} is neither sand nor gravel: no table is held to it.")
    elif bare.edition not in EDITIONS:
        said = f"the table {bare.edition} is not held here" if bare.edition else "it names no table"
        told.append(
            f"The sheet of {bare.material_id} is not judged: {said}. "
            f"Tables held here: {', '.join(EDITIONS)}."
        )
    elif use == "sand":
        bands = tuple(judge_sieves(bare.retained, bare.edition))
        told += _unmeasured_bands(bands)
        if coarse := coarser_than_table(bare.retained):
            told.append(
                f"{float(coarse):.2g} % is coarser than 3.4 mm: the table has no band for it."
            )
    else:
        factors = tuple(_factors(bare, sand))
        told += _unmeasured_factors(factors, sand)
        told += _gravel_to_ask_for(factors, sand, bare.edition)
    return replace(bare, use=use, bands=bands, factors=factors, told=tuple(told))


def _sand_beside(state: JobState) -> Grading | None:
    """The newest sheet of the job's sand, where there is but one sand that may be used."""
    materials = [state.latest(MATERIAL, name) for name in state.every_name(MATERIAL)]
    sands = [
        one for one in materials if isinstance(one, Material) and one.use == "sand" and one.suitable
    ]
    return grading_of(state, sands[0].material_id) if len(sands) == 1 else None


def _factors(gravel: Grading, sand: Grading | None) -> list[FactorResult]:
    sizes = sand.sizes_um if sand else {}
    return judge_gravel(
        GravelSizes(
            gravel.sizes_um[15],
            gravel.sizes_um[90],
            _above(gravel.passing, 12_500),
            gravel.passing.get(2000),
            gravel.passing.get(1000),
        ),
        SandSizes(sizes.get(15), sizes.get(85)),
        limits_of(gravel.edition),
    )


def _gravel_to_ask_for(
    factors: tuple[FactorResult, ...], sand: Grading | None, edition: str
) -> list[str]:
    """What to ask the quarry for, where the gravel does not suit the sand beside it."""
    beside = {Factor.BRIDGING, Factor.PERMEABILITY}
    if sand is None or not any(
        one.factor in beside and one.verdict is Verdict.OUT for one in factors
    ):
        return []
    found = d15_range_um(SandSizes(sand.sizes_um[15], sand.sizes_um[85]), limits_of(edition))
    if found is None:
        return []
    least, most = (f"{float(size / 1000):.2f}" for size in found)
    if found[0] > found[1]:
        return [f"No gravel suits {sand.material_id}: its D15 would be from {least} to {most} mm."]
    return [f"Beside {sand.material_id} a gravel with a D15 from {least} to {most} mm would do."]


def _above(passing: dict[int, Fraction], um: int) -> Fraction | None:
    """Share held on the 1/2 in sieve, which serves for 12 mm; none where a finer passes all."""
    finer = [share for opening, share in passing.items() if PAN_UM < opening <= um]
    if 100 in finer:
        return Fraction(0)
    return 100 - passing[um] if um in passing else None


def _unmeasured_bands(bands: tuple[BandResult, ...]) -> list[str]:
    names = [
        " + ".join(str(grain) for grain in one.band.grains)
        for one in bands
        if one.verdict is Verdict.NOT_MEASURED
    ]
    if not names:
        return []
    return [f"Not measured: {'; '.join(names)}. Silt and clay are told apart by settling in water."]


def _unmeasured_factors(factors: tuple[FactorResult, ...], sand: Grading | None) -> list[str]:
    told = [] if sand else ["No sieve sheet of the one sand beside it: bridging is not judged."]
    names = [str(one.factor) for one in factors if one.verdict is Verdict.NOT_MEASURED]
    return [*told, f"Not measured: {'; '.join(names)}."] if names else told
