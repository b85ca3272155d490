"""Draws the parts of the program as boxes on their floors: python -m tests.house.draw_house.

Everything comes from arrows.tsv, so that the picture changes only when the architecture does.
A part stands above what it leans on; arrows lead to the floor right below, since arrows over
more floors would cover what they join. A box names the folders in it: the larger, the more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from html import escape
from math import ceil
from pathlib import Path

from tests.house.test_arrows import FREE, FREE_IN_CREWAPP, table
from tests.house.tree import PACKAGES, ROOT, is_within, modules

PICTURE = ROOT / "fixtures" / "house" / "house.svg"
TITLE = "The parts of crewapp and what each leans on"

# In the picture's own units; shown at page width one is about a pixel.
COLUMNS = {"models": (16, 300), "sync": (340, 290), "crewapp": (654, 290)}
WIDTH, MARGIN, HEAD = 960, 16, 44
GAP, BETWEEN, PAD = 26, 10, 8
NAME, SMALL = 14, 12
LINE = 15
NARROW = 110
NOTES_WIDE = 610
FILLS = {"models": "#ffffff", "sync": "#f2f2f2", "crewapp": "#e6e6e6"}
# Of the widest font that a viewer may put for "sans-serif", so that text fits in any.
EM, BOLD_EM = 0.62, 0.72


@dataclass(frozen=True)
class Box:
    """A part of the program: where it lies, and the lines of small text under its name."""

    part: str
    x: int
    y: int
    width: int
    height: int
    lines: tuple[str, ...]


@cache
def parts() -> dict[str, tuple[str, ...]]:
    """Return the folders inside each part; a part is two names deep, as models.book is."""
    held: dict[str, list[str]] = {}
    for row in table():
        if row not in (*PACKAGES, *FREE) and not is_within(row, "crewapp.words"):
            held.setdefault(part_of(row), []).append(row.removeprefix(part_of(row)).strip("."))
    return {part: tuple(filter(None, names)) for part, names in held.items() if part not in lone()}


@cache
def lone() -> tuple[str, ...]:
    """Return the single modules that import nothing of ours; as boxes they would say little."""
    return tuple(
        name
        for name, row in table().items()
        if name.count(".") == 1
        and name not in FREE
        and not row.may_import
        and modules()[name].name != "__init__.py"
    )


def part_of(row: str) -> str:
    """Return the part to which a row belongs."""
    return ".".join(row.split(".")[:2])


def package_of(part: str) -> str:
    """Return the package that a part is in."""
    return part.partition(".")[0]


@cache
def leans_on(part: str) -> frozenset[str]:
    """Return the other parts that a part may import."""
    rows = [row for name, row in table().items() if is_within(name, part)]
    targets = {part_of(target) for row in rows for target in row.may_import}
    return frozenset(targets & parts().keys() - {part})


@cache
def height_over_ground(part: str) -> int:
    """Return how many parts stand on each other below a part, by the longest way."""
    return 1 + max((height_over_ground(target) for target in leans_on(part)), default=-1)


@cache
def floor_of(part: str) -> int:
    """Return the floor of a part: what leans on nothing stands right below its lowest user."""
    users = [height_over_ground(one) for one in parts() if part in leans_on(one)]
    return height_over_ground(part) if leans_on(part) or not users else min(users) - 1


def wide(text: str, size: int, em: float = EM) -> int:
    """Return the room that a text may need."""
    return ceil(len(text) * size * em)


def wrapped(names: tuple[str, ...], room: int, between: str = "  ") -> tuple[str, ...]:
    """Return names one after another in lines that fit a width."""
    lines: list[str] = []
    for name in names:
        longer = f"{lines[-1]}{between}{name}" if lines else name
        if lines and wide(longer, SMALL) <= room:
            lines[-1] = longer
        else:
            lines.append(name)
    return tuple(lines)


def own_name(part: str) -> str:
    """Return the name of a part inside its package."""
    return part.partition(".")[2]


def box_of(part: str, x: int, y: int, room: int) -> Box:
    """Return the box of a part, as wide as its text needs in that room."""
    lines = wrapped(parts()[part], room - 2 * PAD)
    needs = [wide(own_name(part), NAME, BOLD_EM), *(wide(one, SMALL) for one in lines)]
    return Box(part, x, y, 2 * PAD + max(needs), 26 + LINE * len(lines), lines)


def boxes_side_by_side(package: str, floor: int, y: int) -> Iterator[Box]:
    """Yield the boxes of a package on a floor; the one with most folders gets the room left."""
    x, width = COLUMNS[package]
    here = [one for one in parts() if package_of(one) == package and floor_of(one) == floor]
    here.sort(key=lambda one: (len(parts()[one]), one))
    for number, part in enumerate(here, 1):
        room = COLUMNS[package][0] + width - x if number == len(here) else NARROW
        yield (box := box_of(part, x, y, room))
        x += box.width + BETWEEN


@cache
def laid_out() -> tuple[tuple[Box, ...], tuple[int, ...], int]:
    """Return the boxes, where each floor ends, lowest first, and the picture's height."""
    boxes: list[Box] = []
    ends: list[int] = []
    y = HEAD
    for floor in range(max(map(floor_of, parts())), -1, -1):
        here = [box for package in COLUMNS for box in boxes_side_by_side(package, floor, y)]
        boxes += here
        ends.append(y + max(box.height for box in here))
        y = ends[-1] + GAP
    return tuple(boxes), tuple(reversed(ends)), ends[-1] + MARGIN


