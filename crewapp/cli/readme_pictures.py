"""README's pictures, each with the list of what is on it: drawn from the demo, at a set time."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from crewapp.cli.books import book_to_read
from crewapp.cli.demo import make_demo
from crewapp.cli.papers.sheet import write_sheets
from crewapp.demo.folder import BOOK, FINISHED
from crewapp.handlers.asbuilt import make_as_built
from crewapp.screenshots.drawn_facts import paper_facts, write_facts
from crewapp.screenshots.window import GlassSize, NoPictureError, draw_in_window, put_picture
from models.errors import CrewError
from sync.papers.pdf.recorder import DrawnItem, record_drawing

GLASS = GlassSize(1280, 800, 149)
"""A tablet of 10 inches with coarse glass, held wide."""

DAY = "2026-05-13"
COLOURS = 64


@dataclass(frozen=True, slots=True)
class PaperPicture:
    """A page of a paper: the picture's name, how a line of that page alone begins, dots an inch."""

    name: str
    words: str
    dpi: int


DAY_SHEET = PaperPicture("day-sheet", "Page 1 of 2", 90)
AS_BUILT = PaperPicture("as-built", "Sheet 3 of", 80)


class NoPageError(CrewError, LookupError):
    """No page of a paper has the words that the picture's page is known by."""

    code = "pictures.no_page"
    sentence = "The picture {name} was not drawn: no page of {path} says {words!r}."


def draw_readme(out: Path, scratch: Path, language: str) -> list[Path]:
    """Draw README's pictures into a folder and write beside each what is on it.

    Raises
    ------
    NoPictureError
        If this machine can't draw a window or a page.
    NoPageError
        If a paper lacks the page that is shown.
    """
    make_demo(scratch / "demo", quiet=True)
    book, drawn = scratch / "demo" / BOOK, scratch / "drawn"
    drawn.mkdir()
    made = draw_in_window(book, drawn, "readme", GLASS, scratch, language, only="readme")
    for path in made:
        fewer_colours(path)
        facts = scratch / "readme" / "drawn" / f"{path.stem}.facts.json"
        facts.rename(drawn / facts.name)
    pictures = [*made, *_papers(scratch, drawn)]
    for path in pictures:
        put_picture(path.with_suffix(".facts.json"), out)
    return [put_picture(path, out) for path in pictures]


def _papers(scratch: Path, out: Path) -> Iterator[Path]:
    """Print the day sheet and the as-built, and show a page of each."""
    with book_to_read(scratch / "demo" / BOOK) as job, record_drawing() as drawn:
        sheets = write_sheets(job, DAY, scratch / "sheet")
    yield _page(DAY_SHEET, sheets, drawn, out)
    with book_to_read(scratch / "demo" / FINISHED) as job, record_drawing() as drawn:
        files = make_as_built(job, folder=str(scratch / "asbuilt")).files
    yield _page(AS_BUILT, files, drawn, out)


def _page(picture: PaperPicture, files: Sequence[Path], drawn: list[DrawnItem], out: Path) -> Path:
    """Show the page that has the picture's words, and write what is on it."""
    pdf = next(path for path in files if path.suffix == ".pdf")
    pages = [one.page for one in drawn if one.words.startswith(picture.words)]
    if not pages:
        raise NoPageError(name=picture.name, path=pdf.name, words=picture.words)
    path = out / f"{picture.name}.png"
    _rasterize(pdf, pages[0], picture.dpi, path)
    with Image.open(path) as image:
        size_mm = (image.width / picture.dpi * 25.4, image.height / picture.dpi * 25.4)
    fewer_colours(path)
    write_facts(path.with_suffix(".facts.json"), paper_facts(drawn, pages[0], size_mm))
    return path


def _rasterize(pdf: Path, page: int, dpi: int, path: Path) -> None:
    """Draw one page of a PDF with poppler's own program."""
    command = ["pdftoppm", "-png", "-singlefile", "-r", str(dpi)]
    command += ["-f", str(page), "-l", str(page), str(pdf), str(path.with_suffix(""))]
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except OSError as fault:
        raise NoPictureError(tablet=path.name, why=f"pdftoppm: {fault.strerror}") from fault
    if done.returncode:
        raise NoPictureError(tablet=path.name, why=done.stderr.strip())


def fewer_colours(path: Path) -> None:
    """Keep a picture small: 64 colours, rare ones among them, are enough for ink on a page."""
    with Image.open(path) as image:
        drawn = image.convert("RGBA")
    page = Image.new("RGBA", drawn.size, "white")  # what a page leaves open is white
    page.alpha_composite(drawn)
    method = Image.Quantize.MAXCOVERAGE
    few = page.convert("RGB").quantize(COLOURS, method=method, dither=Image.Dither.NONE)
    few.save(path, optimize=True)
