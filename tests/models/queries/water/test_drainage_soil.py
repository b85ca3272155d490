"""The soil between piped slits: by hand, on the layer, what is missing, beside the gates."""

from __future__ import annotations

from typing import Any

import pytest

from models.entries.envelope import body_fields, build_body
from models.queries.water.drainage_text import SOIL, gate_texts
from models.queries.water.surface_drainage import SurfaceDrainage, surface_drainage
from models.science.water.gates import Gate
from tests.models.planned_ground import (
    MM,
    M,
    collector,
    drainage,
    pattern,
    shots,
    state_of,
    surface,
)

SOIL_30: dict[str, Any] = {"soil_um_per_h": 30_000, "impermeable_depth_nm": 200 * MM}
"""30 mm an hour, and tight ground at the bottom of the slits of 200 mm."""


def with_soil(*more: Any, piped: dict[str, Any] | None = None, **terms: Any) -> SurfaceDrainage:
    """The estimate of a field whose soil is known."""
    pipes = pattern(1200, pipe_mm=25) if piped is None else piped
    planned = surface(piped_slits=pipes)
    return surface_drainage(
        state_of(planned, collector(), drainage(**{**SOIL_30, **terms}), *more), "F1"
    )


def soil_rate(found: SurfaceDrainage) -> float:
    """Rate of the soil in mm an hour."""
    assert found.inputs.soil is not None
    return found.inputs.soil.rate_mm_per_h


def test_soil_on_the_layer_by_hand() -> None:
    """4 x 30 x (200 / 1200)^2 = 3.333 mm/h, worked by hand; nothing of it is missing."""
    found = with_soil()

    assert soil_rate(found) == pytest.approx(10 / 3)
    assert [one for one in found.missing if "soil" in one] == []


def test_a_layer_over_the_bottom_of_the_slits_bounds_the_head() -> None:
    """Tight ground 100 mm down: 4 x 30 x (100 / 1200)^2 = 0.8333, by hand."""
    assert soil_rate(with_soil(impermeable_depth_nm=100 * MM)) == pytest.approx(10 / 12)


def test_deeper_soil_carries_more() -> None:
    """8 K d h / L^2 comes on top; d for D 1 m, L 1.2 m and r 12.5 mm is less than D."""
    deep, deeper = (soil_rate(with_soil(impermeable_depth_nm=depth * MM)) for depth in (1200, 2200))

    assert 10 / 3 < deep < deeper < 30


def test_soil_carries_no_more_than_it_lets_in() -> None:
    """Piped slits 300 mm apart would draw 53 mm/h by the formula out of soil of 30."""
    assert soil_rate(with_soil(piped=pattern(300, pipe_mm=25))) == 30


def test_soil_changes_no_gate() -> None:
    """It is a way beside the slits: what governs and what widens it stays, with it or without."""
    without = surface_drainage(state_of(surface(), collector(), drainage()), "F1")
    found = with_soil(soil_um_per_h=1)

    assert found.designed == without.designed
    assert found.designed.governs is Gate.CARRY


def test_soil_as_it_is_read() -> None:
    """The arithmetic beside the figure, and how close the pipes would be without sand slits."""
    texts = gate_texts(with_soil(*shots(0, 100, 150, 260, 360)))
    line = texts[0].lines[-1]

    assert (line.gate, line.rate, line.governs) == (SOIL, "3.3 mm/h", False)
    assert line.how == (
        "Hooghoudt: 30.0 mm/h of the soil, head 200 mm, impermeable layer 0 mm under the slits, "
        "1200 mm apart"
    )
    # sqrt(4 x 30 x 200^2 / 3.47222) = 1175.8, by hand
    assert texts[0].soil == (
        "The soil is a way beside the slits and governs nothing; alone it would pass 3.5 mm/h "
        "with piped slits ~1176 mm apart."
    )
    assert texts[1].lines[-1] == line


def test_tight_soil_passes_it_at_no_spacing() -> None:
    """Soil of 1 mm/h lets in less than what governs."""
    assert gate_texts(with_soil(soil_um_per_h=1000))[0].soil.endswith(
        "alone it could not pass 3.5 mm/h at any spacing of the piped slits."
    )


def test_where_no_water_leaves_the_soil_is_still_told() -> None:
    """A reach that runs backwards: no rate to set a spacing against."""
    texts = gate_texts(with_soil(*shots(0, 100, 80, 300, 400)))

    assert texts[1].soil == "The soil is a way beside the slits and governs nothing."


@pytest.mark.parametrize(
    ("terms", "piped", "words"),
    [
        ({"soil_um_per_h": None}, None, "For F1 the conductivity of its soil is not known: what"),
        (
            {"impermeable_depth_nm": None},
            None,
            "For F1 the depth to the impermeable layer is not known: what the soil between",
        ),
        ({"impermeable_depth_nm": 0}, None, "the depth to the impermeable layer is not known"),
        (
            {"impermeable_depth_nm": M},
            pattern(1200),
            "The pipe in the slits of F1 needs its outside diameter: what the soil",
        ),
        ({}, pattern(1200, depth_nm=0), "The piped slits of F1 need a spacing and a depth"),
    ],
)
def test_what_is_missing_is_said(
    terms: dict[str, Any], piped: dict[str, Any] | None, words: str
) -> None:
    """Never a guess: the figure is left out with a sentence."""
    found = with_soil(piped=piped, **terms)

    assert found.inputs.soil is None
    assert any(words in sentence for sentence in found.missing)
    assert (len(gate_texts(found)[0].lines), gate_texts(found)[0].soil) == (4, "")


def test_without_piped_slits_the_soil_has_nowhere_to_go() -> None:
    """One sentence for piped slits that are not there, none more for the soil."""
    found = surface_drainage(
        state_of(surface(piped_slits=None), collector(), drainage(**SOIL_30)), "F1"
    )

    assert found.inputs.soil is None
    assert not any("soil" in sentence for sentence in found.missing)


def test_terms_without_soil_are_written_as_ever() -> None:
    """Nothing new stands in an entry that names no soil, and codes printed from it hold."""
    old: dict[str, Any] = {"surface_id": "F1", "sand_um_per_h": 1, "roughness_millionths": 1}
    old |= {"rain_nm": 1, "rain_min": 1}

    assert not {"soil_um_per_h", "impermeable_depth_nm"} & {
        *body_fields(build_body("drainage_terms", old))
    }
    given = {**old, "soil_um_per_h": 5, "impermeable_depth_nm": 0}
    assert body_fields(build_body("drainage_terms", given)).items() >= given.items()
