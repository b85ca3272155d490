"""The gates of a surface: by hand, as laid, shared collectors, what is missing said."""

from __future__ import annotations

import pytest

from models.queries.water.drainage_inputs import SurfaceUnknownError
from models.queries.water.drainage_text import gate_texts
from models.queries.water.surface_drainage import GateSet, SurfaceDrainage, surface_drainage
from models.science.water.gates import ESTIMATE, Gate
from models.science.water.pipe_run import VelocityWarning
from models.science.water.widening import Lever
from tests.models.checks.written_job import Written
from tests.models.planned_ground import (
    collector,
    drainage,
    lines,
    pattern,
    shots,
    square,
    state_of,
    surface,
)

SOIL_NOT_KNOWN = (
    "For F1 the conductivity of its soil and the depth to the impermeable layer are not known: "
    "what the soil between the piped slits of F1 carries to them is left out."
)
JOINTS_NOT_KNOWN = (
    "Where the piped slits of F1 join C1 is not laid out: all their water is taken as coming in "
    "at its head."
)


def drained(*entries: Written, name: str = "F1") -> SurfaceDrainage:
    """The estimate of a surface after some entries."""
    return surface_drainage(state_of(*entries), name)


def rates(gates: GateSet) -> dict[Gate, float]:
    """Known gates by name."""
    return {one.gate: one.rate_mm_per_h for one in gates.rates if one.rate_mm_per_h is not None}


def test_gates_by_hand() -> None:
    """Each gate of a small field is the one worked out on paper, and the narrowest governs."""
    # 500 x 25 / 400; 4 x 500 x 25/400 x (200/1200)^2; 0.079 L/s off 24 m2; 4.477 L/s off 400 m2
    found = drained(surface(), collector(), drainage())

    assert rates(found.designed) == pytest.approx(
        {Gate.INTAKE: 31.25, Gate.CARRY: 3.47222, Gate.PIPE: 11.8435, Gate.COLLECTOR: 40.29},
        rel=1e-3,
    )
    assert found.designed.governs is Gate.CARRY
    assert found.laid is None
    assert found.missing == (JOINTS_NOT_KNOWN, SOIL_NOT_KNOWN)


def test_rain_leaves_by_the_narrowest_gate() -> None:
    """20 mm in an hour at 3.472 mm/h: 5.76 h, of which 4.76 after it stops; 16.5 mm stand."""
    gone = drained(surface(), collector(), drainage()).designed.gone

    assert gone is not None
    assert (gone.gone_h, gone.after_h, gone.standing_mm) == pytest.approx(
        (5.76, 4.76, 16.52778), abs=1e-4
    )


def test_the_worst_reach_as_laid_governs_the_collector() -> None:
    """Reaches of 1, 0.5 and 1.1 % carry what the one of 0.5 % does: root a half of 1 %."""
    found = drained(surface(), collector(), drainage(), *shots(0, 100, 150, 260, 360))

    assert found.laid is not None
    assert found.worst is not None
    assert rates(found.laid)[Gate.COLLECTOR] == pytest.approx(40.29 * 0.5**0.5, rel=1e-3)
    assert (found.worst.reach.start_nm, found.worst.reach.end_nm) == (10 * 10**9, 20 * 10**9)
    assert rates(found.designed)[Gate.COLLECTOR] == pytest.approx(40.29, rel=1e-3)


def test_an_adverse_reach_never_lets_the_rain_leave() -> None:
    """A reach that runs backwards carries nothing by this measure, and it is said."""
    found = drained(surface(), collector(), drainage(), *shots(0, 100, 80, 300, 400))
    text = gate_texts(found)[1]

    assert found.laid is not None
    assert (found.laid.governs, found.laid.gone) == (Gate.COLLECTOR, None)
    assert "has to be laid again" in text.gone
    assert found.laid.widenings == ()


def test_two_surfaces_share_a_collector() -> None:
    """With twice the area on it a collector takes half the depth off each."""
    found = drained(surface(), surface("F2"), collector(), drainage())

    assert rates(found.designed)[Gate.COLLECTOR] == pytest.approx(20.145, rel=1e-3)


