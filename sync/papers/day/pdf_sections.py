"""The sections of a day sheet that flow in columns: what was done, by whom, what is next."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby, zip_longest

from models.checks.finding import Severity
from models.entries.field_text import late_pieces
from models.science.quality.verdict import Verdict
from models.units import show_duration
from sync.papers.day.facts.collector import ShotLine
from sync.papers.day.facts.crew import HoursLine
from sync.papers.day.facts.day import DaySheet
from sync.papers.day.facts.flags import FlagLine
from sync.papers.day.facts.slits import PassLine, ProbeLine
from sync.papers.day.pdf_notices import MakePieces, pieces_or_notice
from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import Cell, column_heads, paragraph, rows, section
from sync.papers.wording.measures import (
    Measure,
    bare_or_over,
    measure_text,
    number_text,
    printed_unit,
)
from sync.papers.wording.safe_text import single_line

_OTHER_WORK = (
    "turf_strip",
    "watered_in",
    "pipe_laid",
    "setup",
    "peg_test",
    "instrument_event",
    "turning_point",
    "check_shot",
    "layer_check",
    "hold_point",
    "trench_protection",
    "go_ahead",
    "outlet_seen",
)


def flowing_sections(pen: PdfPen, day: DaySheet, width: float) -> list[Section]:
    """Every section that has something to say, in the order it is read."""
    met = (_hours, _met)
    parts: tuple[tuple[str, tuple[MakePieces, ...]], ...] = (
        ("Not made", (_unmade,)),
        ("Not right, and what was decided", (_flags,)),
        ("Tomorrow", (_tomorrow,)),
        ("Passes, and depths along each line", (_passes,)),
        ("Grade shots (! out of tolerance)", (_shots,)),
        ("Other work", (_other_work,)),
        ("Struck out today", (_struck,)),
        ("Loads", (_loads,)),
        ("Crew, machines and what they met", met),
        ("Also written", (_rest,)),
    )
    found = ((title, pieces_or_notice(title, builds, pen, day, width)) for title, builds in parts)
    return [section(width, title, pieces) for title, pieces in found if pieces]


def _unmade(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    return [piece for text in day.unmade for piece in paragraph(pen, width, text, bold=True)]


def _other_work(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    return _grouped(pen, day, width, _OTHER_WORK)


def _flags(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """Flags of one kind together, a line each; then what cures them, or how they were answered."""
    pieces: list[Piece] = []
    for (weight, _, end), group in groupby(day.flags, key=_kind_of_flag):
        flags = list(group)
        is_heavy = flags[0].is_open and flags[0].severity is not Severity.NOTE
        word = weight.upper() if is_heavy else weight
        texts = [[word if place == 0 else "", single_line(f.said)] for place, f in enumerate(flags)]
        if len(flags) == 1 and end:
            texts[0][1] += f" {end}"
        elif end:
            texts.append(["", end])
        pieces += rows(pen, width, [Cell(9, bold=is_heavy), Cell()], texts)
    return pieces


def _kind_of_flag(flag: FlagLine) -> tuple[str, str, str]:
    """What flags are put together by: weight, check, and what is said once for all of them."""
    if not flag.is_open:
        end = f"{flag.answer.capitalize()} by {flag.by}: {flag.why}"
    else:
        end = "" if flag.severity is Severity.NOTE else f"Open. {flag.cure}"
    return flag.severity.value, flag.check, single_line(end)


def _passes(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    if not day.passes:
        return []
    figures = day.figures
    cells = [Cell(12), Cell(9, 1), Cell(9, 1), Cell()]
    length = printed_unit(Measure.LENGTH, figures)
    by_mass = any(cut.sand_ug for cut in day.passes)
    sand = printed_unit(Measure.MASS if by_mass else Measure.VOLUME, figures)
    depth = printed_unit(Measure.DEPTH, figures)
    names = ["pass", length, sand, f"depths along each line, {depth}; {sand} is sand placed"]
    texts = [
        [
            cut.body.pass_id,
            _length(day, cut),
            _sand(day, cut, by_mass),
            "  ".join([_depths(day, cut), *_remarks(day, cut)]),
        ]
        for cut in day.passes
    ]
    return [column_heads(pen, width, cells, names), *rows(pen, width, cells, texts)]


def _length(day: DaySheet, cut: PassLine) -> str:
    """Length of planned slit that a pass left: the column comes to what was done today."""
    if not cut.is_cut_today:
        return "before"
    return number_text(Measure.LENGTH, cut.cut_nm, day.figures)


def _sand(day: DaySheet, cut: PassLine, by_mass: bool) -> str:
    if by_mass and cut.sand_pl and not cut.sand_ug:
        return measure_text(Measure.VOLUME, cut.sand_pl, day.figures)
    measure, amount = (Measure.MASS, cut.sand_ug) if by_mass else (Measure.VOLUME, cut.sand_pl)
    return number_text(measure, amount, day.figures) if amount else "-"


def _remarks(day: DaySheet, cut: PassLine) -> list[str]:
    """What a pass says beside its figures: fields without a column of their own, its note."""
    pieces = [_piece_lengths(day, cut), *late_pieces(cut.body, day.figures), cut.body.note]
    return [single_line(piece) for piece in pieces if piece]


def _piece_lengths(day: DaySheet, cut: PassLine) -> str:
    """Lengths of the pieces of a pass with what they rest on, where one figure says too little."""
    if not cut.is_cut_today:
        return ""
    tally = cut.tally
    beside = [
        f"{number_text(Measure.LENGTH, length_nm, day.figures)} {what}"
        for what, length_nm in (
            ("cut again", tally.again),
            ("beyond its line", tally.beyond),
            ("not on the plan", tally.off_plan),
        )
        if length_nm
    ]
    lengths = {one.piece.length_nm for one in cut.pieces}
    if len(lengths) > 1:
        drive = number_text(Measure.LENGTH, cut.body.length_nm, day.figures)
        each = ", ".join(
            f"{one.piece.line_id} {number_text(Measure.LENGTH, one.piece.length_nm, day.figures)}"
            f"{_SOURCE_WORDS[one.piece.by]}"
            for one in cut.pieces
        )
        beside.insert(0, f"driven {drive}: {each}")
    return "; ".join(beside)


_SOURCE_WORDS = {"measured": "", "drive": "", "plan": " by the stakes", "old": " of the leg"}
"""What is said of the length of a piece that was not measured."""


def _depths(day: DaySheet, cut: PassLine) -> str:
    """Depths line by line in order along the line; what is out says which way."""
    by_line: dict[str, list[ProbeLine]] = {line_id: [] for line_id in cut.body.line_ids}
    for probe in cut.probes:
        by_line.setdefault(probe.body.line_id, []).append(probe)
    parts = []
    for line_id, probes in by_line.items():
        ordered = sorted(probes, key=lambda probe: probe.body.along_nm)
        read = ", ".join(_depth(day, probe) for probe in ordered)
        parts.append(f"{line_id}: {read}" if read else f"{line_id}: no probe")
    return "  ".join(parts)


def _depth(day: DaySheet, probe: ProbeLine) -> str:
    text = number_text(Measure.DEPTH, probe.body.depth_nm, day.figures)
    if probe.verdict is Verdict.OUT:
        is_low = probe.low_nm is not None and probe.body.depth_nm < probe.low_nm
        text += " shallow" if is_low else " deep"
    low, high = probe.width_limits_nm
    if probe.body.width_nm is not None and low is not None and high is not None:
        if probe.body.width_nm < low:
            text += f" narrow {number_text(Measure.DEPTH, probe.body.width_nm, day.figures)}"
        elif probe.body.width_nm > high:
            text += f" wide {number_text(Measure.DEPTH, probe.body.width_nm, day.figures)}"
    return text if probe.is_newest else f"({text}, read again)"


SHOT_COLUMNS = 2
_MARKS = {Verdict.OUT: " !", Verdict.BEYOND: " ?", Verdict.WITHIN: " ~"}
_MARK_WORDS = {
    Verdict.BEYOND: "? out as read, shoot again",
    Verdict.WITHIN: "~ OK as read, not proven by the readings",
}
"""Marks beside a shot that is not proven to be within its limits; what those two say that an
ordinary day has none of."""


def _shots(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """Grade shots two abreast, by what was shot; one that is out is marked and heavy."""
    lasers = [piece for one in day.lasers for piece in paragraph(pen, width, single_line(one))]
    if not day.shots:
        return lasers
    level, off = (printed_unit(one, day.figures) for one in (Measure.LEVEL, Measure.OFF))
    names = ["station", f"rod {level}", "elev.", f"off {off}"]
    half_cells = [Cell(12), Cell(8.5, 1), Cell(9.5, 1), Cell(8.8, 1)]
    cells = [*half_cells, Cell(0.5), *half_cells]
    pieces = [*lasers, column_heads(pen, width, cells, [*names, "", *names])]
    kinds = dict.fromkeys((shot.collector_id, shot.on) for shot in day.shots)
    for collector_id, on in kinds:
        shots = [s for s in day.shots if (s.collector_id, s.on) == (collector_id, on)]
        title = f"{single_line(collector_id)} {on.replace('_', ' ')}"
        pieces += paragraph(pen, width, title, bold=True)
        half = -(-len(shots) // SHOT_COLUMNS)
        for one, other in zip_longest(shots[:half], shots[half:]):
            row = [*_shot(day, one), "", *(_shot(day, other) if other else [""] * 4)]
            styled = [*_weighted(half_cells, one), Cell(0.5), *_weighted(half_cells, other)]
            pieces += rows(pen, width, styled, [row])
    marks = "; ".join(words for one, words in _MARK_WORDS.items() if one in _verdicts(day))
    return [*pieces, *(paragraph(pen, width, marks) if marks else [])]


def _verdicts(day: DaySheet) -> set[Verdict]:
    return {shot.verdict for shot in day.shots}


def _weighted(cells: list[Cell], shot: ShotLine | None) -> list[Cell]:
    """Cells of one shot, its last one heavy where the shot is out."""
    is_out = shot is not None and shot.verdict.is_out
    return [*cells[:-1], replace(cells[-1], bold=is_out)]


def _shot(day: DaySheet, shot: ShotLine) -> list[str]:
    figures = day.figures
    off = number_text(Measure.OFF, shot.off_nm, figures)
    return [
        figures.station(shot.station_nm),
        figures.level(shot.reading_nm),
        measure_text(Measure.LEVEL, shot.elevation_nm, figures),
        f"{off}{_MARKS.get(shot.verdict, '')}",
    ]


def _grouped(pen: PdfPen, day: DaySheet, width: float, kinds: tuple[str, ...]) -> list[Piece]:
    """Entries of one kind run together, and those of one place under its name once."""
    lines = sorted(day.in_force(*kinds), key=lambda line: kinds.index(line.kind))
    texts = []
    for title, group in groupby(lines, key=lambda line: line.title):
        places: dict[str, list[str]] = {}
        for line in group:
            place, colon, rest = line.said.partition(": ")
            places.setdefault(place + colon, []).append(rest)
        texts.append([title, "; ".join(f"{at}{', '.join(all_)}" for at, all_ in places.items())])
    return rows(pen, width, [Cell(17), Cell()], texts)


_MET = ("utility", "delay", "weather", "note")


def _met(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """What was found, lost, felt, said and photographed, each with its time."""
    lines = sorted(day.in_force(*_MET), key=lambda line: _MET.index(line.kind))
    texts = [[line.title, f"{line.at}  {line.said}"] for line in lines]
    texts += [
        [
            f"Photo {photo.number}",
            single_line(", ".join(part for part in (photo.caption, photo.where) if part))
            + f" (file {photo.sha256[:8]})",
        ]
        for photo in day.photos
    ]
    return rows(pen, width, [Cell(17), Cell()], texts)


def _struck(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """Struck entries with a line through them, then the reason and what stands instead."""
    pieces: list[Piece] = []
    for line in day.struck:
        said = rows(pen, width, [Cell(13), Cell()], [[line.at, line.said]], struck=True)
        instead = f" Now: {line.instead}" if line.instead else ""
        why = f"{line.by}: {single_line(line.reason)}.{instead}"
        kept = [Piece(piece.height, piece.paint, keep_with_next=True) for piece in said[-1:]]
        pieces += [*said[:-1], *kept, *rows(pen, width, [Cell(13), Cell()], [["", why]])]
    return pieces


def _loads(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    figures = day.figures
    cells = [Cell(13), Cell(8), Cell(), Cell(17, 1)]
    texts = []
    for load in day.loads:
        ticket = f", ticket {load.ticket}" if load.ticket else ", NO TICKET"
        note = f", {load.note}" if load.note else ""
        what = single_line(f"{load.what}{ticket if load.way == 'in' else ''}{note}")
        texts.append([load.at, load.way, what, measure_text(load.measure, load.amount, figures)])
    return [*rows(pen, width, cells, texts), *_balance(pen, day, width)]


def _balance(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    if not day.balances:
        return []
    cells = [Cell(), Cell(7), Cell(15, 1), Cell(15, 1), Cell(17, 1)]
    texts = [
        [
            single_line(one.material_id),
            printed_unit(one.measure, day.figures),
            *(number_text(one.measure, n, day.figures) for n in (one.delivered, one.used)),
            bare_or_over(one.measure, one.on_hand, day.figures),
        ]
        for one in day.balances
    ]
    heads = column_heads(pen, width, cells, ["to date", "", "in", "used", "on hand"])
    apart = Piece(0.8, lambda pen, left, top: None, keep_with_next=True)
    return [apart, heads, *rows(pen, width, cells, texts)]


def _hours(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """Hours of people, then of machines, run together: each name with what it did."""
    texts = [
        [name, "; ".join(_hours_of(line) for line in day.hours if line.of == of)]
        for of, name in (("person", "People"), ("machine", "Machines"))
        if any(line.of == of for line in day.hours)
    ]
    return rows(pen, width, [Cell(17), Cell()], texts)


def _hours_of(line: HoursLine) -> str:
    parts = [f"{line.who} {show_duration(line.run_min)}"]
    parts += [f"idle {show_duration(line.idle_min)}"] if line.idle_min else []
    parts += [f"down {show_duration(line.down_min)}"] if line.down_min else []
    return single_line(", ".join([*parts, line.note] if line.note else parts))


def _tomorrow(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    texts = [[plan.what, single_line(plan.said)] for plan in day.tomorrow]
    return rows(pen, width, [Cell(17, bold=True), Cell()], texts)


_TOLD = frozenset(
    {
        *_OTHER_WORK,
        *("pass", "probe", "sand_placed", "grade_shot", "delivery", "spoil", "utility", "hours"),
        *("weather", "delay", "note", "photo", "tomorrow", "disposition", "struck"),
        *("signature", "day_closed", "day_reopened"),
    }
)


def _rest(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """What no other section tells: changes of the plan, entries of a newer version."""
    kinds = tuple(dict.fromkeys(line.kind for line in day.entries if line.kind not in _TOLD))
    return _grouped(pen, day, width, kinds) if kinds else []
