"""Day two: the field with the twin cutter, a blade that wears, the first half of the collector."""

from __future__ import annotations

from crewapp.commands.day import LogDelay, LogNote, LogUtility, LogWeather, PlanTomorrow
from crewapp.commands.grade import ReleaseHold
from crewapp.commands.loads import HaulSpoil, TakeDelivery
from crewapp.demo.shooting import (
    COLLECTOR_ID,
    lay_sticks,
    layer,
    prove_setup,
    see_outlet,
    set_up_level,
    shoot,
    shoot_along,
)
from crewapp.demo.signing import book_hours, close
from crewapp.demo.slitting import cut, fill_by_hopper, places_ft, probe, probe_at
from crewapp.demo.tests_of_materials import READINGS_BEFORE, ring_test, weigh_and_sieve
from crewapp.demo.typist import Typist
from crewapp.job.dispatch import do

DAY = "2026-05-12"
FIELD = "F2"
GAP_FT = 24

PASSES: tuple[tuple[str, str, str, tuple[int, ...], tuple[int, ...], int], ...] = (
    ("S01", "S04", "", (), (), 12),
    ("S02", "S05", "16", (), (), 12),
    ("S03", "S06", "16-1/4", (72, 71, 72, 72, 71, 72), (72, 71, 71, 72, 71, 71), 11),
    ("S07", "S10", "64", (71, 72, 71, 71, 72, 71), (71, 70, 71, 70, 70, 71), 12),
    ("S08", "S11", "16", (71, 71, 70, 71, 70, 71), (70, 70, 69, 70, 69, 69), 11),
    ("S09", "S12", "15-7/8", (71, 70, 70, 71, 70, 70), (70, 69, 68, 67, 67, 66), 12),
    ("S13", "S16", "64", (), (), 12),
    ("S14", "S17", "16", (), (), 12),
)
"""Lines of a pass, its shift, depths in eighths for either leg, tenths of a hopper of sand."""

RECUT = (72, 71, 73)
"""Depths of S12 in eighths after it was cut again, at its last three places."""


def work(typist: Typist) -> None:
    """Work Tuesday: the field with the twin cutter, the first half of the collector."""
    typist.at("6:35")
    do(
        typist.job,
        LogWeather(sky="cloud", ground="firm", low_tenths_c=117, high_tenths_c=196, wind="still"),
    )
    typist.at("6:45")
    ring_test(typist, "before", "middle of the south end, no slit near", READINGS_BEFORE)
    typist.at("7:10")
    do(
        typist.job,
        TakeDelivery(
            material_id="slit sand",
            mass_ug=typist.job.figures.read_mass("20.10 ton"),
            amount_typed="20.10 ton",
            moisture="dry",
            note="driver had no ticket; weight by phone from the pit",
        ),
    )
    weigh_and_sieve(typist)
    _cut_field(typist)
    _lay_collector(typist)
    _end_the_day(typist)


def _cut_field(typist: Typist) -> None:
    typist.at("7:40")
    for first, second, shift, near, far, tenths in PASSES:
        pass_id = cut(typist, FIELD, first, second, machine="twin", minutes=6, shift=shift)
        probe(typist, pass_id, first, near, gap_ft=GAP_FT)
        probe(typist, pass_id, second, far, gap_ft=GAP_FT)
        if second == "S12":
            _change_blade(typist, pass_id, second)
        fill_by_hopper(typist, FIELD, pass_id, tenths, "dry")
        if second == "S11":
            _find_pipe(typist)


def _find_pipe(typist: Typist) -> None:
    typist.wait(60, 120)
    do(
        typist.job,
        LogUtility(
            event="found",
            what="irrigation lateral, 1-1/4 in, grey",
            where="field, 31 ft from the west end, crosses S08 to S17 north to south",
            depth_nm=typist.inches("13-1/2"),
            depth_typed="13-1/2",
            action="uncovered by hand, marked with purple paint; slits pass above it",
        ),
    )


