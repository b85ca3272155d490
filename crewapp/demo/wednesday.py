"""Day three: rain, a ticket run out, the head of the collector and a belly in it."""

from __future__ import annotations

from crewapp.commands.day import LogDelay, LogNote, LogWeather, PlanTomorrow, ReopenDay
from crewapp.commands.entries import Correct
from crewapp.commands.grade import ReadTurningPoint
from crewapp.demo.shooting import (
    COLLECTOR_ID,
    lay_sticks,
    layer,
    prove_setup,
    set_up_level,
    shoot_along,
)
from crewapp.demo.signing import book_hours, close
from crewapp.demo.slitting import cut, fill_by_hopper, pipe, probe
from crewapp.demo.tuesday import DAY as TUESDAY
from crewapp.demo.tuesday import FIELD, GAP_FT
from crewapp.demo.typist import Typist
from crewapp.handlers.plan.plan_entries import set_up
from crewapp.job.dispatch import do
from models.entries.bodies.day import Hours

DAY = "2026-05-13"


def work(typist: Typist) -> None:
    """Work Wednesday, after putting right what was wrong with Tuesday's sheet."""
    typist.at("6:30")
    do(
        typist.job,
        LogWeather(
            sky="rain", ground="soft", low_tenths_c=109, high_tenths_c=158, wind="gusts, east"
        ),
    )
    _reopen_tuesday(typist)
    _wait_for_rain(typist)
    _dig_collector(typist)
    _lay_collector(typist)
    _cut_field(typist)
    _end_the_day(typist)


def _reopen_tuesday(typist: Typist) -> None:
    typist.at("6:50")
    do(
        typist.job,
        ReopenDay(day=TUESDAY, why="Teo stayed an hour to cover the sand; his hours were short."),
    )
    typist.wait(30, 60)
    hours = next(
        entry
        for entry in typist.job.state.days[TUESDAY]
        if isinstance(entry.body, Hours) and entry.body.who == "Teo"
    )
    do(
        typist.job,
        Correct(
            entry_id=hours.id,
            reason="an hour short: covered the sand until half past five",
            fields={"run_min": 570},
        ),
    )
    close(typist, day=TUESDAY)


def _wait_for_rain(typist: Typist) -> None:
    typist.at("8:00")
    do(
        typist.job,
        LogDelay(
            cause="rain",
            start_min=7 * 60,
            lost_min=60,
            note="0.4 in by the gauge; field too soft for the twin until noon",
        ),
    )
    typist.wait(60)
    do(
        typist.job,
        LogWeather(
            sky="cloud",
            ground="soft",
            rain_nm=typist.inches("0.4"),
            rain_typed="0.4",
            wind="light",
        ),
    )


def _dig_collector(typist: Typist) -> None:
    typist.at("8:15")
    set_up_level(typist, "L2", "BM1", "4.12", instrument="level laser 1")
    typist.wait(200, 300)
    do(
        typist.job,
        ReadTurningPoint(
            setup_id="L2",
            point_id="TP1",
            foresight_nm=typist.level("5.37"),
            foresight_typed="5.37",
        ),
    )
    prove_setup(typist, "L2", "BM1", "4.12")
    set_up_level(typist, "L3", "TP1", "3.96", collector_id=COLLECTOR_ID, instrument="level laser 1")
    typist.at("8:50")
    shoot_along(typist, "L3", "trench_floor", 70, (-1, -1, 0))
    _renew_ticket(typist)
    shoot_along(typist, "L3", "trench_floor", 100, (-12, -3, -1, 0))


def _renew_ticket(typist: Typist) -> None:
    """Stop where the ticket has run out, and have the ground marked again."""
    typist.wait(120, 180)
    set_up(
        typist.job,
        "locate_ticket",
        ticket="LK-26-0455",
        covers="collector C1, renewal of LK-26-0398",
        surfaces=("C1",),
        valid_from="2026-05-14",
        expires_on="2026-06-04",
    )
    do(
        typist.job,
        LogDelay(
            cause="locate ticket",
            start_min=9 * 60,
            lost_min=55,
            note="LK-26-0398 ran out last night; digging stopped, locator called to the site",
        ),
    )
    typist.wait(55 * 60)
    typist.answer(
        "locate_ticket_expired",
        COLLECTOR_ID,
        "waive",
        "Locator came at 9:50 and found his marks good for today; hand digging near them. "
        "Renewed as LK-26-0455 from 14 May.",
    )


def _lay_collector(typist: Typist) -> None:
    """Lay 0+60 to 1+30; the floor at 1+00 was soft from the rain, and the pipe sank there."""
    layer(typist, 60, 130, "bedding", "1")
    lay_sticks(typist, 70, capped=True)
    shoot_along(typist, "L3", "invert", 70, (0, 1, 3, -11, -2, 1, 0))
    prove_setup(typist, "L3", "BM2", "5.08")
    do(
        typist.job,
        LogNote(
            text="Floor at 1+00 went soft in the rain. Left open, nothing covered above 0+60.",
        ),
    )


def _cut_field(typist: Typist) -> None:
    """Cut one sand pass with damp sand, then the first piped slits."""
    typist.at("12:40")
    pass_id = cut(typist, FIELD, "S15", "S18", machine="twin", minutes=7, shift="16")
    probe(typist, pass_id, "S15", gap_ft=GAP_FT)
    probe(typist, pass_id, "S18", gap_ft=GAP_FT)
    fill_by_hopper(typist, FIELD, pass_id, 12, "damp")
    for first, second, shift in (("P01", "P02", ""), ("P03", "P04", "96")):
        pass_id = cut(typist, FIELD, first, second, machine="twin", minutes=4, shift=shift)
        for line_id in (first, second):
            probe(typist, pass_id, line_id, gap_ft=GAP_FT)
            pipe(typist, FIELD, line_id, "coil A" if line_id != "P04" else "coil B", joined=True)
        fill_by_hopper(typist, FIELD, pass_id, 6, "dry")


def _end_the_day(typist: Typist) -> None:
    typist.at("15:50")
    do(
        typist.job,
        LogNote(
            text="Which way shall the last sprinkler on the south side be moved? It stands on P09.",
            needs_owner=True,
        ),
    )
    book_hours(
        typist,
        {"Wren": 560, "Дмитро": 525, "Marisol": 560, "Teo": 525, "twin": 85, "trencher": 80},
        idle={"twin": 150},
    )
    typist.answer(
        "belly",
        "C1",
        "rework",
        "First thing tomorrow: lift 0+90 to 1+10, dig out what is soft, bed and shoot again. "
        "Not covered until the hold point is released.",
    )
    typist.wait(30, 60)
    do(
        typist.job,
        PlanTomorrow(
            work="Lift and bed 0+90 to 1+10 again, shoot it, hold point, then cover. Field S19 on.",
            must_be_clear="Lower field, south half.",
            sand_ug=typist.job.figures.read_mass("10 ton"),
            sand_typed="10 ton",
        ),
    )
    close(typist)
