"""The rest of the job: the belly lifted, the field and the green cut to their last lines."""

from __future__ import annotations

from fractions import Fraction

from crewapp.commands.day import LogNote, LogWeather, PlanTomorrow
from crewapp.commands.grade import ReleaseHold
from crewapp.commands.loads import HaulSpoil, PlaceHopper, TakeDelivery
from crewapp.commands.passes import LogTurf, WaterIn
from crewapp.commands.ties import TieEnd
from crewapp.demo.monday import GREEN
from crewapp.demo.shooting import COLLECTOR_ID, layer, prove_setup, set_up_level, shoot, shoot_along
from crewapp.demo.signing import OWNER, book_hours, close
from crewapp.demo.slitting import SAND, cut, fill_by_barrow, fill_by_hopper, pipe, probe
from crewapp.demo.tuesday import FIELD, GAP_FT
from crewapp.demo.typist import Typist
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


def work_thursday(typist: Typist) -> None:
    """Lift the belly, cover the collector, and cut the field's sand slits to the end."""
    _look_at_the_sky(typist, "clear", "soft", 84, 189)
    _answer_wednesday(typist)
    _lift_the_belly(typist)
    _cover_the_collector(typist)
    typist.at("12:30")
    cut_on_field(typist, "sand_slit", tenths=12)
    _end(typist, {"twin": 190, "trencher": 60}, "Piped slits of the field.", spoil="9 yd3")


def work_friday(typist: Typist) -> None:
    """Cut and pipe the field's cross slits."""
    _look_at_the_sky(typist, "clear", "firm", 97, 214)
    typist.at("7:00")
    for coil in ("coil C", "coil D", "coil E", "coil F", "coil G"):
        typist.wait(20, 50)
        do(
            typist.job,
            TakeDelivery(
                material_id="1 in slit pipe",
                ticket="P-7741",
                length_nm=typist.feet(str(_STICK_FT)),
                amount_typed=f"{_STICK_FT} ft",
                coil_id=coil,
            ),
        )
    typist.at("7:30")
    cut_on_field(typist, "piped_slit", tenths=6)
    _top_up_the_green(typist)
    _end(typist, {"twin": 170}, "Green 5: slits S13 on, turf strips lifted first.", spoil="6 yd3")


def work_monday(typist: Typist) -> None:
    """Cut the green's sand slits up to the cup."""
    _look_at_the_sky(typist, "cloud", "firm", 121, 203)
    typist.at("7:20")
    cut_on_green(typist, "sand_slit", 24)
    _end(typist, {"walk-behind": 150}, "Green 5: the rest of its sand slits.", spoil="1.5 yd3")


def work_tuesday(typist: Typist) -> None:
    """Cut the green's last sand slits, then its piped ones."""
    _look_at_the_sky(typist, "clear", "firm", 116, 226)
    typist.at("6:50")
    cut_on_green(typist, "sand_slit", 99)
    cut_on_green(typist, "piped_slit", 99)
    typist.wait(600, 900)
    do(typist.job, WaterIn(surface_id=GREEN, note="hand hose, the whole green, until it was level"))
    _end(typist, {"walk-behind": 230}, "", spoil="2.5 yd3")