def test_rain_from_outside_counts_on_the_surface() -> None:
    """800 m2 that drain onto 400 double the rain; the collector takes as much as before."""
    found = drained(surface(), collector(), drainage(drained_area_mm2=800 * 10**6))

    assert found.rain_mm == pytest.approx(40)
    assert rates(found.designed)[Gate.COLLECTOR] == pytest.approx(40.29, rel=1e-3)
    assert rates(found.designed)[Gate.INTAKE] == pytest.approx(31.25)


def test_what_would_widen_it() -> None:
    """The carry of 3.47 meets the pipe of 11.84 with slits root 3.41 deeper, by hand."""
    wider = {
        one.lever: one for one in drained(surface(), collector(), drainage()).designed.widenings
    }

    assert wider[Lever.DEPTH].factor == pytest.approx((11.8435 / 3.47222) ** 0.5, rel=1e-3)
    assert wider[Lever.DEPTH].next_gate is Gate.PIPE


def test_velocity_is_warned_of() -> None:
    """0.57 m/s keeps silt moving, 0.21 m/s in the slits' pipe does not."""
    speeds = drained(surface(), collector(), drainage()).designed.speeds

    assert [one.warnings for one in speeds] == [(VelocityWarning.SILT_SETTLES,), ()]


@pytest.mark.parametrize(
    ("entries", "words"),
    [
        ((surface(), collector()), "F1 has no drainage terms"),
        ((surface(), drainage()), "F1 names no collector with a bore"),
        ((surface(), collector(bore_nm=0), drainage()), "F1 names no collector with a bore"),
        ((surface(outline=[]), collector(), drainage()), "F1 has no outline and no drained area"),
        ((surface(), surface("F2", outline=[]), collector(), drainage()), "F2 drains to C1 too"),
        ((surface(piped_slits=None), collector(), drainage()), "F1 has no piped slits"),
        ((surface(sand_slits=None), collector(), drainage()), "F1 has no sand slits"),
        ((surface(sand_slits=None, piped_slits=None), drainage()), "F1 has no slits with a width"),
        ((surface(), collector(), drainage(pipe_bore_nm=None)), "The pipes in the slits of F1"),
        (
            (surface(), collector(), drainage(pipe_fall_millionths=0)),
            "The pipes in the slits of F1",
        ),
        ((surface(lines=lines((9,))), collector(), drainage()), "The pipes in the slits of F1"),
        ((surface(), collector(), drainage(), *shots(0, 100)), "C1 is shot from 0+00.0 to"),
        ((surface(), collector(), drainage(), *shots(0, 1, 99)), "hold as read alone"),
    ],
)
def test_what_is_missing_is_said(entries: tuple[Written, ...], words: str) -> None:
    """A gate that can't be estimated is left out with a sentence."""
    assert any(words in sentence for sentence in drained(*entries).missing)


def test_without_terms_nothing_is_estimated() -> None:
    """No terms, no gate: and the words say so."""
    found = drained(surface(), collector())
    text = gate_texts(found)[0]

    assert rates(found.designed) == {}
    assert (text.governs, text.gone) == ("No gate is known.", "No rain is stated.")


def test_a_surface_that_is_not_there() -> None:
    """A name that the job does not know is refused with those it does."""
    with pytest.raises(SurfaceUnknownError, match="Its surfaces are: F1"):
        drained(surface(), name="F9")


def test_every_text_says_its_arithmetic_and_that_it_is_an_estimate() -> None:
    """The words beside a figure: how it came about, and whose the design is."""
    found = drained(surface(), collector(), drainage(), *shots(0, 100, 150, 260, 360))
    designed, laid = gate_texts(found)

    assert found.estimate == ESTIMATE
    assert designed.lines[0].how == "500.0 mm/h of the sand x 25 mm / 400 mm"
    full = "4.48 L/s in 100 mm at 1.00 %, C1 0+00.0 to 0+40.0, n 0.015, off 400 m²"
    assert full in designed.lines[3].how
    assert "at 0.50 %, C1 0+10.0 to 0+20.0" in laid.lines[3].how
    assert designed.governs == "What a slit carries to the nearest piped slit governs, at 3.5 mm/h."
    assert designed.gone.startswith("20.0 mm in 1 h 0 min has left 4 h 46 min after it stops")


def test_a_large_square_is_its_area() -> None:
    """An outline's area is the surveyor's: 400 m2 of a 20 m square, whichever way it turns."""
    around = square(20)[::-1]
    found = drained(surface(outline=around), collector(), drainage())

    assert rates(found.designed)[Gate.COLLECTOR] == pytest.approx(40.29, rel=1e-3)


