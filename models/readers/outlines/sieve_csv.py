"""Sieve sheet saved as CSV: the weight or share on each sieve, or passing it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import NoReturn

from models.counted import CountedNoun
from models.readers.outlines.csv_table import read_table
from models.readers.outlines.problems import FileProblem, refuse_file
from models.readers.outlines.sieve_names import ACCEPTED, PAN, SieveNameError, opening_um

FORM = "sieve sheet"
SLACK = Fraction(1)
"""Shares may come to a hundred less or more than this, since sheets print them rounded [%];
weights may come to the weighed sample less or more than this, since some dust is lost [%]."""

MOST_SIEVES = 40
MG_PER_G = 1000
MOST_MG = 10**10

_SIEVES = {
    "sieve": ("sieve", "sieve size", "opening"),
    "sieve mm": ("sieve mm", "sieve (mm)", "opening mm", "opening (mm)", "mm"),
    "sieve um": ("sieve um", "sieve (um)", "opening um", "opening (um)", "um", "micron"),
    "sieve no": ("sieve no", "sieve no.", "no.", "us sieve", "us sieve no."),
}
_HELD = {
    "retained g": ("retained g", "retained (g)", "g retained", "grams retained", "weight g"),
    "retained %": ("retained %", "retained (%)", "% retained", "percent retained"),
    "passing %": ("passing %", "passing (%)", "% passing", "percent passing", "% finer"),
}
_VAGUE = {"retained", "passing", "weight", "mass", "%", "g", "percent", "finer"}
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class SieveSheet:
    """Weight or share on each sieve, the largest first and the pan (opening 0) last.

    ``held`` is in milligrams where the sheet gave grams, else in thousandths of a percent.
    """

    held: tuple[tuple[int, int], ...]
    form: str


@dataclass(frozen=True, slots=True)
class _Row:
    """One sieve as read: its line, its opening, and the figure beside it."""

    number: int
    um: int
    figure: Fraction


def read_sieve_csv(data: str | bytes) -> SieveSheet:
    """Read a sieve sheet; its header says in what the sieves are named and what is given.

    Columns: ``sieve`` (with a unit in each cell) or ``sieve mm``, ``sieve um``, ``sieve no``;
    and ``retained g``, ``retained %`` or ``passing %``. Weights need the pan; a row ``total``
    may give what the sample weighed.

    Raises
    ------
    PlanFileError
        If anything in it cannot be read; ``problems`` on its context lists every fault.
    """
    if not data.strip():
        _refuse("nothing", "give a header, such as sieve mm, retained g, and a row for each sieve")
    table = read_table(data, FORM, {**_SIEVES, **_HELD, **_vague()}, ())
    named = list(table.rows[0][1])
    problems = list(table.problems)
    sieve, held = _columns(named, problems)
    rows: list[_Row] = []
    total: Fraction | None = None
    unit = sieve.removeprefix("sieve").strip()
    for number, cells in table.rows:
        figure = _figure(number, held, cells[held], problems) if held else Fraction(0)
        if cells.get(sieve, "").casefold() in {"total", "sum", "sample"}:
            total = figure
            continue
        if not sieve:
            continue  # which one it is was told with the header
        try:
            rows.append(_Row(number, opening_um(cells[sieve], unit), figure))
        except SieveNameError as fault:
            place = f"row {number}, {sieve}"
            problems.append(FileProblem(place, f"{cells[sieve]!r} is {fault}", ACCEPTED))
    problems += _doubles(rows)
    if problems:
        refuse_file(FORM, problems)
    rows.sort(key=lambda row: -row.um)
    return SieveSheet(_held(rows, held, total), held)


def _vague() -> dict[str, tuple[str, ...]]:
    """Headers that leave open what is given, so that they can be told as such."""
    return {word: (word,) for word in _VAGUE if not any(word in names for names in _HELD.values())}


def _columns(named: list[str], problems: list[FileProblem]) -> tuple[str, str]:
    """The column of the sieves and that of the figures, "" for one that is not given once."""
    vague = [name for name in named if name in _VAGUE]
    if vague:
        what = "retained g, retained % or passing %"
        problems.append(FileProblem("header", f"{', '.join(vague)} alone", f"say which: {what}"))
    found: list[str] = []
    for what, names in (("sieves", _SIEVES), ("figures", _HELD)):
        here = [name for name in named if name in names]
        if len(here) > 1:
            problems.append(FileProblem("header", " and ".join(here), f"give one for the {what}"))
        elif not here and not (vague and what == "figures"):
            one_of = f"one of {', '.join(names)}"
            problems.append(FileProblem("header", f"no column of the {what}", f"give {one_of}"))
        found.append(here[0] if len(here) == 1 else "")
    return found[0], found[1]


def _figure(number: int, column: str, text: str, problems: list[FileProblem]) -> Fraction:
    """A weight or a share; 0 and a fault where there is none."""
    plain = text.removesuffix("%").removesuffix("g").strip()
    accepted = "a number from 0 up with a decimal point, such as 12.5"
    if not _NUMBER.fullmatch(plain):
        met = repr(text) if text else "nothing"
        problems.append(FileProblem(f"row {number}, {column}", met, f"give {accepted}"))
        return Fraction(0)
    figure = Fraction(plain)
    if column.endswith("%") and figure > 100 + SLACK:
        problems.append(FileProblem(f"row {number}, {column}", text, "a share is at most 100"))
    if figure * MG_PER_G > MOST_MG:
        problems.append(FileProblem(f"row {number}, {column}", text, "at most 10 tonnes is read"))
    if (figure * MG_PER_G).denominator != 1:
        problems.append(FileProblem(f"row {number}, {column}", text, "three decimals are read"))
    return figure


def _doubles(rows: list[_Row]) -> list[FileProblem]:
    first: dict[int, int] = {}
    problems: list[FileProblem] = []
    for row in rows:
        if row.um in first:
            met = f"the sieve of row {first[row.um]} again"
            problems.append(FileProblem(f"row {row.number}", met, "give each sieve once"))
        first.setdefault(row.um, row.number)
    if len(rows) > MOST_SIEVES:
        met = f"{CountedNoun(len(rows)):sieve|sieves}"
        problems.append(FileProblem("the file", met, f"at most {MOST_SIEVES} are read"))
    return problems


def _held(rows: list[_Row], column: str, total: Fraction | None) -> tuple[tuple[int, int], ...]:
    """What each sieve held back, from weights, shares held or shares passing."""
    sieves = [row for row in rows if row.um != PAN]
    if len(sieves) < 2:
        _refuse(f"{CountedNoun(len(sieves)):sieve|sieves}", "give two at least, beside the pan")
    if column == "passing %":
        return _from_passing(rows, sieves)
    if column == "retained g":
        _check_weights(rows, sieves, total)
    else:
        _check_shares(rows, total)
    return tuple((row.um, int(row.figure * MG_PER_G)) for row in rows)


def _from_passing(rows: list[_Row], sieves: list[_Row]) -> tuple[tuple[int, int], ...]:
    problems = [
        FileProblem(
            f"row {fine.number}",
            f"{_shown(fine.figure)} % passes, more than the {_shown(coarse.figure)} % of row "
            f"{coarse.number}",
            "a finer sieve lets no more pass: is this percent retained?",
        )
        for coarse, fine in zip(sieves, sieves[1:], strict=False)
        if fine.figure > coarse.figure
    ]
    problems += [
        FileProblem(
            f"row {row.number}", f"{_shown(row.figure)} % passes the pan", "give 0, or none"
        )
        for row in rows
        if row.um == PAN and row.figure
    ]
    if problems:
        refuse_file(FORM, problems)
    left = Fraction(100)
    held: list[tuple[int, int]] = []
    for row in sieves:
        held.append((row.um, int((max(left - row.figure, Fraction(0))) * MG_PER_G)))
        left = min(left, row.figure)
    return (*held, (PAN, int(left * MG_PER_G)))


def _check_weights(rows: list[_Row], sieves: list[_Row], total: Fraction | None) -> None:
    weighed = sum((row.figure for row in rows), Fraction(0))
    if len(sieves) == len(rows):
        _refuse("no pan", "give what lay in it, 0 if nothing: without it every share is too large")
    if not weighed:
        _refuse("nothing weighed", "give what each sieve and the pan held")
    if total is not None and abs(weighed - total) * 100 > SLACK * total:
        met = f"{_shown(weighed)} g on the sieves of a sample of {_shown(total)} g"
        _refuse(met, f"they may differ by {_shown(SLACK)} %: weigh again")


def _check_shares(rows: list[_Row], total: Fraction | None) -> None:
    shares = sum((row.figure for row in rows), Fraction(0))
    has_pan = any(row.um == PAN for row in rows)
    if abs(shares - 100) > SLACK:
        cause = "" if has_pan else "; the pan is missing"
        most = f"100 % within {_shown(SLACK)} % is read: is this percent passing?"
        _refuse(f"{_shown(shares)} % retained in all{cause}", most)
    if total is not None and abs(total - shares) > SLACK:
        _refuse(f"a total of {_shown(total)} % over rows of {_shown(shares)} %", "mend either")


def _refuse(met: str, accepted: str) -> NoReturn:
    refuse_file(FORM, [FileProblem("the file", met, accepted)])


def _shown(figure: Fraction) -> str:
    return f"{float(figure):.10g}"
