"""Sand delivered, placed and on hand, between mass and loose volume."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.queries.materials.sand_balance import (
    dry_pl,
    in_volume_pl,
    mass_of_volume_ug,
    on_hand_pl,
    volume_of_mass_pl,
)
from models.state.job_state import JobState
from tests.models.checks.written_job import Written, written_entries

TONNE_UG = 10**12
M3_PL = 10**15


def material(density: int | None = 1_600_000) -> Written:
    """A sand of 1.6 t per cubic metre."""
    fields = {"material_id": "sand", "use": "sand", "bulk_density_g_per_m3": density}
    return {"kind": "material", "fields": fields}


def moved(kind: str, **amount: Any) -> Written:
    """A delivery, or sand placed."""
    where = {"surface_id": "G7"} if kind == "sand_placed" else {}
    return {"kind": kind, "fields": {"material_id": "sand", **where, **amount}}


def on_hand(*written: Written) -> int | None:
    """Volume on hand after what was written."""
    return on_hand_pl(JobState(written_entries(written)), "sand")


def test_mass_and_volume_by_hand() -> None:
    """16 t at 1.6 t per cubic metre are 10 cubic metres, and the other way round."""
    assert volume_of_mass_pl(16 * TONNE_UG, 1_600_000) == 10 * M3_PL
    assert mass_of_volume_ug(10 * M3_PL, 1_600_000) == 16 * TONNE_UG


@given(volume=st.integers(0, 10**18), density=st.integers(1, 3_000_000))
def test_volume_survives_the_way_through_mass(volume: int, density: int) -> None:
    """Turned into mass and back, a volume is off by no more than half a microgram of it."""
    back = volume_of_mass_pl(mass_of_volume_ug(volume, density), density)

    assert abs(back - volume) <= 10**9 // (2 * density) + 1


@pytest.mark.parametrize(
    ("written", "left_m3"),
    [
        ([], 0),
        ([moved("delivery", volume_pl=3 * M3_PL)], 3),
        ([moved("delivery", mass_ug=16 * TONNE_UG), moved("sand_placed", volume_pl=4 * M3_PL)], 6),
        ([moved("delivery", volume_pl=9 * M3_PL), moved("sand_placed", mass_ug=8 * TONNE_UG)], 4),
        ([moved("sand_placed", volume_pl=M3_PL)], -1),
    ],
)
def test_on_hand_is_delivered_less_placed(written: list[Any], left_m3: int) -> None:
    """Loads by mass and by volume are balanced in one measure; a lack shows as less than none."""
    assert on_hand(material(), *written) == left_m3 * M3_PL


@pytest.mark.parametrize("known", [[], [material(None)]])
def test_without_a_density_mass_is_no_volume(known: list[Written]) -> None:
    """Nobody guesses how loose a sand lies; volumes alone can still be balanced."""
    assert on_hand(*known, moved("delivery", mass_ug=TONNE_UG)) is None
    assert on_hand(*known, moved("delivery", volume_pl=M3_PL)) == M3_PL


def test_mass_and_volume_add_up() -> None:
    """One figure for what came partly by mass, partly by volume."""
    state = JobState(written_entries([material()]))

    assert in_volume_pl(state, "sand", 16 * TONNE_UG, 2 * M3_PL) == 12 * M3_PL


def trial(kind: str, **fields: Any) -> Written:
    """A box weighed, or a jar flooded."""
    return {"kind": kind, "fields": {"material_id": "sand", **fields}}


BOX = trial("box_weighing", volume_pl=M3_PL, mass_ug=2 * TONNE_UG)
DAMP_BOX = trial("box_weighing", volume_pl=M3_PL, mass_ug=TONNE_UG, moisture="damp")
JAR = trial("bulking_test", moist_nm=200, flooded_nm=160)


@pytest.mark.parametrize(
    ("written", "left_m3"),
    [
        ([material(), BOX, moved("delivery", mass_ug=16 * TONNE_UG)], 8),
        ([BOX, moved("delivery", mass_ug=16 * TONNE_UG)], 8),
        ([material(), BOX, DAMP_BOX, moved("delivery", mass_ug=16 * TONNE_UG)], 16),
        ([material(), DAMP_BOX, JAR, moved("delivery", mass_ug=10 * TONNE_UG)], 8),
        ([material(), moved("delivery", volume_pl=10 * M3_PL, moisture="damp")], 10),
        ([material(), JAR, moved("delivery", volume_pl=10 * M3_PL, moisture="damp")], 8),
        ([material(), JAR, moved("delivery", volume_pl=10 * M3_PL, moisture="wet")], 10),
        ([material(), JAR, moved("delivery", volume_pl=10 * M3_PL)], 10),
        ([material(), JAR, moved("sand_placed", volume_pl=5 * M3_PL, moisture="damp")], -4),
    ],
)
def test_what_was_measured_on_the_site_counts(written: list[Any], left_m3: int) -> None:
    """The newest box gives the density; a jar says what damp sand is dry: 200 to 160 is 25 %."""
    assert on_hand(*written) == left_m3 * M3_PL


@pytest.mark.parametrize(("moisture", "m3"), [("damp", 4), ("dry", 5), ("wet", 5), (None, 5)])
def test_one_load_as_dry(moisture: str | None, m3: int) -> None:
    """A load counts as dry volume by how it felt."""
    state = JobState(written_entries([material(), JAR]))

    assert dry_pl(state, "sand", 0, 5 * M3_PL, moisture) == m3 * M3_PL