def _change_blade(typist: Typist, pass_id: str, line_id: str) -> None:
    """Stop at what is out, put a new blade on, cut the end again and probe it again."""
    typist.answer(
        "depth_shallow",
        f"{pass_id}/",
        "rework",
        "Blade of leg 2 is worn round. New blade on, S12 cut again from 70 ft to its end.",
    )
    do(
        typist.job,
        LogDelay(
            cause="blade worn",
            start_min=9 * 60 + 50,
            lost_min=25,
            note="leg 2 of the twin cutter; spare blade fitted, depth wheel set again",
        ),
    )
    typist.wait(1500)
    places = places_ft(typist.line(FIELD, line_id).length_nm, GAP_FT)[-len(RECUT) :]
    for along_ft, depth in zip(places, RECUT, strict=True):
        probe_at(typist, pass_id, line_id, along_ft, depth)


def _lay_collector(typist: Typist) -> None:
    """Lay and cover 0+00 to 0+60; 0+40 comes out high, is laid again and shot again."""
    typist.at("12:30")
    set_up_level(
        typist,
        "L1",
        "BM2",
        "3.81",
        collector_id=COLLECTOR_ID,
        instrument="grade laser 2",
        plane="graded",
        fall_nm=1,
        run_nm=100,
    )
    typist.at("12:55")
    shoot_along(typist, "L1", "trench_floor", 0, (-1, 0, -2, -1, 1, -1, -1))
    layer(typist, 0, 60, "bedding", "1-1/8")
    see_outlet(typist, "O1", invert="94.58", water="94.83")
    lay_sticks(typist, 60, capped=False)
    shoot_along(typist, "L1", "invert", 0, (0, 1, -1, 0, 6, 1, 0))
    typist.answer(
        "grade_out",
        "0+40",
        "rework",
        "Stone under the stick at 0+40. Lifted 0+35 to 0+45, stone out, bedded again.",
    )
    typist.wait(900, 1200)
    shoot(typist, "L1", "0+40", "invert", -1)
    layer(typist, 0, 60, "pipe")
    layer(typist, 0, 60, "tracer_wire", whole=True)
    prove_setup(typist, "L1", "BM2", "3.81")
    _release(typist, 0, 60)
    for what in ("surround", "fabric", "sand"):
        layer(typist, 0, 60, what)


def _release(typist: Typist, from_ft: int, to_ft: int) -> None:
    typist.wait(120, 200)
    do(
        typist.job,
        ReleaseHold(
            collector_id=COLLECTOR_ID,
            from_nm=typist.feet(str(from_ft)),
            to_nm=typist.feet(str(to_ft)),
            released_by="Ilse Varga-Thorne",
            note="inverts, joints and wire looked at before the surround",
        ),
    )


def _end_the_day(typist: Typist) -> None:
    typist.at("16:10")
    do(
        typist.job,
        HaulSpoil(
            volume_pl=typist.job.figures.read_volume("8 yd3"),
            volume_typed="8 yd3",
            surface_id=FIELD,
            to="stockpile by the maintenance yard",
        ),
    )
    typist.wait(40, 60)
    do(typist.job, LogNote(text="G5 line S10 looked at: sand has sunk 1 in, top up still to do."))
    book_hours(
        typist,
        {"Wren": 585, "Дмитро": 570, "Marisol": 570, "Teo": 510, "twin": 150, "trencher": 105},
        idle={"twin": 40},
    )
    typist.wait(30, 60)
    do(
        typist.job,
        PlanTomorrow(
            work="Collector 0+60 to 1+30, then piped slits P01 on, then field S15 on.",
            must_be_clear="South end of the lower field; keep the gate to the basin open.",
        ),
    )
    typist.answer(
        "line_skipped", "F2/S15", "accept", "S15 and S18 are the next pass; the hopper was empty."
    )
    close(typist)
