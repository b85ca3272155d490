"""Photos as pages: each picture whose file is there, with its caption and digest."""

from __future__ import annotations

import io
from collections.abc import Iterator
from functools import partial

from sync.papers.asbuilt.features.feature_types import AsBuilt, PhotoTaken
from sync.papers.asbuilt.pages.page_types import HEAD_MM, Frame, Page
from sync.papers.asbuilt.pages.photo_files import PhotoPrints
from sync.papers.asbuilt.plans.paper_sizes import MARGIN_MM
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, fit_text, wrap
from sync.papers.wording.measures import plain_day
from sync.papers.wording.safe_text import single_line
from sync.photo_copies import PhotoCopy

GAP_MM = 5.0
WORDS_MM = 13.0
LEAST_WIDE_MM = 78.0

Shown = tuple[int, PhotoTaken]


def photo_pages(frame: Frame, job: AsBuilt, prints: PhotoPrints) -> Iterator[Page]:
    """Pages of the pictures whose files are there; the others are in the table of photos alone."""
    shown = [
        (number, photo)
        for number, photo in enumerate(job.photos, start=1)
        if prints.print_of(photo.file_name) is not None
    ]
    columns, rows = grid_of(frame)
    each = columns * rows
    for start in range(0, len(shown), each):
        part = shown[start : start + each]
        name = f"Photos {part[0][0]} to {part[-1][0]}" if len(part) > 1 else f"Photo {part[0][0]}"
        yield Page(name, partial(_paint, frame=frame, shown=part, prints=prints, job=job))


def not_printed(job: AsBuilt, prints: PhotoPrints) -> str:
    """Sentences on photos that are not printed, and why; empty where all are."""
    made = [(n, prints.print_of(p.file_name)) for n, p in enumerate(job.photos, start=1)]
    gone = [f"{number}" for number, print_ in made if print_ is None]
    told = []
    if gone:
        told.append(
            f"Not printed: {', '.join(gone)}. No file with that digest lay beside the book when "
            "this was made: it was not there, or was changed since."
        )
    unfit = [f"{number} ({why})" for number, why in made if isinstance(why, str)]
    if unfit:
        told.append(f"Not printed, since they can't be read as pictures: {', '.join(unfit)}.")
    return " ".join(told)


def grid_of(frame: Frame) -> tuple[int, int]:
    """Pictures side by side and one below another on a page."""
    columns = int((frame.sheet.inside + GAP_MM) // (LEAST_WIDE_MM + GAP_MM))
    wide = (frame.sheet.inside - GAP_MM * (columns - 1)) / columns
    rows = max(1, round((frame.sheet.tall - HEAD_MM) / (wide * 0.75 + WORDS_MM)))
    return columns, rows


def _paint(
    pen: PdfPen, *, frame: Frame, shown: list[Shown], prints: PhotoPrints, job: AsBuilt
) -> None:
    frame.running_head(pen, "As built: photos")
    columns, rows = grid_of(frame)
    wide = (frame.sheet.inside - GAP_MM * (columns - 1)) / columns
    high = (frame.sheet.tall - HEAD_MM) / rows
    for place, (number, photo) in enumerate(shown):
        left = MARGIN_MM + place % columns * (wide + GAP_MM)
        top = MARGIN_MM + HEAD_MM + place // columns * high
        _picture(pen, prints.print_of(photo.file_name), left, top, wide, high - WORDS_MM)
        _words(pen, number, photo, job, left, top + high - WORDS_MM, wide)


def _picture(
    pen: PdfPen, picture: PhotoCopy | str | None, left: float, top: float, wide: float, high: float
) -> None:
    if not isinstance(picture, PhotoCopy):
        pen.frame(left, top, wide, high, 0.25)
        told = f"Its file can't be read as a picture: {picture}."
        for place, line in enumerate(wrap(pen, told, wide - 6, BODY_PT)):
            pen.write(left + 3, top + 6 + 3.2 * place, line, BODY_PT)
        return
    per_px = min(wide / picture.width_px, high / picture.height_px)
    size = (picture.width_px * per_px, picture.height_px * per_px)
    pen.pdf.image(
        io.BytesIO(picture.jpeg), left, top + high - size[1], size[0], size[1], alt_text="photo"
    )


def _words(
    pen: PdfPen, number: int, photo: PhotoTaken, job: AsBuilt, left: float, top: float, wide: float
) -> None:
    said = ", ".join(part for part in (photo.caption or "no caption", photo.where) if part)
    lines = wrap(pen, single_line(f"Photo {number}. {said}"), wide, BODY_PT)
    for place, line in enumerate(lines[:2]):
        cut = place == 1 and len(lines) > 2
        shown = fit_text(pen, f"{line} {lines[2]}", wide, BODY_PT) if cut else line
        pen.write(left, top + 3.2 + 3.0 * place, shown, BODY_PT)
    digest = f"{plain_day(photo.day, job.is_us)}, {photo.author}; SHA-256 {photo.sha256[:16]}..."
    base = top + 3.2 + 3.0 * min(2, len(lines))
    pen.write(left, base, fit_text(pen, single_line(digest), wide, BODY_PT), BODY_PT)
