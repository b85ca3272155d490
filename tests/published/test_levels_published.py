"""Level runs, peg tests and invert tables as others worked them; sources stand in the fixtures."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from models.readers.level_notes import LevelBook, reduce_notes
from models.science.grade.cover import top_of_pipe_nm
from models.science.levelling.adjustment import adjust_run
from models.science.levelling.closure import ALLOWANCES, KM_NM, MILE_NM, allowed_nm, is_allowed
from models.science.levelling.collimation import (
    TENTH_ARC_SECOND,
    PegReadings,
    collimation_error,
    corrected_reading_nm,
    peg_limit,
)
from models.science.levelling.laser_plane import GradeLine, Stationing, elevation_at_nm
from models.science.levelling.level_run import Sight
from models.science.levelling.reduction import reduce_levels, rises_nm
from models.units import LengthUnit, parse_length

FIXTURES = Path(__file__).parents[2] / "fixtures" / "levels"
FT_NM = 304_800_000


def cases(name: str) -> list[Any]:
    """One parameter for each published case of a file."""
    text = (FIXTURES / name).read_text(encoding="utf-8")
    return [pytest.param(case, id=case["id"]) for case in json.loads(text)]


def nm(text: str, unit: str = "ft") -> int:
    """A printed figure in nanometres."""
    return parse_length(text, LengthUnit(unit), signed=True)


def reduced(case: dict[str, Any]) -> LevelBook:
    """The notes of a case, reduced."""
    return reduce_notes((FIXTURES / case["notes"]).read_bytes(), LengthUnit(case["unit"]))


@pytest.mark.parametrize("case", cases("published_runs.json"))
def test_elevations_are_as_printed(case: dict[str, Any]) -> None:
    """Every elevation, both sums and the number of setups are those of the source."""
    run = reduced(case).run

    assert [x.elevation_nm for x in run.lines] == [nm(e, case["unit"]) for e in case["elevations"]]
    assert run.sum_bs_nm == nm(case["sum_bs"], case["unit"])
    assert run.sum_fs_nm == nm(case["sum_fs"], case["unit"])
    assert run.setups == case["setups"]
    assert run.page_agrees
    assert run.rise_and_fall_agrees


@pytest.mark.parametrize("case", cases("published_runs.json"))
def test_misclosure_has_the_sign_of_the_army(case: dict[str, Any]) -> None:
    """EC = computed - fixed, FM 5-233 App. B; a run that meets no known point has none."""
    closings = reduced(case).closings
    expected = [] if case["ec"] is None else [nm(case["ec"], case["unit"])]

    assert [closing.ec_nm for closing in closings] == expected


@pytest.mark.parametrize("case", [c for c in cases("published_runs.json") if "hi" in c.values[0]])
def test_height_of_instrument_is_as_printed(case: dict[str, Any]) -> None:
    """HI of the only setup."""
    assert reduced(case).run.lines[0].hi_nm == nm(case["hi"], case["unit"])


@pytest.mark.parametrize("case", [c for c in cases("published_runs.json") if "off" in c.values[0]])
def test_cut_and_fill_are_as_printed(case: dict[str, Any]) -> None:
    """L7: cut 0.75 ft. L8: fill 3.60 ft, against the design elevation."""
    last = reduced(case).run.lines[-1]

    assert last.elevation_nm - nm(case["required"]) == nm(case["off"])


def test_rises_and_falls_are_as_printed() -> None:
    """L4: each rise and fall, with intermediate sights, and both their sums."""
    case = next(c.values[0] for c in cases("published_runs.json") if c.id == "L4")
    run = reduced(case).run
    rises = rises_nm([line.sight for line in run.lines])

    assert rises == [None, *(nm(rise, "m") for rise in case["rises"])]
    assert run.sum_rise_nm == nm(case["sum_rise"], "m")
    assert run.sum_fall_nm == nm(case["sum_fall"], "m")


@pytest.mark.parametrize(
    ("hub", "stake", "actual", "more"),
    [("5.0", "7.5", "12.2", "0.3"), ("12.0", "-7.0", "5.5", "-0.5")],
    ids=["cut", "fill"],
)
def test_military_cut_and_fill_check(hub: str, stake: str, actual: str, more: str) -> None:
    """L8, NAVEDTRA 14081 ch. 15: target rod 12.5 and 5.0; 0.3 more cut, 0.5 more fill."""
    target_nm = nm(hub) + nm(stake)

    assert target_nm in (nm("12.5"), nm("5.0"))
    assert target_nm - nm(actual) == nm(more)


@pytest.mark.parametrize("case", cases("two_peg.json"))
def test_two_peg_error_and_corrected_readings(case: dict[str, Any]) -> None:
    """P1 sets up beyond a peg, P2 between them; one formula serves both."""
    names = ("mid_a", "mid_b", "end_a", "end_b", "to_a", "to_b")
    pegs = PegReadings(*(nm(case[name], case["unit"]) for name in names))
    error = collimation_error(pegs)

    assert error == Fraction(case["error"])
    for end_nm, to_nm, right in (
        (pegs.end_a_nm, pegs.to_a_nm, case["right_end_a"]),
        (pegs.end_b_nm, pegs.to_b_nm, case["right_end_b"]),
    ):
        assert corrected_reading_nm(end_nm, to_nm, error) == nm(right, case["unit"])


def test_two_peg_first_setup_corrected() -> None:
    """P2: A from midway, 150 ft away, ought to read 9.6813 ft (derived)."""
    case = next(c.values[0] for c in cases("two_peg.json") if c.id == "P2")
    right = corrected_reading_nm(nm(case["mid_a"]), nm(case["to_mid"]), Fraction(case["error"]))

    assert right == nm(case["right_mid_a"])


def test_navy_far_reading_agrees_with_the_error() -> None:
    """NAVEDTRA 14070 ch. 6, e = c + b - a, is the full correction when the near sight is nil."""
    near_mid_nm, far_mid_nm, near_nm = nm("4.23"), nm("9.65"), nm("5.42")
    far_nm = near_nm + far_mid_nm - near_mid_nm
    pegs = PegReadings(nm("9.65"), nm("4.23"), nm("10.78"), nm("5.42"), nm("294"), 0)

    assert far_nm == nm("10.84")
    assert corrected_reading_nm(nm("10.78"), nm("294"), collimation_error(pegs)) == far_nm


def test_builders_limit_is_five_millimetres_in_forty_metres() -> None:
    """BCGBC4018A project sheet: pegs 40 m apart, rejected over 5 mm; on it may stand."""
    on = PegReadings(nm("1.476", "m"), nm("1.432", "m"), nm("1.525", "m"), nm("1.476", "m"),
                     nm("42", "m"), nm("2", "m"))  # fmt: skip
    over = replace(on, end_a_nm=on.end_a_nm + 1)

    assert collimation_error(on) == peg_limit(None, None)
    assert collimation_error(over) > peg_limit(None, None)


def test_arc_second_as_surveyors_have_it() -> None:
    """10 arc seconds are 4.85 mm in 100 m; a second of arc is pi / 648 000 by definition."""
    assert round(float(100 * TENTH_ARC_SECOND * 100_000), 2) == 4.85
    assert abs(float(TENTH_ARC_SECOND) - math.pi / 6_480_000) < 1e-13


@pytest.mark.parametrize("case", cases("invert_tables.json"))
def test_invert_table(case: dict[str, Any]) -> None:
    """S2, S3, S4: every invert of the table, exactly."""
    design = GradeLine(
        nm(case["start"]),
        nm(case["start_station"]),
        Fraction(case["grade"]),
        Stationing(case["stationing"]),
    )
    found = [elevation_at_nm(design, nm(station)) for station in case["stations"]]

    assert found == [nm(invert) for invert in case["inverts"]]


def test_top_of_pipe_takes_the_wall_off_once() -> None:
    """S4: outside diameter 1 ft, wall 1 in: the top is 11/12 ft over the invert."""
    case = next(c.values[0] for c in cases("invert_tables.json") if c.id == "S4")
    outside_nm, wall_nm = nm(case["outside_in"], "in"), nm(case["wall_in"], "in")
    tops = [top_of_pipe_nm(nm(invert), outside_nm, wall_nm) for invert in case["inverts"]]

    assert tops == [Fraction(top) * FT_NM for top in case["tops_ft"]]


@pytest.mark.parametrize(
    ("distance_nm", "allowed_ft"),
    [(MILE_NM, "0.0500"), (MILE_NM // 4, "0.0250"), (500 * FT_NM, "0.0154")],
)
def test_allowable_in_feet(distance_nm: int, allowed_ft: str) -> None:
    """NAVEDTRA 14070 App. VI, answer 8-2: 0.05 ft times the root of the miles."""
    allowed = allowed_nm(ALLOWANCES["0.05ft-mile"], distance_nm)

    assert f"{allowed / FT_NM:.4f}" == allowed_ft


@pytest.mark.parametrize(
    ("name", "millimetres"),
    [("first-1", 4), ("first-2", 5), ("second-1", 6), ("second-2", 8), ("third", 12)],
)
def test_allowable_by_class(name: str, millimetres: int) -> None:
    """FGCC Standards 1984 section 3.5 (from memory): so many mm for 1 km, twice that for 4."""
    limit_nm = millimetres * 1_000_000

    assert is_allowed(limit_nm, ALLOWANCES[name], KM_NM)
    assert not is_allowed(limit_nm + 1, ALLOWANCES[name], KM_NM)
    assert allowed_nm(ALLOWANCES[name], 4 * KM_NM) == 2 * limit_nm


def test_third_order_rules_of_both_systems_are_near() -> None:
    """12 mm root km is 0.04994 ft root mile (derived), near the 0.05 of the foot rule."""
    assert f"{allowed_nm(ALLOWANCES['third'], MILE_NM) / FT_NM:.5f}" == "0.04994"


def test_an_intermediate_sight_takes_the_share_of_its_set_up() -> None:
    """USGS Techniques and Methods 3-A19: the error of closure is shared out by set-up.

    Its abstract and the memo OSW 2011.05 were read; this run is worked by hand. Three set-ups
    close 0.012 high, so the sight from the second takes two thirds: 100.592 - 0.008.
    """

    def mm(figure: str) -> int:
        return round(float(figure) * 1000) * 1_000_000

    sights = [
        Sight("BM", bs_nm=mm("1.500"), known_nm=mm("100")),
        Sight("TP1", bs_nm=mm("1.620"), fs_nm=mm("1.320")),
        Sight("A", is_nm=mm("1.208")),
        Sight("TP2", bs_nm=mm("1.410"), fs_nm=mm("1.655")),
        Sight("BM", fs_nm=mm("1.543"), known_nm=mm("100")),
    ]
    run = reduce_levels(sights)
    adjusted = [
        line.elevation_nm + share for line, share in zip(run.lines, adjust_run(run), strict=True)
    ]

    assert run.closings[0].ec_nm == mm("0.012")
    assert adjusted == [mm(one) for one in ("100", "100.176", "100.584", "100.137", "100")]
