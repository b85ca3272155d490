"""``crewapp sieve``: read a sieve sheet of a material, judge it, and keep it in the book."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from crewapp.cli.books import book_to_read, book_to_write
from crewapp.cli.example import Example
from crewapp.commands.materials import LogSieveTest
from crewapp.handlers.loads import need_material
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.read_files import read_bytes
from crewapp.words.translate import translate_later
from models.entries.bodies.job import Material
from models.errors import CrewError
from models.queries.materials.gradings import Grading, grading_beside, work_out_sheet
from models.readers.outlines.sieve_csv import SieveSheet, read_sieve_csv
from models.science.materials.gradation import EDITIONS
from models.science.materials.sieving import grain_shares
from models.science.quality.verdict import Verdict
from models.units import round_half_even
from models.units.percent import percent_beside_limits
from models.units.rounding import show_decimal

EXAMPLES = (
    Example(
        'crewapp sieve larkfield.book papers/sieve.csv --material "slit sand"',
        translate_later("A sieve sheet, judged and kept with its material"),
    ),
)


class EditionUnknownError(CrewError, ValueError):
    """A table was named that is not held here."""

    code = "commands.edition_unknown"
    sentence = "Nothing was written: the table {edition} is not held here. Accepted: {editions}."


def run(args: argparse.Namespace) -> int:
    """Judge a sheet and write it; exit 1 where the material is out of its table."""
    if args.edition and args.edition not in EDITIONS:
        raise EditionUnknownError(edition=args.edition[:40], editions=", ".join(EDITIONS))
    sheet = read_sieve_csv(read_bytes(args.sheet, "A sieve sheet as CSV"))
    if args.dry_run:
        with book_to_read(args.book) as job:
            grading = _judge(job, args, sheet)
    else:
        with book_to_write(args.book, args.author) as job:
            grading = _judge(job, args, sheet)
            do(
                job,
                LogSieveTest(
                    material_id=args.material,
                    held=sheet.held,
                    edition=args.edition,
                    laboratory=args.laboratory,
                ),
            )
    if args.json:
        print(json.dumps(_told(grading, is_kept=not args.dry_run), ensure_ascii=False))
    else:
        _print(grading, args.book, is_kept=not args.dry_run)
    return 1 if grading.verdict is Verdict.OUT else 0


def _judge(job: OpenJob, args: argparse.Namespace, sheet: SieveSheet) -> Grading:
    material: Material = need_material(job, args.material)
    bare = work_out_sheet(dict(sheet.held), material.material_id, args.edition)
    return grading_beside(job.state, bare)


def _print(grading: Grading, book: Path, *, is_kept: bool) -> None:
    is_part = grading.verdict is Verdict.OK and grading.has_gaps
    print(f"{grading.material_id}: {grading.verdict}{' as far as measured' if is_part else ''}")
    for um, share in grading.passing.items():
        held = show_decimal(round_half_even(grading.retained[um] * 10), 1)
        print(f"  {um / 1000:g} mm: {_percent(share)} % passes, {held} % held")
    sizes = [f"D{share} {um / 1000:g} mm" for share, um in grading.sizes_um.items() if um]
    print(f"  {', '.join(sizes) or 'no grain size is reached by the sieves'}")
    for line in _lines(grading):
        print(f"  {line}")
    for sentence in grading.told:
        print(f"  {sentence}")
    print(f"Kept in {book}." if is_kept else "Nothing was written.")


def _percent(share: Any) -> str:
    return show_decimal(round_half_even(share * 10), 1)


def _lines(grading: Grading) -> Iterator[str]:
    """Bands of a sand or factors of a gravel, each with its verdict and limits."""
    for band in grading.bands:
        names = " + ".join(str(grain) for grain in band.band.grains)
        found, limits = (
            _found(band.share, band.band.low, band.band.high, " %"),
            _limits(band.band.low, band.band.high),
        )
        yield f"{names} mm: {found} {limits} {band.verdict}"
    for factor in grading.factors:
        unit = " %" if str(factor.factor).startswith("share") else ""
        found = _found(factor.found, factor.low, factor.high, unit)
        yield f"{factor.factor}: {found} {_limits(factor.low, factor.high)} {factor.verdict}"


def _found(figure: Any, low: Any, high: Any, unit: str) -> str:
    return "-" if figure is None else f"{percent_beside_limits(figure, low, high, 1)}{unit}"


def _limits(low: Any, high: Any) -> str:
    words = [f"at least {float(low):g}"] if low is not None else []
    words += [f"at most {float(high):g}"] if high is not None else []
    return f"({', '.join(words)})"


def _told(grading: Grading, *, is_kept: bool) -> dict[str, Any]:
    return {
        "material": grading.material_id,
        "edition": grading.edition,
        "verdict": str(grading.verdict),
        "passing": {str(um): float(share) for um, share in grading.passing.items()},
        "sizes_um": {f"D{share}": um for share, um in grading.sizes_um.items()},
        "grains": {str(g): float(share) for g, share in grain_shares(grading.retained).items()},
        "lines": list(_lines(grading)),
        "told": list(grading.told),
        "kept": is_kept,
    }
