"""Sieve sheets of a job worked out: sizes, bands, gravel beside sand, what is not judged."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from models.queries.materials.gradings import Grading, grading_of
from models.science.materials.gradation import USGA_1993, USGA_2004
from models.science.materials.gravel import Factor
from models.science.quality.verdict import Verdict
from tests.models.checks.written_job import Written
from tests.models.planned_ground import sand, state_of, written

SAND = {2000: 1, 1000: 7, 500: 27, 250: 45, 150: 14, 53: 4, 0: 2}
GRAVEL = {12_500: 0, 9500: 5, 6300: 55, 4750: 30, 2000: 8, 1000: 1, 0: 1}


def sheet(held: dict[int, int], material_id: str = "sand", edition: str = USGA_2004) -> Written:
    """A sieve sheet of a hundred grams."""
    weights = [{"opening_um": um, "retained_mg": grams * 1000} for um, grams in held.items()]
    return written("sieve_test", material_id=material_id, weights=weights, edition=edition)


def graded(*entries: Written, name: str = "sand") -> Grading:
    """The newest sheet of a material worked out."""
    found = grading_of(state_of(*entries), name)
    assert found is not None
    return found


def gravel(**changed: Any) -> Written:
    """A gravel."""
    return written("material", **{"material_id": "gravel", "use": "gravel", **changed})


def test_sizes_by_hand() -> None:
    """50 % lies a third down from 65 % at 0.5 mm to 20 % at 0.25 mm, on a logarithmic scale."""
    found = graded(sand(), sheet(SAND))

    assert found.sizes_um[50] == round(500 * 0.5 ** (15 / 45))
    assert found.sizes_um[15] == round(250 * (150 / 250) ** (5 / 14))
    assert found.sizes_um[10] == round(250 * (150 / 250) ** (10 / 14))
    assert found.evenness == Fraction(found.sizes_um[60] or 0, found.sizes_um[10] or 1)


def test_a_sand_within_its_bands() -> None:
    """What was measured is in; what no sieve tells is named."""
    found = graded(sand(), sheet({3350: 0, **SAND}))

    assert found.verdict is Verdict.OK
    assert found.has_gaps
    assert found.told[0].startswith("Not measured: silt 0.002-0.05; clay below 0.002. ")


def test_a_sand_out_of_a_band() -> None:
    """A fifth and more of fine sand is out."""
    found = graded(sand(), sheet({**SAND, 250: 35, 150: 24}))

    assert found.verdict is Verdict.OUT
    assert [str(one.share) for one in found.bands if one.verdict is Verdict.OUT] == ["24"]


@pytest.mark.parametrize(("pan", "verdict"), [(6, Verdict.OK), (7, Verdict.OUT)])
def test_what_passes_the_finest_sieve_counts_with_very_fine_sand(
    pan: int, verdict: Verdict
) -> None:
    """Silt and clay lie in the pan together: with 4 % of very fine sand 6 % are in, 7 % out."""
    found = graded(sand(), sheet({3350: 0, **SAND, 500: 29 - pan, 0: pan}))
    together = found.bands[-1]

    assert (str(together.share), together.verdict) == (f"{4 + pan}", verdict)
    assert found.verdict is verdict


def test_nothing_on_a_sieve_is_nothing_above_it() -> None:
    """Where all passes 2 mm there is no fine gravel, and no coarser sieve is asked for."""
    found = graded(sand(), sheet({**SAND, 2000: 0, 1000: 8}))

    assert [str(one.share) for one in found.bands[:2]] == ["0", "8"]


def test_grains_coarser_than_the_table_are_told() -> None:
    """A table that ends at 3.4 mm has no band for what is larger, and none is made up."""
    found = graded(sand(), sheet({4750: 2, 3350: 1, **SAND, 500: 24}))

    assert any("3 % is coarser than 3.4 mm" in sentence for sentence in found.told)


@pytest.mark.parametrize(
    ("entries", "words"),
    [
        ((sand(), sheet(SAND, edition="")), "The sheet of sand is not judged: it names no table."),
        ((sand(), sheet(SAND, edition="x")), "not judged: the table x is not held here."),
        ((written("material", material_id="sand", use="pipe"), sheet(SAND)), "neither sand nor"),
        ((sand(), sheet({500: 50, 0: 50})), "Not measured: fine gravel 2.0-3.4;"),
    ],
)
def test_what_is_not_judged_is_said(entries: tuple[Written, ...], words: str) -> None:
    """No edition is assumed, and a verdict without one is none."""
    found = graded(*entries)

    assert found.verdict is Verdict.NOT_MEASURED
    assert any(words in sentence for sentence in found.told)


def test_gravel_beside_the_sand() -> None:
    """D15 of the gravel against D85 and D15 of the sand, shares below 2 and 1 mm, none above."""
    found = graded(sand(), gravel(), sheet(SAND), sheet(GRAVEL, "gravel"), name="gravel")
    by_factor = {one.factor: one for one in found.factors}
    sizes = graded(sand(), sheet(SAND)).sizes_um

    assert by_factor[Factor.BRIDGING].found == Fraction(found.sizes_um[15] or 0, sizes[85] or 1)
    assert by_factor[Factor.BELOW_2_MM].found == 2
    assert by_factor[Factor.TOO_LARGE].found == 0
    assert {one.verdict for one in found.factors} == {Verdict.OK}
    assert not found.has_gaps


def test_editions_differ_on_bridging() -> None:
    """A gravel of six times the sand's D85 bridges by the wording of 2004, not by that of 1993."""
    sheets = [sheet(SAND), sheet({12_500: 0, 9500: 40, 6300: 50, 4750: 10, 0: 0}, "gravel")]
    old = sheet({12_500: 0, 9500: 40, 6300: 50, 4750: 10, 0: 0}, "gravel", USGA_1993)
    new = graded(sand(), gravel(), *sheets, name="gravel").factors[0]
    then = graded(sand(), gravel(), *sheets, old, name="gravel").factors[0]

    assert new.found == then.found
    assert (new.verdict, then.verdict) == (Verdict.OK, Verdict.OUT)