def cut_on_field(typist: Typist, use: LineUse, *, tenths: int) -> None:
    """Cut every line of a use that is left on the field, pass after pass, with the twin."""
    twin = typist.job.state.latest(MACHINE, "twin")
    surface = typist.job.state.latest(SURFACE, FIELD)
    assert isinstance(surface, Surface)
    assert isinstance(twin, Machine)
    while lines := next_lines(typist.job.state, surface, use, twin):
        names = tuple(line.line_id for line in lines)
        pass_id = cut(typist, FIELD, *names, machine="twin", minutes=6 if use == "sand_slit" else 4)
        for name in names:
            probe(typist, pass_id, name, gap_ft=GAP_FT)
            if use == "piped_slit":
                pipe(typist, FIELD, name, coil_for(typist, FIELD, name), joined=True)
        fill_by_hopper(typist, FIELD, pass_id, tenths * len(names) // 2, "dry")


def cut_on_green(typist: Typist, use: LineUse, most: int) -> None:
    """Cut up to so many of the green's lines that are left, turf lifted first and put back."""
    walker = typist.job.state.latest(MACHINE, "walk-behind")
    surface = typist.job.state.latest(SURFACE, GREEN)
    assert isinstance(surface, Surface)
    assert isinstance(walker, Machine)
    while most > 0 and (lines := next_lines(typist.job.state, surface, use, walker)):
        most -= 1
        name = lines[0].line_id
        typist.wait(60, 120)
        do(typist.job, LogTurf(surface_id=GREEN, line_ids=(name,), step="lifted"))
        pass_id = cut(typist, GREEN, name, machine="walk-behind", minutes=3)
        probe(typist, pass_id, name, gap_ft=14)
        if use == "piped_slit":
            pipe(typist, GREEN, name, coil_for(typist, GREEN, name), joined=True)
        share = Fraction(typist.chance.randint(98, 108), 100)
        fill_by_barrow(typist, GREEN, pass_id, share * (Fraction(9, 10) if use[0] == "p" else 1))
        for step in ("put_back", "rolled"):
            typist.wait(40, 90)
            do(typist.job, LogTurf(surface_id=GREEN, line_ids=(name,), step=step))


def coil_for(typist: Typist, surface_id: str, line_id: str) -> str:
    """Return the first coil that still holds pipe for a whole line."""
    needed_nm = typist.line(surface_id, line_id).length_nm + 2 * typist.feet("1")
    for coil in "ABCDEFG":
        drawn_nm = typist.job.state.total(DRAWN_NM, f"coil {coil}")
        if typist.feet(str(_STICK_FT)) - drawn_nm >= needed_nm:
            return f"coil {coil}"
    return "coil G"


def _look_at_the_sky(typist: Typist, sky: str, ground: str, low: int, high: int) -> None:
    typist.at("6:30")
    do(
        typist.job,
        LogWeather(sky=sky, ground=ground, low_tenths_c=low, high_tenths_c=high, wind="light"),
    )


def _answer_wednesday(typist: Typist) -> None:
    typist.answer(
        "delivery_without_ticket",
        "slit sand",
        "accept",
        "The pit's statement of 13 May lists the load as TQ-40133, 20.10 ton.",
    )
    typist.answer(
        "sand_moist", "F2-09", "rework", "Rodded and watered in this morning, then topped up dry."
    )
    do(
        typist.job,
        PlaceHopper(
            surface_id=FIELD,
            material_id=SAND,
            pass_id="F2-09",
            loads_tenths=1,
            moisture="dry",
        ),
    )
    typist.answer(
        "day_closed_with_flags_open", "closed", "accept", "Each was answered the morning after."
    )


def _lift_the_belly(typist: Typist) -> None:
    typist.at("7:15")
    set_up_level(typist, "L4", "BM2", "5.10", collector_id=COLLECTOR_ID, instrument="level laser 1")
    prove_setup(typist, "L4", "BM1", "2.72")
    typist.wait(2400, 3000)
    do(
        typist.job,
        LogNote(
            text="Pipe lifted 0+90 to 1+10, soft floor dug out 4 in, gravel tamped in, "
            "bedded again."
        ),
    )
    shoot_along(typist, "L4", "bedding", 90, (0, 1, 0))
    shoot_along(typist, "L4", "invert", 90, (1, 0, 1))
    for place in (95, 105):
        shoot(typist, "L4", f"0+{place}" if place < 100 else f"1+{place - 100:02d}", "invert", 0)
    prove_setup(typist, "L4", "BM2", "5.10")


def _cover_the_collector(typist: Typist) -> None:
    layer(typist, 60, 130, "pipe")
    layer(typist, 60, 130, "tracer_wire", whole=True)
    typist.wait(120, 200)
    do(
        typist.job,
        ReleaseHold(
            collector_id=COLLECTOR_ID,
            from_nm=typist.feet("60"),
            to_nm=typist.feet("130"),
            released_by=OWNER,
            note="inverts 0+90 to 1+10 shot again in her presence",
        ),
    )
    for what in ("surround", "fabric", "sand"):
        layer(typist, 60, 130, what)
    _tie_the_ends(typist)
    layer(typist, 0, 130, "sod")


def _top_up_the_green(typist: Typist) -> None:
    """Put right what Monday's sheet left open on S10."""
    fill_by_barrow(typist, GREEN, "G5-10", Fraction(1, 4))
    do(typist.job, LogNote(text="G5 line S10 topped up, strip put back level and rolled."))


def _tie_the_ends(typist: Typist) -> None:
    """Measure both ends of the collector from two points that will stay."""
    for point, tied, typed in (
        ("PP1", "collector_outlet", "41.60"),
        ("PP2", "collector_outlet", "100.60"),
        ("PP1", "collector_head", "89.25"),
        ("PP2", "collector_head", "48.10"),
    ):
        typist.wait(90, 160)
        do(
            typist.job,
            TieEnd(
                tied=tied,
                collector_id=COLLECTOR_ID,
                point_id=point,
                distance_nm=typist.feet(typed),
                distance_typed=typed,
            ),
        )


def _end(typist: Typist, machines: dict[str, int], tomorrow: str, *, spoil: str) -> None:
    typist.at("16:00")
    do(
        typist.job,
        HaulSpoil(
            volume_pl=typist.job.figures.read_volume(spoil),
            volume_typed=spoil,
            to="stockpile by the maintenance yard",
        ),
    )
    book_hours(typist, {**CREW, **machines})
    if tomorrow:
        typist.wait(30, 60)
        do(typist.job, PlanTomorrow(work=tomorrow, must_be_clear="The ground to be cut."))
    close(typist)
