"""Tables of the materials: loads with their tickets, amounts used, results of tests."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from models.entries.bodies.job import Material
from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.bodies.material_tests import BoxWeighing, BulkingTest, SieveTest
from models.entries.body import Body
from models.entries.envelope import AnyEntry, Entry
from models.entries.index import EntryKind
from models.entries.kind_names import (
    BOX_WEIGHING,
    BULKING_TEST,
    DELIVERY,
    MATERIAL,
    SIEVE_TEST,
    SPOIL,
)
from models.errors import CalculationInputError
from models.science.materials.bulking import bulking
from models.science.materials.gradation import EDITIONS
from models.science.materials.sieving import judge_sieves, shares_passing, shares_retained
from models.state.job_state import JobState
from models.units.job_units import Figures
from models.units.percent import percent_beside_limits
from sync.papers.asbuilt.records.job import EVER
from sync.papers.day.facts.loads import balances_of
from sync.papers.day.facts.slits import current_of
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    make_record,
    text_cell,
)
from sync.papers.wording.measures import (
    Measure,
    delivered_amount,
    left_and_over,
    number,
    number_text,
    plain_day,
    printed_unit,
    unit_of,
)

_G_PER_KG = 1000


def material_record(state: JobState, figures: Figures) -> Record:
    """Every material: what it is, its density as weighed, whether its test let it in."""
    rows = []
    for name in state.every_name(MATERIAL):
        material = state.latest(MATERIAL, name)
        if not isinstance(material, Material):
            continue
        density = material.bulk_density_g_per_m3
        fit = "suitable" if material.suitable else "NOT suitable"
        words = ", ".join(part for part in (fit, material.test_note) if part)
        kg = None if density is None else float(Fraction(density, _G_PER_KG))
        rows.append(
            [
                text_cell(name),
                text_cell(material.use),
                text_cell(material.about),
                RecordCell("-" if kg is None else f"{kg:.0f}", kg),
                text_cell(words),
            ]
        )
    fields = [
        Field("material", "material", 24),
        Field("use", "use", 11),
        Field("about", "what it is"),
        Field("bulk_density", "loose kg/m\u00b3", 15, "kg_per_m3", is_number=True),
        Field("test", "test", 26),
    ]
    return make_record("materials", "Materials", fields, rows)


_LOADS: tuple[EntryKind[Body], ...] = (DELIVERY, SPOIL)


def load_record(state: JobState, figures: Figures) -> Record:
    """Every load in with its ticket, and every load of spoil away."""
    rows = [
        [
            RecordCell(plain_day(entry.day, figures.is_us), entry.day),
            *cells,
            text_cell(entry.author),
        ]
        for kind in _LOADS
        for entry in sorted(current_of(state, kind), key=lambda one: (one.day, one.lc))
        for cells in [_load_cells(entry, figures)]
    ]
    fields = [
        Field("day", "day", 22.5),
        Field("way", "", 0),
        Field("what", "what"),
        Field("ticket", "ticket", 18),
        Field("amount", "amount", 11, is_number=True),
        Field("unit", "unit", 6),
        Field("note", "remarks", 27),
        Field("by"),
    ]
    return make_record("loads", "Loads and their tickets", fields, rows)


def _load_cells(entry: AnyEntry, figures: Figures) -> list[RecordCell]:
    body = entry.body
    measure, amount, what, ticket, way, note = Measure.VOLUME, 0, "", "", "in", ""
    if isinstance(body, Delivery):
        measure, amount = delivered_amount(body)
        coil = f", coil {body.coil_id}" if body.coil_id else ""
        felt = f"{body.moisture}" if body.moisture else ""
        what, ticket = body.material_id + coil, body.ticket or "NO TICKET"
        note = ", ".join(part for part in (felt, body.note) if part)
    elif isinstance(body, SpoilAway):
        amount, way, note = body.volume_pl, "away", body.to
        what = f"spoil away, {body.surface_id}".rstrip(", ")
    value = number(measure, amount, figures.is_us)
    unit = RecordCell(printed_unit(measure, figures), unit_of(measure, figures.is_us))
    shown = RecordCell(number_text(measure, amount, figures), value)
    return [text_cell(way), text_cell(what), text_cell(ticket), shown, unit, text_cell(note)]


def balance_record(state: JobState, figures: Figures) -> Record:
    """Table of what came in and what was used of every material."""
    rows = []
    for one in balances_of(state, EVER):
        amounts = (one.delivered, one.used, *left_and_over(one.on_hand))
        unit = RecordCell(printed_unit(one.measure, figures), unit_of(one.measure, figures.is_us))
        cells = [
            RecordCell(
                number_text(one.measure, each, figures), number(one.measure, each, figures.is_us)
            )
            for each in amounts
        ]
        rows.append([text_cell(one.material_id), unit, *cells])
    fields = [
        Field("material", "material"),
        Field("unit", "unit", 8),
        Field("delivered", "delivered", 20, is_number=True),
        Field("used", "used", 20, is_number=True),
        Field("left_over", "left over", 20, is_number=True),
        Field("over", "used beyond", 20, is_number=True),
    ]
    note = "Used beyond what was delivered: a load came that nobody wrote down."
    return make_record("balance", "Delivered and used", fields, rows, "Nothing delivered.", note)


def test_record(state: JobState, made: MeasureCells) -> Record:
    """Sieve sheets, weighed boxes and bulking tests, each with its arithmetic."""
    rows = [
        [
            text_cell(entry.body.material_id),
            text_cell(kind),
            text_cell(words),
            RecordCell(plain_day(entry.day, made.figures.is_us), entry.day),
            text_cell(entry.author),
        ]
        for entry, kind, words in _tests(state, made)
    ]
    fields = [
        Field("material", "material", 17),
        Field("test", "test", 15),
        Field("result", "result"),
        Field("day", "day", 22.5),
        Field("by", "by", 14),
    ]
    return make_record("tests", "Tests of materials", fields, rows, "None written down.")


def _tests(
    state: JobState, made: MeasureCells
) -> Iterator[tuple[Entry[SieveTest | BoxWeighing | BulkingTest], str, str]]:
    for sieved in current_of(state, SIEVE_TEST):
        yield sieved, "sieve sheet", _sieve_words(sieved.body)
    for weighed in current_of(state, BOX_WEIGHING):
        yield weighed, "weighed box", _box_words(weighed.body, made.figures)
    for flooded in current_of(state, BULKING_TEST):
        yield flooded, "bulking", _bulking_words(flooded.body, made.figures)


def _sieve_words(test: SieveTest) -> str:
    """Percent passing every sieve; then how it stands against the table it is held to."""
    weights = {weight.opening_um: weight.retained_mg for weight in test.weights}
    try:
        retained = shares_retained(weights)
        passing = ", ".join(
            f"{_opening(um)} {_percent(share)}" for um, share in shares_passing(retained).items()
        )
        words = [f"passing: {passing}", *_bands(test, retained)]
    except CalculationInputError as fault:
        words = [f"can't be worked out: {fault}"]
    return "; ".join([*words, *(part for part in (test.laboratory, test.note) if part)])


def _bands(test: SieveTest, retained: dict[int, Fraction]) -> Iterator[str]:
    if test.edition not in EDITIONS:
        yield f"held to {test.edition}" if test.edition else "held to no table"
        return
    for found in judge_sieves(retained, test.edition):
        share = "not told by these sieves"
        if found.share is not None:
            band = found.band
            share = f"{percent_beside_limits(found.share, band.low, band.high, 1)} %"
        names = " and ".join(grain.value for grain in found.band.grains)
        yield f"{names} {share}: {found.verdict.value}"


def _opening(um: int) -> str:
    return f"{um / 1000:g} mm"


def _percent(share: Fraction) -> str:
    return f"{float(share):.1f} %"


def _box_words(test: BoxWeighing, figures: Figures) -> str:
    density = Fraction(test.mass_ug * 10**15, test.volume_pl * 10**9)
    amount, room = test.mass_typed or figures.mass(test.mass_ug), test.volume_typed
    room = room or figures.volume(test.volume_pl)
    return f"{amount} in {room}, {test.moisture}: {float(density):.0f} kg/m\u00b3 loose"


def _bulking_words(test: BulkingTest, figures: Figures) -> str:
    moist, flooded = figures.depth(test.moist_nm), figures.depth(test.flooded_nm)
    share = _percent(bulking(test.moist_nm, test.flooded_nm) * 100)
    return f"moist {moist}, flooded {flooded}: ({moist} - {flooded}) / {flooded} = {share}"
