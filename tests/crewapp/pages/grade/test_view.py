"""The verdict on a rod reading, and where the rod goes next, against figures worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from crewapp.kit.input.keypad_value import KeypadState
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.covering.view import uncovered_parts
from crewapp.pages.grade.fields import rod_field
from crewapp.pages.grade.setup.view import (
    KnownPoint,
    SetupDraft,
    SetupsView,
    draft_from_plain,
    judge_check,
)
from crewapp.pages.grade.view import (
    Aim,
    GradeView,
    PipeAdvice,
    SetupView,
    Verdict,
    judge_reading,
    next_station,
    on_grade_nm,
    on_grade_words,
    step,
)
from models.science.levelling.laser_plane import (
    GradeLine,
    Stationing,
    laser_plane,
    shot_elevation_nm,
)
from models.units import UnitSystem
from models.units.job_units import Figures

FT_NM = 304_800_000
US = Figures()


def ft(text: str) -> int:
    """Read feet."""
    return US.read_level(text)


def face_of(design_ft: str, plane: GradeLine, grade: Fraction = Fraction(0)) -> GradeView:
    """Return the view of a collector whose invert is held to 0.04 ft."""
    line = GradeLine(ft(design_ft), 0, grade)
    setup = SetupView("L1", "BM1", plane, "", "", Status.OK, "")
    aims = (
        Aim("invert", line, ft("0.04"), ft("0.04"), True),
        Aim("trench_floor", line, ft("0.04"), ft("0.04")),
    )
    return GradeView("C1", setup=setup, aims=aims, end_nm=130 * FT_NM, step_nm=10 * FT_NM)


def test_height_of_instrument_and_cut_of_a_published_set() -> None:
    """BM 106.35, BS 4.65: HI 111.00; rod 2.40: 108.60; 107.85 required: cut 0.75.

    Data: contractortestla.com; the cut is 108.60 - 107.85 by hand.
    """
    plane = laser_plane(ft("106.35"), ft("4.65"))
    view = face_of("107.85", plane)
    rod_nm = on_grade_nm(view, "trench_floor", 0)

    assert plane.elevation_nm == ft("111.00")
    assert shot_elevation_nm(plane, 0, ft("2.40")) == ft("108.60")
    assert rod_nm == ft("3.15")
    told = judge_reading(view.aim("trench_floor"), rod_nm, ft("2.40"), US)
    assert (told.status, told.text) == (Status.CHECK, "0.75 ft high: cut 0.75")


@pytest.mark.parametrize(
    ("reading", "status", "text"),
    [
        ("6.00", Status.OK, "on grade"),
        ("5.96", Status.OK, "0.04 ft high, within 0.04 ft"),
        ("6.04", Status.OK, "0.04 ft low, within 0.04 ft"),
        ("5.95", Status.OUT, "0.05 ft high: lower it 0.05"),
        ("6.10", Status.OUT, "0.10 ft low: raise it 0.10"),
        ("6.0401", Status.OUT, "0.040 ft low: raise it 0.040"),
    ],
)
def test_reading_on_a_limit_is_within(reading: str, status: Status, text: str) -> None:
    """HI 101.00 over an invert of 95.00 reads 6.00; 0.04 either way is allowed."""
    view = face_of("95.00", laser_plane(ft("100"), ft("1")))
    told = judge_reading(view.aim("invert"), on_grade_nm(view, "invert", 0), ft(reading), US)

    assert (told.status, told.text) == (status, text)


def test_reading_on_grade_is_constant_under_a_dialled_plane() -> None:
    """Dialled to the design's 1 %, the rod reads the same all along."""
    one = Fraction(1, 100)
    plane = GradeLine(ft("101"), 0, one, Stationing.FROM_OUTLET)
    view = face_of("95", plane, one)

    assert {on_grade_nm(view, "invert", n * FT_NM) for n in (0, 13, 50)} == {Fraction(ft("6"))}
    assert on_grade_words(view, "invert", 50 * FT_NM) == "on grade 6.00"


def test_level_plane_reads_less_as_the_pipe_climbs() -> None:
    """At 0+50 a 1 % pipe is 0.50 higher: 6.84 at the outlet reads 6.34."""
    view = face_of("95", laser_plane(ft("100"), ft("1.84")), Fraction(1, 100))

    assert on_grade_words(view, "invert", 50 * FT_NM) == "on grade 6.34"


