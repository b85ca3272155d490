"""Day one: loads in, and the first slits of the green."""

from __future__ import annotations

from fractions import Fraction

from crewapp.commands.day import LogNote, LogWeather, PlanTomorrow
from crewapp.commands.entries import Correct
from crewapp.commands.loads import HaulSpoil, TakeDelivery
from crewapp.commands.passes import LogTurf, WaterIn
from crewapp.demo.signing import book_hours, close
from crewapp.demo.slitting import cut, fill_by_barrow, pipe, probe, probe_at
from crewapp.demo.typist import Typist
from crewapp.handlers.entries import undo_last
from crewapp.job.dispatch import do

DAY = "2026-05-11"
GREEN = "G5"


def work(typist: Typist) -> None:
    """Work Monday from the first look at the sky to the signatures."""
    typist.at("6:40")
    do(
        typist.job,
        LogWeather(
            sky="clear", ground="firm", low_tenths_c=94, high_tenths_c=212, wind="light, west"
        ),
    )
    _take_loads_in(typist)
    _cut_sand_slits(typist)
    _cut_piped_slits(typist)
    _end_the_day(typist)


def _take_loads_in(typist: Typist) -> None:
    read_mass, feet = typist.job.figures.read_mass, typist.feet
    typist.at("7:05")
    for material, ticket, ton in (
        ("slit sand", "TQ-40121", "21.86 ton"),
        ("pea gravel", "TQ-40125", "9.20 ton"),
    ):
        typist.wait(240, 600)
        do(
            typist.job,
            TakeDelivery(
                material_id=material,
                ticket=ticket,
                mass_ug=read_mass(ton),
                amount_typed=ton,
                moisture="dry" if material == "slit sand" else None,
            ),
        )
    for material, ticket, length, coil in (
        ("1 in slit pipe", "P-7703", "500 ft", "coil A"),
        ("1 in slit pipe", "P-7703", "500 ft", "coil B"),
        ("4 in collector pipe", "P-7703", "140 ft", ""),
        ("filter fabric", "P-7704", "150 ft", ""),
        ("tracer wire", "P-7704", "200 ft", ""),
    ):
        typist.wait(20, 50)
        do(
            typist.job,
            TakeDelivery(
                material_id=material,
                ticket=ticket,
                length_nm=feet(length),
                amount_typed=length,
                coil_id=coil,
            ),
        )


def _cut_sand_slits(typist: Typist) -> None:
    typist.at("7:50")
    for first in (1, 5, 9):
        lines = tuple(f"S{number:02d}" for number in range(first, first + 4))
        typist.wait(500, 800)
        do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="lifted"))
        for line_id in lines:
            _cut_one(typist, line_id)
        typist.wait(300, 600)
        do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="put_back"))
        typist.wait(200, 300)
        do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="rolled"))


def _cut_one(typist: Typist, line_id: str) -> None:
    """Cut one slit; S06 gets a slip of the pen, S10 too little sand."""
    pass_id = cut(typist, GREEN, line_id, machine="walk-behind", minutes=3)
    if line_id == "S06":
        slip = probe_at(typist, pass_id, line_id, 2, 152)
        typist.wait(25, 40)
        do(
            typist.job,
            Correct(
                entry_id=slip,
                reason="slip of the pen: the tape read 9, 19 was typed",
                fields={"depth_nm": typist.inches("9"), "depth_typed": "9"},
            ),
        )
    probe(typist, pass_id, line_id, gap_ft=14, skip=int(line_id == "S06"))
    share = Fraction(78, 100) if line_id == "S10" else Fraction(typist.chance.randint(98, 108), 100)
    fill_by_barrow(typist, GREEN, pass_id, share)


def _cut_piped_slits(typist: Typist) -> None:
    typist.at("14:10")
    lines = ("P08", "P09")
    do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="lifted"))
    for line_id in lines:
        pass_id = cut(typist, GREEN, line_id, machine="walk-behind", minutes=4)
        probe(typist, pass_id, line_id, gap_ft=14)
        pipe(typist, GREEN, line_id, "coil A", joined=True)
        fill_by_barrow(typist, GREEN, pass_id, Fraction(93, 100))
    typist.wait(400, 600)
    slip = do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="rolled"))
    typist.wait(3)
    undo_last(typist.job, slip)
    do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="put_back"))
    typist.wait(200, 300)
    do(typist.job, LogTurf(surface_id=GREEN, line_ids=lines, step="rolled"))


def _end_the_day(typist: Typist) -> None:
    typist.at("15:40")
    do(typist.job, WaterIn(surface_id=GREEN, note="hand hose, slow, until it stopped sinking"))
    typist.wait(600, 900)
    do(
        typist.job,
        HaulSpoil(
            volume_pl=typist.job.figures.read_volume("1.5 yd3"),
            volume_typed="1.5 yd3",
            surface_id=GREEN,
            to="low corner behind the pump house",
        ),
    )
    typist.wait(60, 100)
    do(
        typist.job,
        LogNote(
            text="Hole location is on line S31. Please move the cup to the east half "
            "before Thursday.",
            needs_owner=True,
        ),
    )
    book_hours(
        typist,
        {"Wren": 570, "Дмитро": 555, "Marisol": 540, "Teo": 555, "walk-behind": 190},
        idle={"walk-behind": 60},
    )
    _plan_tuesday(typist)
    typist.answer(
        "sand_short",
        "G5-10",
        "rework",
        "Barrow ran out. Strip is marked with a flag; top up tomorrow before rolling again.",
    )
    typist.answer(
        "locate_ticket_about_to_expire",
        "LK-26-0398",
        "accept",
        "Renewal asked for by phone at 15:30; the service calls back.",
    )
    close(typist)


def _plan_tuesday(typist: Typist) -> None:
    typist.wait(30, 60)
    do(
        typist.job,
        PlanTomorrow(
            work="Sports field: twin cutter from the west side, S01 on. Collector 0+00 to 0+60.",
            must_be_clear="South end of the lower field and the strip along the storm basin.",
            sand_ug=typist.job.figures.read_mass("20 ton"),
            sand_typed="20 ton",
        ),
    )
