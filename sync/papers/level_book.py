"""A reduced page of level notes, as a level book prints it and as plain facts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from models.readers.level_notes import ClosingReport, LevelBook
from models.science.levelling.level_net import AdjustedNet
from models.science.levelling.level_run import LevelLine
from models.science.quality.verdict import Verdict
from models.units import STEP_NM, LengthStyle, LengthUnit, show_length, show_length_beside_limits

_HEADS = ("point", "BS", "HI", "IS", "FS", "rise", "fall", "elevation")
_ADJUSTED_HEADS = ("correction", "adjusted")


def build_text(book: LevelBook) -> str:
    """Print the page as a level book does, with its sums and checks at the foot."""
    style = _reading_style(book)
    heads = [*_HEADS, *(_ADJUSTED_HEADS if book.adjusted_by else ()), "remarks"]
    rows = [_cells(book, index, style) for index in range(len(book.run.lines))]
    table = _align([heads, *rows, _sums(book, style, len(heads))])
    table.insert(1, "-" * max(len(line) for line in table))
    table.insert(-1, table[1])
    name = "metres" if style is LengthStyle.M_1000 else "feet"
    top = f"Level notes in {name}. EC = computed - known; correction = -EC."
    return "\n".join([top, "", *table, "", *_checks(book, style)]) + "\n"


def build_facts(book: LevelBook) -> dict[str, object]:
    """Give the same facts as plain values, every length in whole nanometres."""
    run = book.run
    return {
        "unit": str(book.unit),
        "sign": "EC = computed - known; correction = -EC",
        "lines": [_line_facts(book, index) for index in range(len(run.lines))],
        "sums": {
            "bs_nm": run.sum_bs_nm,
            "fs_nm": run.sum_fs_nm,
            "rise_nm": run.sum_rise_nm,
            "fall_nm": run.sum_fall_nm,
            "last_less_first_nm": run.gain_nm,
        },
        "setups": run.setups,
        "distance_nm": run.distance_nm,
        "checks": {"arithmetic": run.page_agrees, "rise_and_fall": run.rise_and_fall_agrees},
        "allowance": {"name": book.allowance.name, "source": book.allowance.source},
        "closings": [_closing_facts(closing) for closing in book.closings],
        "adjusted_by": None if book.adjusted_by is None else str(book.adjusted_by),
        **({} if book.net is None else {"least_squares": _net_facts(book.net)}),
        "sound": book.is_sound,
    }


def _net_facts(net: AdjustedNet) -> dict[str, object]:
    """What least squares say of the page, lengths in nanometres."""
    worst = net.worst
    return {
        "freedom": net.freedom,
        "unit_weight": net.unit_weight,
        "bounds": list(net.bounds) if net.freedom else None,
        "sigma_nm": {point: round(sigma) for point, sigma in net.sigmas_nm.items()},
        "worst": None
        if worst is None
        else {
            "setup": worst.sight.setup,
            "point": worst.sight.point,
            "residual_nm": round(worst.residual_nm),
            "normalised": worst.normalised,
        },
    }


def _net_lines(net: AdjustedNet, style: LengthStyle) -> list[str]:
    """What least squares say of the page, in sentences."""
    fine = _fine(style)
    sigmas = ", ".join(
        f"{point} {_shown(round(sigma), fine)}" for point, sigma in net.sigmas_nm.items() if sigma
    )
    lines = [f"Standard deviations by what readings are good to: {sigmas}."] if sigmas else []
    if net.unit_weight is not None:
        low, high = net.bounds
        word = Verdict.OK if net.is_as_stated else "CHECK"
        lines.append(
            f"Standard error of unit weight {net.unit_weight:.2f}, between {low:.2f} and "
            f"{high:.2f} at 95 % with {net.freedom} to spare: {word}"
        )
    if net.worst is not None:
        one = net.worst
        lines.append(
            f"Largest residual for its size: {_signed(round(one.residual_nm), fine)} on "
            f"{one.sight.point} from set-up {one.sight.setup}, {abs(one.normalised or 0):.1f} "
            "standard deviations"
        )
    return lines


def _line_facts(book: LevelBook, index: int) -> dict[str, object]:
    """One line of the page as plain values."""
    line = book.run.lines[index]
    return {
        "row": book.rows[index],
        "point": line.sight.point,
        "setup": line.setup,
        "bs_nm": line.sight.bs_nm,
        "hi_nm": line.hi_nm,
        "is_nm": line.sight.is_nm,
        "fs_nm": line.sight.fs_nm,
        "rise_nm": _rise(line),
        "fall_nm": _fall(line),
        "known_nm": line.sight.known_nm,
        "distance_nm": line.sight.distance_nm,
        "elevation_nm": line.elevation_nm,
        "correction_nm": book.corrections_nm[index] if book.adjusted_by else None,
        "adjusted_nm": book.adjusted_nm[index] if book.adjusted_by else None,
        "remarks": line.sight.remarks,
    }


def _closing_facts(closing: ClosingReport) -> dict[str, object]:
    """One closing as plain values."""
    return {
        "row": closing.row,
        "point": closing.point,
        "known_nm": closing.known_nm,
        "computed_nm": closing.computed_nm,
        "ec_nm": closing.ec_nm,
        "setups": closing.setups,
        "distance_nm": closing.distance_nm,
        "allowed_nm": closing.allowed_nm,
        "verdict": str(closing.verdict),
    }


def _reading_style(book: LevelBook) -> LengthStyle:
    """Hundredths of a foot where every reading is whole in them, else thousandths."""
    if book.unit not in (LengthUnit.FT, LengthUnit.IN):
        return LengthStyle.M_1000
    read = [
        nm
        for line in book.run.lines
        for nm in (line.sight.bs_nm, line.sight.elevation_reading_nm, line.sight.known_nm)
        if nm is not None
    ]
    is_whole = all(nm % STEP_NM[LengthStyle.FT_100] == 0 for nm in read)
    return LengthStyle.FT_100 if is_whole else LengthStyle.FT_1000


def _fine(style: LengthStyle) -> LengthStyle:
    """The style corrections are shown in: thousandths, since they are small."""
    return LengthStyle.FT_1000 if style is LengthStyle.FT_100 else style


def _rise(line: LevelLine) -> int | None:
    """Rise over the line before, None where it falls."""
    return line.rise_nm if line.rise_nm is not None and line.rise_nm >= 0 else None


def _fall(line: LevelLine) -> int | None:
    """Fall under the line before as a positive figure, None where it rises."""
    return -line.rise_nm if line.rise_nm is not None and line.rise_nm < 0 else None


def _shown(nm: int | None, style: LengthStyle) -> str:
    """A figure without its unit; blank where there is none."""
    return "" if nm is None else show_length(nm, style, unit=False)


def _signed(nm: int, style: LengthStyle) -> str:
    """A figure with its sign, plus included."""
    shown = _shown(nm, style)
    return shown if nm <= 0 else f"+{shown}"


def _cells(book: LevelBook, index: int, style: LengthStyle) -> list[str]:
    """One printed line."""
    line = book.run.lines[index]
    sight = line.sight
    figures = (sight.bs_nm, line.hi_nm, sight.is_nm, sight.fs_nm, _rise(line), _fall(line))
    cells = [sight.point, *(_shown(nm, style) for nm in figures), _shown(line.elevation_nm, style)]
    if book.adjusted_by:
        cells.append(_signed(book.corrections_nm[index], _fine(style)))
        cells.append(_shown(book.adjusted_nm[index], _fine(style)))
    return [*cells, " ".join(sight.remarks.split())]


def _sums(book: LevelBook, style: LengthStyle, width: int) -> list[str]:
    """The line of sums under the columns."""
    run = book.run
    cells = ["sum", _shown(run.sum_bs_nm, style), "", "", _shown(run.sum_fs_nm, style)]
    cells += [_shown(run.sum_rise_nm, style), _shown(run.sum_fall_nm, style)]
    return cells + [""] * (width - len(cells))


def _align(rows: Sequence[Sequence[str]]) -> list[str]:
    """Set columns out: names and remarks to the left, figures to the right."""
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return ["  ".join(_set_out(row, widths)).rstrip() for row in rows]


def _set_out(row: Sequence[str], widths: Sequence[int]) -> Iterable[str]:
    """Pad each cell of a row to its column."""
    last = len(row) - 1
    for column, (cell, width) in enumerate(zip(row, widths, strict=True)):
        yield cell.ljust(width) if column in (0, last) else cell.rjust(width)


def _checks(book: LevelBook, style: LengthStyle) -> list[str]:
    """The checks at the foot of the page, each with its verdict."""
    run = book.run
    gain = _signed(run.gain_nm, style)
    page = _signed(run.sum_bs_nm - run.sum_fs_nm, style)
    rises = _signed(run.sum_rise_nm - run.sum_fall_nm, style)
    lines = [
        f"Arithmetic: sum BS - sum FS = {page}; last - first = {gain}: {_word(run.page_agrees)}",
        f"Rise and fall: sum rise - sum fall = {rises}; every elevation agrees: "
        f"{_word(run.rise_and_fall_agrees)}",
    ]
    lines += [_closing_line(book, closing, style) for closing in book.closings]
    if not book.closings:
        lines.append("No known elevation was met again, so the readings themselves are unchecked.")
    if book.adjusted_by:
        lines.append(f"Adjusted by {book.adjusted_by}; setups: {run.setups}.")
    if book.net is not None:
        lines += _net_lines(book.net, style)
    if any(closing.verdict is Verdict.OUT for closing in book.closings):
        lines.append("A run that is OUT holds a blunder: level it again, do not rely on adjusting.")
    return lines


def _closing_line(book: LevelBook, closing: ClosingReport, style: LengthStyle) -> str:
    """One closing in a sentence."""
    missed = (
        f"Closing on {closing.point} (row {closing.row}): "
        f"computed {_shown(closing.computed_nm, style)}, known {_shown(closing.known_nm, style)}, "
        f"EC {_signed(closing.ec_nm, style)}"
    )
    if closing.allowed_nm is None:
        return f"{missed}; {book.allowance.name} needs the distance of every foresight: CHECK"
    allowed = show_length_beside_limits(closing.allowed_nm, [abs(closing.ec_nm)], _fine(style))
    return f"{missed}; allowed {allowed} by {book.allowance.name}: {closing.verdict}"


def _word(agrees: bool) -> str:
    """Status word of a check."""
    return str(Verdict.OK if agrees else Verdict.OUT)