def text(x: int, y: int, words: str, size: int, more: str = "") -> str:
    """Return a line of text."""
    return f'<text x="{x}" y="{y}" font-size="{size}"{more}>{escape(words)}</text>'


def box_drawn(box: Box) -> Iterator[str]:
    """Yield a box, its name and its folders."""
    fill = FILLS[package_of(box.part)]
    place = f'x="{box.x}" y="{box.y}" width="{box.width}" height="{box.height}"'
    yield f'<rect {place} rx="3" fill="{fill}" stroke="#777"/>'
    yield text(box.x + PAD, box.y + 18, own_name(box.part), NAME, ' font-weight="bold"')
    for number, line in enumerate(box.lines, 1):
        yield text(box.x + PAD, box.y + 18 + LINE * number, line, SMALL, ' xml:space="preserve"')


def arrows(boxes: tuple[Box, ...], ends: tuple[int, ...]) -> Iterator[tuple[str, str, str]]:
    """Yield each arrow to the floor below: from, to, and its way."""
    by_part = {box.part: box for box in boxes}
    pairs = [
        (part, target)
        for part in by_part
        for target in sorted(leans_on(part))
        if floor_of(target) == floor_of(part) - 1
    ]
    for part, target in pairs:
        above, below = by_part[part], by_part[target]
        out = sorted((one for a, one in pairs if a == part), key=lambda one: by_part[one].x)
        into = sorted((one for one, b in pairs if b == target), key=lambda one: by_part[one].x)
        start = above.x + above.width * (out.index(target) + 1) // (len(out) + 1)
        end = below.x + below.width * (into.index(part) + 1) // (len(into) + 1)
        turn = ends[floor_of(part)]
        way = f"M{start} {above.y + above.height}V{turn}L{end} {below.y - 8}v7"
        yield part, target, way


def notes() -> tuple[str, ...]:
    """Return what the picture does not draw, in sentences."""
    return (
        f"{len(parts())} parts; each stands above the parts that it may import.",
        "An arrow leads to the floor right below; arrows.tsv has those over more floors.",
        f"Under all: {', '.join(FREE)}.",
        f"Under all of crewapp: {', '.join(FREE_IN_CREWAPP)}.",
        f"Single modules that import nothing: {', '.join(lone())}.",
    )


def drawn() -> str:
    """Return the picture as SVG."""
    boxes, ends, height = laid_out()
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" '
        'aria-labelledby="title about" font-family="sans-serif" fill="#111">',
        f'<title id="title">{TITLE}</title>',
        f'<desc id="about">{escape(" ".join(notes()))}</desc>',
        '<defs><marker id="tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" '
        'markerHeight="7" orient="auto"><path d="M0 1L7 4L0 7" fill="none" stroke="#555"/>'
        "</marker></defs>",
        f'<rect width="{WIDTH}" height="{height}" fill="#fff"/>',
    ]
    for package, (left, _) in COLUMNS.items():
        top = min(box.y for box in boxes if package_of(box.part) == package)
        lines.append(text(left, top - 12, package, 18, ' font-weight="bold"'))
    for _, _, way in arrows(boxes, ends):
        lines.append(f'<path d="{way}" fill="none" stroke="#555" marker-end="url(#tip)"/>')
    for box in boxes:
        lines += box_drawn(box)
    words = [line for note in notes() for line in wrapped(tuple(note.split()), NOTES_WIDE, " ")]
    for number, line in enumerate(words):
        lines.append(text(MARGIN, 28 + (LINE + 3) * number, line, SMALL))
    return "\n".join([*lines, "</svg>", ""])


def draw(path: Path = PICTURE) -> None:
    """Write the picture."""
    path.write_text(drawn(), encoding="utf-8")


if __name__ == "__main__":
    draw()
