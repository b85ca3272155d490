"""The sections of a day sheet that flow in columns: what was done, by whom, what is next."""

from __future__ import annotations

from itertools import groupby

from models.calculations.verdict import Verdict
from models.units import show_duration
from sync.sheets.day_facts import DaySheet
from sync.sheets.measures import Measure, bare, unit_of, words
from sync.sheets.pdf_flow import Piece, Section
from sync.sheets.pdf_pen import Pen
from sync.sheets.pdf_rows import Cell, column_heads, paragraph, rows, section
from sync.sheets.safe_text import clean, one_line
from sync.sheets.slit_facts import PassLine, ProbeLine

_OTHER_WORK = (
    "turf_strip",
    "watered_in",
    "pipe_laid",
    "setup",
    "turning_point",
    "check_shot",
    "layer_check",
    "hold_point",
    "trench_protection",
)


def flowing_sections(pen: Pen, day: DaySheet, width: float) -> list[Section]:
    """Every section that has something to say, in the order it is read."""
    made = (
        ("Not right, and what was decided", _flags(pen, day, width)),
        ("Passes, and depths along each line", _passes(pen, day, width)),
        ("Grade shots", _shots(pen, day, width)),
        ("Other work", _grouped(pen, day, width, _OTHER_WORK)),
        ("Found in the ground, or hit", _lines(pen, day, width, ("utility",))),
        ("Struck out today", _struck(pen, day, width)),
        ("Loads", _loads(pen, day, width)),
        ("Crew and machines", _hours(pen, day, width)),
        ("Weather, ground and lost time", _lines(pen, day, width, ("weather", "delay"))),
        ("Notes", _notes(pen, day, width)),
        ("Photos", _photos(pen, day, width)),
        ("Tomorrow", _tomorrow(pen, day, width)),
        ("Also written", _rest(pen, day, width)),
    )
    return [section(width, title, pieces) for title, pieces in made if pieces]


