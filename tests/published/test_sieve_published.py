"""Sieve sheets and sieve names against published tables; sources beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.queries.materials.gradings import judge_sheet, work_out_sheet
from models.readers.outlines.sieve_csv import read_sieve_csv
from models.readers.outlines.sieve_names import opening_um
from models.science.materials.gradation import USGA_1993
from models.science.materials.sieving import shares_passing, shares_retained
from models.science.quality.verdict import Verdict

# A sand of a concrete study, html.scirp.org/file/_5-1881384_2.htm (seen): opening in mm, grams
# held so far of 2000 g (the sample's mass by its own percentages), percent passing as printed.
SCIRP = (
    ("4", 34, 98),
    ("2", 150, 93),
    ("1", 617, 69),
    ("0.5", 1298, 35),
    ("0.4", 1466, 27),
    ("0.25", 1737, 13),
    ("0.125", 1900, 5),
    ("0.1", 1921, 4),
    ("0.08", 1937, 3),
)


def test_a_published_sheet_passes_what_it_prints() -> None:
    """Fed the grams on each sieve, what passes is the printed percentage, to its rounding."""
    so_far = [held for _, held, _ in SCIRP]
    each = [after - before for before, after in zip([0, *so_far], so_far, strict=False)]
    rows = [f"{mm},{grams}" for (mm, _, _), grams in zip(SCIRP, each, strict=True)]
    sheet = read_sieve_csv("\n".join(["sieve mm,retained g", *rows, f"pan,{2000 - so_far[-1]}"]))
    passing = shares_passing(shares_retained(dict(sheet.held)))

    for mm, _, printed in SCIRP:
        um = int(Fraction(mm) * 1000)
        assert abs(passing[um] - printed) <= Fraction(1, 2), mm


def test_the_printed_percentages_read_as_they_stand() -> None:
    """The same sheet by its percent passing gives those back, the pan being what passes all."""
    rows = [f"{mm},{printed}" for mm, _, printed in SCIRP]
    sheet = read_sieve_csv("\n".join(["sieve mm,passing %", *rows]))

    assert dict(sheet.held)[0] == 3000
    assert shares_passing(shares_retained(dict(sheet.held)))[500] == 35


# ASTM E11-01, table 1, standard beside alternative designation (seen in a copy, down to No. 7).
@pytest.mark.parametrize(
    ("name", "um"),
    [
        ("3 in", 75_000),
        ("2-1/2 in", 63_000),
        ("1-1/2 in", 37_500),
        ("1 in", 25_000),
        ("3/4 in", 19_000),
        ("1/2 in", 12_500),
        ("3/8 in", 9500),
        ("5/16 in", 8000),
        ("1/4 in", 6300),
        ("No. 3.5", 5600),
        ("No. 4", 4750),
        ("No. 5", 4000),
        ("No. 6", 3350),
        ("No. 7", 2800),
    ],
)
def test_openings_of_the_standard(name: str, um: int) -> None:
    """A sieve's name gives the opening that the standard prints."""
    assert opening_um(name) == um


# The sieves of the root-zone table, by their usual numbers (from memory of ASTM F1632).
def test_sieves_of_the_root_zone_table() -> None:
    """Numbers 10, 18, 35, 60, 100 and 270 are 2, 1, 0.5, 0.25, 0.15 and 0.053 mm."""
    names = ("No. 10", "No. 18", "No. 35", "No. 60", "No. 100", "No. 270")

    assert [opening_um(name) for name in names] == [2000, 1000, 500, 250, 150, 53]


# USGA Recommendations, 1993 revision, Univ. of Arizona turf bulletin, June 1994,
# turf.arizona.edu/ccps0694.html (seen): at most 3 % fine gravel, 10 % with very coarse sand.
@pytest.mark.parametrize(
    ("gravel", "very_coarse", "out"),
    [("3.0", "7.0", []), ("3.1", "6.9", ["3.1"]), ("2.0", "9.0", ["11"])],
)
def test_a_whole_sheet_by_the_bands_of_1993(gravel: str, very_coarse: str, out: list[str]) -> None:
    """Read from CSV and judged, limits hold as printed, each alone and together."""
    rest = Fraction(100) - Fraction(gravel) - Fraction(very_coarse)
    text = (
        f"sieve no,retained %\n6,0\n10,{gravel}\n18,{very_coarse}\n35,30\n60,{float(rest) - 30:g}"
    )
    grading = judge_sheet(
        work_out_sheet(dict(read_sieve_csv(text).held), "sand", USGA_1993), "sand"
    )
    shares = [one.share for one in grading.bands if one.verdict is Verdict.OUT]

    assert [f"{float(share):g}" for share in shares if share is not None] == out