def test_how_full_the_collector_runs_meanwhile() -> None:
    """3.472 mm/h off 400 m2 is 8.62 % of what the pipe carries full: 19.8 % of its bore deep."""
    # y/D 0.20 carries 0.0876 of the full flow: the table of hydraulic elements, one line up.
    found = drained(surface(), collector(), drainage())

    assert found.designed.runs is not None
    assert found.designed.runs.fill == pytest.approx(0.1984, abs=2e-3)
    assert gate_texts(found)[0].runs.startswith("C1 then runs 20 % of its bore deep, at 0.3")


def test_a_collector_that_governs_has_no_depth_to_tell() -> None:
    """Where the collector is the gate, or no gate is known, it is not told how full it runs."""
    governs = drained(surface(), collector(bore_nm=20 * 10**6), drainage())

    assert (governs.designed.governs, governs.designed.runs) == (Gate.COLLECTOR, None)
    assert gate_texts(governs)[0].runs == ""
    assert drained(surface(), collector()).designed.runs is None


def test_gates_as_they_are_read() -> None:
    """Every gate with its rate, its arithmetic and which governs, word for word."""
    found = drained(surface(), collector(), drainage())
    text = gate_texts(found)[0]

    assert [(one.rate, one.governs) for one in text.lines] == [
        ("31.2 mm/h", False),
        ("3.5 mm/h", True),
        ("11.8 mm/h", False),
        ("40.3 mm/h", False),
    ]
    assert text.lines[1].how == "4 x 500.0 mm/h x 25 mm / 400 mm x (200 mm / 1200 mm)²"
    assert text.lines[2].how == "0.08 L/s in 22 mm at 1.00 %, n 0.015, off 20.00 m x 1200 mm"
    assert text.warnings == (
        "a piped slit of F1 runs full at 0.21 m/s: "
        "slower than what keeps fine sand and silt moving.",
    )


def test_what_would_widen_it_as_it_is_read() -> None:
    """Sizes and grades as they are and as they would be, in the job's units."""
    steeper = drained(surface(), collector(), drainage(sand_um_per_h=5_000_000))
    wider = gate_texts(steeper)[0].wider

    assert steeper.designed.governs is Gate.PIPE
    assert wider[0].startswith("spacing of the piped slits: 1200 mm to ~")
    assert wider[1].startswith("grade of the piped slits: 1.00 % to 8.59 % gives 34.7 mm/h; then")
    assert wider[2].startswith("bore of the pipe in the slits: 22 mm to ~")


@pytest.mark.parametrize(
    ("rain_mm", "minutes", "said"),
    [
        (1, 60, "1.0 mm in 1 h 0 min has left as it stops; none stands on the surface."),
        (4, 60, "4.0 mm in 1 h 0 min has left 10 min after it stops; at most 0.5 mm stands"),
        (0, 60, "No rain is stated."),
    ],
)
def test_rain_as_it_is_read(rain_mm: int, minutes: int, said: str) -> None:
    """A rain that the slits keep up with, one that they don't, and none."""
    terms = drainage(rain_nm=rain_mm * 10**6, rain_min=minutes)

    assert gate_texts(drained(surface(), collector(), terms))[0].gone.startswith(said)


def test_surfaces_on_another_collector_take_no_share() -> None:
    """Only what drains to the same collector shares it."""
    found = drained(surface(), surface("F2", collector_id="C2"), collector(), drainage())

    assert rates(found.designed)[Gate.COLLECTOR] == pytest.approx(40.29, rel=1e-3)


def test_slits_as_wide_as_they_are_apart_are_no_slits() -> None:
    """A pattern without room between its slits, or without a width, is told, not reckoned."""
    for width_mm in (400, 0):
        flat = surface(sand_slits=pattern(400, width_nm=width_mm * 10**6))
        found = drained(flat, collector(), drainage())
        assert Gate.INTAKE not in rates(found.designed)
        assert any("no slits with a width" in sentence for sentence in found.missing)


def test_without_an_area_the_collector_as_laid_is_not_told() -> None:
    """Shots alone give no gate where nobody knows what drains there."""
    found = drained(surface(outline=[]), collector(), drainage(), *shots(0, 100, 200, 300, 400))

    assert (found.laid, len(gate_texts(found))) == (None, 1)