def _flags(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    pieces: list[Piece] = []
    for flag in day.flags:
        word = flag.severity.value.upper() if flag.is_open else flag.severity.value
        said = one_line(flag.said)
        if flag.is_open:
            said += f" Open. {flag.cure}"
        else:
            said += f" {flag.answer.capitalize()} by {flag.by}: {one_line(flag.why)}"
        pieces += rows(pen, width, [Cell(9, bold=flag.is_open), Cell()], [[word, said]])
    return pieces


def _passes(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    if not day.passes:
        return []
    figures = day.figures
    cells = [Cell(14), Cell(11, 1), Cell(11, 1), Cell()]
    length = unit_of(Measure.LENGTH, figures.is_us)
    sand, depth = _sand_unit(day), unit_of(Measure.DEPTH, figures.is_us)
    names = ["pass", length, f"sand {sand}", f"line: depths {depth}"]
    texts = [
        [
            cut.pass_id,
            bare(Measure.LENGTH, cut.length_nm, figures) if cut.is_cut_today else "before",
            _sand(day, cut),
            _depths(day, cut) + (f"  {one_line(cut.note)}" if cut.note else ""),
        ]
        for cut in day.passes
    ]
    return [column_heads(pen, width, cells, names), *rows(pen, width, cells, texts)]


def _sand_unit(day: DaySheet) -> str:
    by_mass = any(cut.sand_ug for cut in day.passes)
    return unit_of(Measure.MASS if by_mass else Measure.VOLUME, day.figures.is_us)


def _sand(day: DaySheet, cut: PassLine) -> str:
    by_mass = any(one.sand_ug for one in day.passes)
    if by_mass and cut.sand_pl and not cut.sand_ug:
        return words(Measure.VOLUME, cut.sand_pl, day.figures)
    measure, amount = (Measure.MASS, cut.sand_ug) if by_mass else (Measure.VOLUME, cut.sand_pl)
    return bare(measure, amount, day.figures) if amount else "-"


def _depths(day: DaySheet, cut: PassLine) -> str:
    """Depths line by line in order along the line; what is out says which way."""
    by_line: dict[str, list[ProbeLine]] = {line_id: [] for line_id in cut.line_ids}
    for probe in cut.probes:
        by_line.setdefault(probe.line_id, []).append(probe)
    parts = []
    for line_id, probes in by_line.items():
        ordered = sorted(probes, key=lambda probe: probe.along_nm)
        read = ", ".join(_depth(day, probe) for probe in ordered)
        parts.append(f"{line_id}: {read}" if read else f"{line_id}: no probe")
    return "  ".join(parts)


def _depth(day: DaySheet, probe: ProbeLine) -> str:
    text = bare(Measure.DEPTH, probe.depth_nm, day.figures)
    if probe.verdict is Verdict.OUT:
        is_low = probe.low_nm is not None and probe.depth_nm < probe.low_nm
        text += " shallow" if is_low else " deep"
    low, high = probe.width_limits_nm
    if probe.width_nm is not None and low is not None and high is not None:
        if probe.width_nm < low:
            text += f" narrow {bare(Measure.DEPTH, probe.width_nm, day.figures)}"
        elif probe.width_nm > high:
            text += f" wide {bare(Measure.DEPTH, probe.width_nm, day.figures)}"
    return text if probe.is_newest else f"({text}, read again)"


def _shots(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    if not day.shots:
        return []
    figures = day.figures
    cells = [Cell(17), Cell(17), Cell(13, 1), Cell(16, 1), Cell()]
    level, off = unit_of(Measure.LEVEL, figures.is_us), unit_of(Measure.OFF, figures.is_us)
    names = ["station", "on", f"rod {level}", f"elevation {level}", f"off design {off}"]
    pieces = [column_heads(pen, width, cells, names)]
    for shot in day.shots:
        off_words = bare(Measure.OFF, shot.off_nm, figures)
        if shot.verdict is Verdict.OUT:
            off_words += " high" if (shot.off_nm or 0) > 0 else " low"
        row = [
            figures.station(shot.station_nm),
            shot.on.replace("_", " "),
            figures.level(shot.reading_nm),
            words(Measure.LEVEL, shot.elevation_nm, figures),
            off_words,
        ]
        styled = cells if shot.verdict is not Verdict.OUT else [*cells[:-1], Cell(bold=True)]
        pieces += rows(pen, width, styled, [row])
    return pieces


def _grouped(pen: Pen, day: DaySheet, width: float, kinds: tuple[str, ...]) -> list[Piece]:
    """Entries of one kind run together after the kind's name."""
    lines = sorted(day.standing(*kinds), key=lambda line: kinds.index(line.kind))
    texts = [
        [title, "; ".join(line.said for line in group)]
        for title, group in groupby(lines, key=lambda line: line.title)
    ]
    return rows(pen, width, [Cell(20), Cell()], texts)


def _lines(pen: Pen, day: DaySheet, width: float, kinds: tuple[str, ...]) -> list[Piece]:
    texts = [[line.at, line.said] for line in day.standing(*kinds)]
    return rows(pen, width, [Cell(13), Cell()], texts)


def _struck(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    """Struck entries with a line through them, then the reason and what stands instead."""
    pieces: list[Piece] = []
    for line in day.struck:
        said = rows(pen, width, [Cell(13), Cell()], [[line.at, line.said]], struck=True)
        instead = f" Now: {line.instead}" if line.instead else ""
        why = f"{line.by}: {one_line(line.reason)}.{instead}"
        kept = [Piece(piece.height, piece.paint, sticks=True) for piece in said[-1:]]
        pieces += [*said[:-1], *kept, *rows(pen, width, [Cell(13), Cell()], [["", why]])]
    return pieces


def _loads(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    figures = day.figures
    cells = [Cell(13), Cell(8), Cell(), Cell(17, 1)]
    texts = []
    for load in day.loads:
        ticket = f", ticket {load.ticket}" if load.ticket else ", NO TICKET"
        note = f", {load.note}" if load.note else ""
        what = one_line(f"{load.what}{ticket if load.way == 'in' else ''}{note}")
        texts.append([load.at, load.way, what, words(load.measure, load.amount, figures)])
    balance = [
        f"{one.material_id}: {words(one.measure, one.delivered, figures)} in, "
        f"{words(one.measure, one.used, figures)} used, "
        f"{words(one.measure, one.on_hand, figures)} on hand"
        for one in day.balances
    ]
    told = rows(pen, width, [Cell(16), Cell()], [["To date", one_line(one)] for one in balance])
    return [*rows(pen, width, cells, texts), *told]


def _hours(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    if not day.hours:
        return []
    cells = [Cell(), Cell(15, 1), Cell(15, 1), Cell(15, 1)]
    texts = [
        [
            one_line(f"{line.who}, {line.note}" if line.note else line.who),
            show_duration(line.run_min),
            show_duration(line.idle_min) if line.idle_min else "-",
            show_duration(line.down_min) if line.down_min else "-",
        ]
        for line in day.hours
    ]
    heads = column_heads(pen, width, cells, ["", "worked", "idle", "down"])
    return [heads, *rows(pen, width, cells, texts)]


def _notes(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    texts = [[line.at, line.said] for line in day.standing("note")]
    return rows(pen, width, [Cell(13), Cell()], texts)


def _photos(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    texts = [
        [
            f"{photo.number}",
            one_line(", ".join(part for part in (photo.caption, photo.where) if part)),
            photo.sha256[:8],
        ]
        for photo in day.photos
    ]
    return rows(pen, width, [Cell(5), Cell(), Cell(15, 1)], texts)


def _tomorrow(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    pieces: list[Piece] = []
    for line in day.standing("tomorrow"):
        pieces += paragraph(pen, width, clean(line.said))
    return pieces


_TOLD = frozenset(
    {
        *_OTHER_WORK,
        *("pass", "probe", "sand_placed", "grade_shot", "delivery", "spoil", "utility", "hours"),
        *("weather", "delay", "note", "photo", "tomorrow", "disposition", "struck"),
        *("signature", "day_closed", "day_reopened"),
    }
)


def _rest(pen: Pen, day: DaySheet, width: float) -> list[Piece]:
    """What no other section tells: changes of the plan, entries of a newer version."""
    kinds = tuple(dict.fromkeys(line.kind for line in day.entries if line.kind not in _TOLD))
    return _grouped(pen, day, width, kinds) if kinds else []
