"""The field of a grade, in percent or as 1:n."""

from __future__ import annotations

from fractions import Fraction

from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from models.units import GradeStyle, parse_grade, show_grade
from models.units.job_units import Figures

STEEPEST_PPM = 200_000  # 20 %, more than a grade laser dials: common practice, no source


def fall_field(figures: Figures, name: str) -> FieldSpec:
    """Return the field of a grade, in percent or as 1:n; its figures are parts per million."""
    return FieldSpec(
        name=name,
        unit="%",
        grammar=Grammar(KeyKind.GRADE, whole_digits=2, places=2),
        parse=_read_ppm,
        show=figures.grade,
        echo=lambda ppm: show_grade(Fraction(ppm, 1_000_000), GradeStyle.RATIO),
        bands=Bands(Band(0, STEEPEST_PPM)),
    )


def _read_ppm(text: str) -> int:
    """Read a grade in parts per million, to the nearest, ties to even."""
    return round(parse_grade(text) * 1_000_000)