def test_a_gravel_that_does_not_suit_is_told_what_would() -> None:
    """D15 of the sand five times, and eight times its D85: what to ask the quarry for."""
    coarse = sheet({25_000: 0, 19_000: 40, 12_500: 50, 9500: 10, 0: 0}, "gravel")
    sizes = graded(sand(), sheet(SAND)).sizes_um
    found = graded(sand(), gravel(), sheet(SAND), coarse, name="gravel")
    least, most = (
        f"{times * (sizes[share] or 0) / 1000:.2f}" for times, share in ((5, 15), (8, 85))
    )

    assert found.factors[0].verdict is Verdict.OUT
    assert f"Beside sand a gravel with a D15 from {least} to {most} mm would do." in found.told
    fits = graded(sand(), gravel(), sheet(SAND), sheet(GRAVEL, "gravel"), name="gravel")
    assert not [text for text in fits.told if "would do" in text]


@pytest.mark.parametrize("others", [(), (sand(), sand("other"))])
def test_gravel_without_the_one_sand_beside_it(others: tuple[Written, ...]) -> None:
    """With no sand, or two to choose from, bridging is not judged and it is said."""
    found = graded(gravel(), *others, sheet(SAND), sheet(GRAVEL, "gravel"), name="gravel")

    assert found.factors[0].verdict is Verdict.NOT_MEASURED
    assert found.told[0].startswith("No sieve sheet of the one sand beside it")


@pytest.mark.parametrize(
    ("held", "share"),
    [({9500: 0, 4750: 50, 0: 50}, 0), ({12_500: 3, 4750: 50, 0: 47}, 3), ({9500: 1, 0: 99}, None)],
)
def test_share_above_twelve_millimetres(held: dict[int, int], share: int | None) -> None:
    """The half-inch sieve tells it, or a finer one that passes everything; else it is not known."""
    found = graded(sand(), gravel(), sheet(SAND), sheet(held, "gravel"), name="gravel")

    assert found.factors[3].found == share


def test_a_sheet_that_weighs_nothing_is_no_grading() -> None:
    """Nothing weighed gives nothing worked out, without a fuss."""
    assert grading_of(state_of(sand(), sheet({500: 0, 0: 0})), "sand") is None
    assert grading_of(state_of(sand()), "sand") is None


def test_a_sieve_given_twice_counts_together() -> None:
    """Two rows of one opening are one sieve."""
    one = written(
        "sieve_test",
        material_id="sand",
        weights=[{"opening_um": um, "retained_mg": 25} for um in (500, 500, 250, 0)],
    )

    assert graded(sand(), one).retained[500] == 50
