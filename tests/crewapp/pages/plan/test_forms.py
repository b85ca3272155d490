"""Tiles of the Plan screen: what was typed stands before what stood, and nothing is guessed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from crewapp.pages.plan.forms import (
    RAIN_KEPT,
    rain_fields,
    rain_terms,
    rain_tiles,
    shape_tiles,
    terms_fields,
    terms_tiles,
    typed_or_default,
)
from crewapp.pages.plan.view import GatesView, PlanPageView, UseTerms
from models.units import UnitSystem
from models.units.job_units import Figures

US, METRIC = Figures(), Figures(UnitSystem.METRIC)
FACE = PlanPageView(uses=(UseTerms("sand_slit", "sand slit", spacing="16 in", bearing="90 deg"),))


def values(tiles: list[object]) -> dict[str, str]:
    """Return what each tile shows, by its field."""
    return {tile.field: tile.value for tile in tiles}  # type: ignore[attr-defined]


def test_typed_terms_stand_before_those_that_stood() -> None:
    """One typed, one standing, one that nobody gave."""
    told = values(list(terms_tiles(FACE, "sand_slit", {"sand_slit": {"spacing": "18-1/2"}})))

    assert (told["spacing"], told["bearing"], told["depth"]) == ("18-1/2 in", "90 deg", "\u2013")


def test_nothing_is_typed_beforehand_for_a_new_surface() -> None:
    """Measures are empty until somebody types them."""
    told = values(list(shape_tiles({"surface_id": "F1", "use": "field"}, US)))

    assert (told["along"], told["across"]) == ("\u2013", "\u2013")


@pytest.mark.parametrize(
    ("shape", "fields"),
    [
        ("rectangle", {"along", "across", "bearing"}),
        ("circle", {"radius"}),
        ("offsets", {"offsets", "bearing"}),
        ("file", {"file"}),
    ],
)
def test_each_shape_asks_for_its_own_measures(shape: str, fields: set[str]) -> None:
    """Beside its name, what it is, its shape and its place."""
    told = values(list(shape_tiles({"shape": shape}, US)))

    assert set(told) - {"name", "ground", "shape", "east", "north"} == fields


@pytest.mark.parametrize(
    ("figures", "typed", "um"), [(US, "20.5", 520_700), (METRIC, "520", 520_000)]
)
def test_rain_is_kept_exactly(figures: Figures, typed: str, um: int) -> None:
    """20.5 in/h is 520.7 mm/h: by hand, 20.5 x 25.4; a percent is 10,000 millionths."""
    kept = rain_terms({"sand": typed, "roughness": "0.011", "fall": "0.5"}, figures)

    assert kept["sand_um_per_h"] == um
    assert (kept["roughness_millionths"], kept["pipe_fall_millionths"]) == (11_000, 5_000)


def test_every_field_of_the_rain_has_a_tile() -> None:
    """And the entry has a field for each."""
    tiles = values(list(rain_tiles(GatesView(), {}, US)))

    assert set(tiles) == set(RAIN_KEPT) == set(rain_fields(US))


def test_figures_show_back_as_typed() -> None:
    """What can't be read stands as it is."""
    fields = terms_fields(US)

    assert typed_or_default(fields["bearing"], "37.25") == "37.25 deg"
    assert typed_or_default(fields["spacing"], "x") == "x"
    assert fields["bearing"].parse("37.25") == Fraction("37.25") * 1_000_000
