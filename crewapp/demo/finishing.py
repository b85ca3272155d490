"""The rest of the job: the belly lifted, the field and the green cut to their last lines."""

from __future__ import annotations

from fractions import Fraction

from crewapp.commands.day import LogNote, LogWeather, PlanTomorrow
from crewapp.commands.grade import ReleaseHold
from crewapp.commands.loads import HaulSpoil, PlaceHopper, TakeDelivery
from crewapp.commands.passes import LogTurf, WaterIn
from crewapp.commands.ties import TieEnd
from crewapp.demo.monday import GREEN
from crewapp.demo.shooting import COLLECTOR_ID, layer, look_back, shoot, shoot_along, stand
from crewapp.demo.signing import OWNER, book_hours, close
from crewapp.demo.slitting import SAND, cut, fill_by_barrow, fill_by_hopper, pipe, probe
from crewapp.demo.tuesday import FIELD, GAP_FT
from crewapp.demo.typist import Hand
from crewapp.job.dispatch import do
from models.entries.bodies.job import Machine
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import MACHINE, SURFACE
from models.plan.line import LineUse
from models.queries.layout.next_pass import next_lines
from models.state.indexes import DRAWN_NM

THURSDAY, FRIDAY, MONDAY, TUESDAY = "2026-05-14", "2026-05-15", "2026-05-18", "2026-05-19"
CREW = {"Wren": 555, "Дмитро": 540, "Marisol": 545, "Teo": 540}
_STICK_FT = 500


def work_thursday(hand: Hand) -> None:
    """Lift the belly, cover the collector, and cut the field's sand slits to the end."""
    _look_at_the_sky(hand, "clear", "soft", 84, 189)
    _answer_wednesday(hand)
    _lift_the_belly(hand)
    _cover_the_collector(hand)
    hand.at("12:30")
    cut_on_field(hand, "sand_slit", tenths=12)
    _end(hand, {"twin": 190, "trencher": 60}, "Piped slits of the field.", spoil="9 yd3")


def work_friday(hand: Hand) -> None:
    """Cut and pipe the field's cross slits."""
    _look_at_the_sky(hand, "clear", "firm", 97, 214)
    hand.at("7:00")
    for coil in ("coil C", "coil D", "coil E", "coil F", "coil G"):
        hand.wait(20, 50)
        do(
            hand.job,
            TakeDelivery(
                material_id="1 in slit pipe",
                ticket="P-7741",
                length_nm=hand.feet(str(_STICK_FT)),
                amount_typed=f"{_STICK_FT} ft",
                coil_id=coil,
            ),
        )
    hand.at("7:30")
    cut_on_field(hand, "piped_slit", tenths=6)
    _top_up_the_green(hand)
    _end(hand, {"twin": 170}, "Green 5: slits S13 on, turf strips lifted first.", spoil="6 yd3")


def work_monday(hand: Hand) -> None:
    """Cut the green's sand slits up to the cup."""
    _look_at_the_sky(hand, "cloud", "firm", 121, 203)
    hand.at("7:20")
    cut_on_green(hand, "sand_slit", 24)
    _end(hand, {"walk-behind": 150}, "Green 5: the rest of its sand slits.", spoil="1.5 yd3")


def work_tuesday(hand: Hand) -> None:
    """Cut the green's last sand slits, then its piped ones."""
    _look_at_the_sky(hand, "clear", "firm", 116, 226)
    hand.at("6:50")
    cut_on_green(hand, "sand_slit", 99)
    cut_on_green(hand, "piped_slit", 99)
    hand.wait(600, 900)
    do(hand.job, WaterIn(surface_id=GREEN, note="hand hose, the whole green, until it was level"))
    _end(hand, {"walk-behind": 230}, "", spoil="2.5 yd3")


