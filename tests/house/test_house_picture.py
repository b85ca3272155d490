"""The picture of the house is the table of arrows, drawn; a reader can read all of it."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations

from tests.house.draw_house import (
    BOLD_EM,
    COLUMNS,
    NAME,
    PAD,
    PICTURE,
    SMALL,
    Box,
    arrows,
    drawn,
    floor_of,
    laid_out,
    lone,
    own_name,
    part_of,
    parts,
    wide,
)
from tests.house.test_arrows import FREE, table
from tests.house.tree import PACKAGES, is_within


def overlaps(boxes: Iterable[Box]) -> list[tuple[str, str]]:
    """Return the boxes that lie over each other."""
    return [
        (a.part, b.part)
        for a, b in combinations(boxes, 2)
        if a.x < b.x + b.width
        and b.x < a.x + a.width
        and a.y < b.y + b.height
        and b.y < a.y + a.height
    ]


def clipped(boxes: Iterable[Box]) -> list[str]:
    """Return the boxes that are too narrow for their text, or leave their column."""
    lines = {box: [(own_name(box.part), NAME, BOLD_EM)] for box in boxes}
    for box, held in lines.items():
        held += [(line, SMALL, 0.6) for line in box.lines]
    return [
        box.part
        for box, held in lines.items()
        if any(wide(*line) + 2 * PAD > box.width + 1 for line in held)
        or box.x + box.width > sum(COLUMNS[box.part.partition(".")[0]])
    ]


def name_in_box(row: str) -> str:
    """Return the name by which the box of its part has a row."""
    return row.removeprefix(part_of(row)).strip(".") or own_name(row)


def test_the_picture_is_drawn_anew_from_the_table() -> None:
    """Drawn again it has the same bytes; python -m tests.house.draw_house renews it."""
    assert PICTURE.read_text("utf-8") == drawn()


def test_every_row_is_in_the_picture() -> None:
    """Each folder of the table is a box, a name in a box, or a name beside the boxes."""
    boxes = laid_out()[0]
    beside = {*FREE, *lone(), "crewapp.words"}
    in_boxes = {box.part: {own_name(box.part), *" ".join(box.lines).split()} for box in boxes}
    texts = ET.fromstring(drawn()).findall("{http://www.w3.org/2000/svg}text")
    words = {word.strip(".,") for one in texts for word in (one.text or "").split()}
    inner = set(table()) - beside - {*PACKAGES, "crewapp.words.locale"}

    assert beside - words == set()
    assert [row for row in inner if name_in_box(row) not in in_boxes[part_of(row)]] == []
    assert set().union(*in_boxes.values()) - words == set()


def test_boxes_lie_apart_and_hold_their_text() -> None:
    """No box lies over another, none leaves its column, and the widest font fits in each."""
    boxes = laid_out()[0]

    assert overlaps(boxes) == []
    assert clipped(boxes) == []


def test_a_bad_drawing_is_seen() -> None:
    """Planted: a box that lies over its neighbour, and one too narrow for its name."""
    first, second, *_ = laid_out()[0]

    assert overlaps([first, replace(second, x=first.x, y=first.y + 1)]) != []
    assert clipped([replace(first, width=20)]) == [first.part]


def test_arrows_lead_to_the_floor_below() -> None:
    """Each joins neighbours, as the table has them, and whoever leans on anything has a floor."""
    boxes, ends, _ = laid_out()

    for part, target, _ in arrows(boxes, ends):
        rows = [row for name, row in table().items() if is_within(name, part)]
        assert floor_of(part) == floor_of(target) + 1
        assert any(is_within(one, target) for row in rows for one in row.may_import)
    assert {box.part for box in boxes} == parts().keys()