def test_nothing_to_hold_a_reading_against() -> None:
    """Without a design there is no verdict; a laser below the pipe says so."""
    view = face_of("95", laser_plane(ft("90"), ft("1")))

    assert judge_reading(view.aim("ground"), None, 1, US).status == Status.NOT_MEASURED
    assert on_grade_words(view, "ground", 0) == "no design for ground"
    assert on_grade_words(view, "invert", 0) == "the laser is too low to reach it"


@pytest.mark.parametrize(
    ("shot", "expected"),
    [((), 0), ((0,), 10), ((0, 10), 20), ((50, 40), 30), ((0, 40, 40), 50), ((50, 60), 60)],
)
def test_rod_goes_on_the_way_it_went(shot: tuple[int, ...], expected: int) -> None:
    """One spacing on in the direction of the last two shots, never past the ends."""
    assert next_station(shot, 0, 60, 10) == expected
    assert step(60, 1, 0, 60, 10) == 60
    assert step(5, -1, 0, 60, 10) == 0


def test_what_no_range_covers() -> None:
    """Ranges may meet, lap over and lie outside; by inspection."""
    assert uncovered_parts((0, 60), [(10, 20), (20, 30), (25, 40)]) == [(0, 10), (40, 60)]
    assert uncovered_parts((0, 60), [(-10, 70)]) == []
    assert uncovered_parts((0, 60), [(60, 70)]) == [(0, 60)]


def test_check_shot_is_judged_by_what_it_misses() -> None:
    """HI 101.00 less 3.40 is 97.60, 0.02 under 97.62, which is allowed; 3.41 is not."""
    height, level, allowed = ft("101"), ft("97.62"), ft("0.02")

    good = judge_check(height, level, ft("3.40"), allowed, US)
    bad = judge_check(height, level, ft("3.41"), allowed, US)
    assert good == (Status.OK, "misses by 0.02 ft, 0.02 ft allowed")
    assert bad == (Status.OUT, "misses by 0.03 ft, 0.02 ft allowed: set up again")


def test_points_that_can_prove_a_setup() -> None:
    """Another benchmark first; under a dialled grade only the backsight's own point."""
    points = (
        KnownPoint("BM1", ft("100"), "100.00", True),
        KnownPoint("BM2", ft("97.62"), "97.62", True),
        KnownPoint("TP1", ft("98"), "98.00", False),
    )
    level = SetupsView("C1", US, points, on_point="BM1")
    graded = SetupsView("C1", US, points, on_point="BM1", is_graded=True)

    assert [one.key for one in level.check_points()] == ["BM2", "BM1"]
    assert [one.key for one in graded.check_points()] == ["BM1"]


def test_setup_says_what_it_lacks() -> None:
    """The point, then for a dialled plane its grade and the station abreast."""
    draft = SetupDraft(plane="graded")
    assert "point" in draft.missing_text()
    assert "grade" in SetupDraft("BM1", "graded").missing_text()
    assert "abreast" in SetupDraft("BM1", "graded", 10_000).missing_text()
    ready = SetupDraft("BM1", "graded", 10_000, 3 * FT_NM)
    assert ready.missing_text() == ""
    assert ready.fields()["fall_nm"] / ready.fields()["run_nm"] == 0.01
    assert draft_from_plain(ready.to_plain()) == ready
    assert draft_from_plain({"no": "field"}) == SetupDraft()


def test_rod_is_typed_without_a_point() -> None:
    """634 is 6.34 ft, or 0.634 m; a reading a foot off grade is asked about, never offered."""
    spec = rod_field(US, "Rod reading", Fraction(ft("6.34")))
    state = KeypadState(spec)
    for at, key in enumerate("634"):
        state = state.press(key, at * 1000)
    assert (state.text, state.value) == ("6.34", ft("6.34"))
    odd = KeypadState(spec, "834").enter(9_000)
    assert odd.question is not None
    assert KeypadState(spec).text == ""
    metric = rod_field(Figures(UnitSystem.METRIC), "Rod reading")
    assert KeypadState(metric, "1543").value == 1_543_000_000


@pytest.mark.parametrize(
    ("status", "first"),
    [(Status.OK, "Belly"), (Status.NOT_MEASURED, "Belly"), (Status.OUT, "It runs backward")],
)
def test_what_can_be_put_right_is_told_first_unless_the_last_shot_is_out(
    status: Status, first: str
) -> None:
    """Where room ends before the last sentence, the one that matters was read."""
    view = GradeView(
        last=Verdict(status),
        story=("It runs backward here.",),
        told=(PipeAdvice("Belly 0+90 to 1+02", "holds 0.04 ft"),),
    )

    assert view.sentences()[0].startswith(first)
    assert set(view.sentences()) == {"It runs backward here.", "Belly 0+90 to 1+02: holds 0.04 ft"}