def cut_on_field(hand: Hand, use: LineUse, *, tenths: int) -> None:
    """Cut every line of a use that is left on the field, pass after pass, with the twin."""
    twin = hand.job.state.latest(MACHINE, "twin")
    surface = hand.job.state.latest(SURFACE, FIELD)
    assert isinstance(surface, Surface)
    assert isinstance(twin, Machine)
    while lines := next_lines(hand.job.state, surface, use, twin):
        names = tuple(line.line_id for line in lines)
        pass_id = cut(hand, FIELD, *names, machine="twin", minutes=6 if use == "sand_slit" else 4)
        for name in names:
            probe(hand, pass_id, name, gap_ft=GAP_FT)
            if use == "piped_slit":
                pipe(hand, FIELD, name, coil_for(hand, FIELD, name), joined=True)
        fill_by_hopper(hand, FIELD, pass_id, tenths * len(names) // 2, "dry")


def cut_on_green(hand: Hand, use: LineUse, most: int) -> None:
    """Cut up to so many of the green's lines that are left, turf lifted first and put back."""
    walker = hand.job.state.latest(MACHINE, "walk-behind")
    surface = hand.job.state.latest(SURFACE, GREEN)
    assert isinstance(surface, Surface)
    assert isinstance(walker, Machine)
    while most > 0 and (lines := next_lines(hand.job.state, surface, use, walker)):
        most -= 1
        name = lines[0].line_id
        hand.wait(60, 120)
        do(hand.job, LogTurf(surface_id=GREEN, line_ids=(name,), step="lifted"))
        pass_id = cut(hand, GREEN, name, machine="walk-behind", minutes=3)
        probe(hand, pass_id, name, gap_ft=14)
        if use == "piped_slit":
            pipe(hand, GREEN, name, coil_for(hand, GREEN, name), joined=True)
        share = Fraction(hand.chance.randint(98, 108), 100)
        fill_by_barrow(hand, GREEN, pass_id, share * (Fraction(9, 10) if use[0] == "p" else 1))
        for step in ("put_back", "rolled"):
            hand.wait(40, 90)
            do(hand.job, LogTurf(surface_id=GREEN, line_ids=(name,), step=step))


def coil_for(hand: Hand, surface_id: str, line_id: str) -> str:
    """Return the first coil that still holds pipe for a whole line."""
    needed_nm = hand.line(surface_id, line_id).length_nm + 2 * hand.feet("1")
    for coil in "ABCDEFG":
        drawn_nm = hand.job.state.total(DRAWN_NM, f"coil {coil}")
        if hand.feet(str(_STICK_FT)) - drawn_nm >= needed_nm:
            return f"coil {coil}"
    return "coil G"


def _look_at_the_sky(hand: Hand, sky: str, ground: str, low: int, high: int) -> None:
    hand.at("6:30")
    do(
        hand.job,
        LogWeather(sky=sky, ground=ground, low_tenths_c=low, high_tenths_c=high, wind="light"),
    )


def _answer_wednesday(hand: Hand) -> None:
    hand.answer(
        "delivery_without_ticket",
        "slit sand",
        "accept",
        "The pit's statement of 13 May lists the load as TQ-40133, 20.10 ton.",
    )
    hand.answer(
        "sand_moist", "F2-09", "rework", "Rodded and watered in this morning, then topped up dry."
    )
    do(
        hand.job,
        PlaceHopper(
            surface_id=FIELD,
            material_id=SAND,
            pass_id="F2-09",
            loads_tenths=1,
            moisture="dry",
        ),
    )
    hand.answer(
        "day_closed_with_flags_open", "closed", "accept", "Each was answered the morning after."
    )


def _lift_the_belly(hand: Hand) -> None:
    hand.at("7:15")
    stand(hand, "L4", "BM2", "5.10", collector_id=COLLECTOR_ID, instrument="level laser 1")
    look_back(hand, "L4", "BM1", "2.72")
    hand.wait(2400, 3000)
    do(
        hand.job,
        LogNote(
            text="Pipe lifted 0+90 to 1+10, soft floor dug out 4 in, gravel tamped in, "
            "bedded again."
        ),
    )
    shoot_along(hand, "L4", "bedding", 90, (0, 1, 0))
    shoot_along(hand, "L4", "invert", 90, (1, 0, 1))
    for place in (95, 105):
        shoot(hand, "L4", f"0+{place}" if place < 100 else f"1+{place - 100:02d}", "invert", 0)
    look_back(hand, "L4", "BM2", "5.10")


def _cover_the_collector(hand: Hand) -> None:
    layer(hand, 60, 130, "pipe")
    layer(hand, 60, 130, "tracer_wire", whole=True)
    hand.wait(120, 200)
    do(
        hand.job,
        ReleaseHold(
            collector_id=COLLECTOR_ID,
            from_nm=hand.feet("60"),
            to_nm=hand.feet("130"),
            released_by=OWNER,
            note="inverts 0+90 to 1+10 shot again in her presence",
        ),
    )
    for what in ("surround", "fabric", "sand"):
        layer(hand, 60, 130, what)
    _tie_the_ends(hand)
    layer(hand, 0, 130, "sod")


def _top_up_the_green(hand: Hand) -> None:
    """Put right what Monday's sheet left open on S10."""
    fill_by_barrow(hand, GREEN, "G5-10", Fraction(1, 4))
    do(hand.job, LogNote(text="G5 line S10 topped up, strip put back level and rolled."))


def _tie_the_ends(hand: Hand) -> None:
    """Measure both ends of the collector from two points that will stay."""
    for point, tied, typed in (
        ("PP1", "collector_outlet", "41.60"),
        ("PP2", "collector_outlet", "100.60"),
        ("PP1", "collector_head", "89.25"),
        ("PP2", "collector_head", "48.10"),
    ):
        hand.wait(90, 160)
        do(
            hand.job,
            TieEnd(
                tied=tied,
                collector_id=COLLECTOR_ID,
                point_id=point,
                distance_nm=hand.feet(typed),
                distance_typed=typed,
            ),
        )


def _end(hand: Hand, machines: dict[str, int], tomorrow: str, *, spoil: str) -> None:
    hand.at("16:00")
    do(
        hand.job,
        HaulSpoil(
            volume_pl=hand.job.figures.read_volume(spoil),
            volume_typed=spoil,
            to="stockpile by the maintenance yard",
        ),
    )
    book_hours(hand, {**CREW, **machines})
    if tomorrow:
        hand.wait(30, 60)
        do(hand.job, PlanTomorrow(work=tomorrow, must_be_clear="The ground to be cut."))
    close(hand)
