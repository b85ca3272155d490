"""The office's page: whole by itself, legible in a browser and on paper, every text escaped."""

from __future__ import annotations

import re
import unicodedata
import xml.etree.ElementTree as ET
from collections import Counter
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from models.entries.tablet_code import code_of
from sync.office.database import Office
from sync.office.figure_tables import refresh_index
from sync.office.plots import FILLS, INK, Series, columns, nice_scale, rows
from sync.office.report import OfficeReport, read_report
from sync.office.report_page import build_page
from tests.sync.office.browser import dump, picture, printed
from tests.sync.office.test_figure_tables import worked
from tests.sync.office.written import KEY, NOON_MS, OTHER_KEY, STREAM, written

EVIL = '</td><script>document.title="taken"</script><img src=x onerror=alert(1)>&amp;"\''


@pytest.fixture(scope="module")
def report(tmp_path_factory: pytest.TempPathFactory) -> OfficeReport:
    """Two jobs, one with a name that would be markup if it could."""
    with Office.open(str(tmp_path_factory.mktemp("office") / "o.db"), make=True) as office:
        office.source_of(KEY).import_rows(written(worked()))
        office.source_of(OTHER_KEY).import_rows(written(worked(200, EVIL)))
        refresh_index(office, NOON_MS)
        return read_report(office)


@pytest.fixture(scope="module")
def page(report: OfficeReport, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page as a file."""
    path = tmp_path_factory.mktemp("page") / "report.html"
    path.write_bytes(build_page(report))
    return path


@pytest.fixture(scope="module")
def seen(page: Path) -> str:
    """The page as a browser understood it."""
    return dump(page)


class Elements(HTMLParser):
    """Counts elements, and keeps the text outside of style and what attributes point to."""

    def __init__(self) -> None:
        super().__init__()
        self.met: Counter[str] = Counter()
        self.pointers: list[str] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.met[tag] += 1
        self.pointers += [f"{tag} {name}" for name, _ in attrs if name in {"src", "href"}]
        self.pointers += [f"{tag} {name}" for name, _ in attrs if name.startswith("on")]

    def handle_data(self, data: str) -> None:
        """Note words."""
        self.words.append(data)


def read(text: str) -> Elements:
    """Take a page apart."""
    found = Elements()
    found.feed(text)
    return found


def test_a_browser_makes_of_it_what_it_says(page: Path, seen: str) -> None:
    """The browser keeps every element as written: tables, four drawings, no script, no pointer."""
    ours, theirs = read(page.read_text("utf-8")), read(seen)

    assert theirs.met == ours.met
    assert (theirs.met["svg"], theirs.met["table"], theirs.met["script"]) == (4, 9, 0)
    assert theirs.met["img"] == 0
    assert ours.pointers == theirs.pointers == []
    assert EVIL in "".join(theirs.words)
    assert "Office report, all days" in "".join(theirs.words)


def test_nothing_may_be_fetched_or_run(page: Path) -> None:
    """The page itself forbids both, whatever should ever get into it."""
    text = page.read_text("utf-8")

    assert "default-src &#x27;none&#x27;" in text
    assert "<script" not in text.lower()
    assert (
        re.findall(r"(?:url\(|@import|https?://)[^\"]*", text) == ["http://www.w3.org/2000/svg"] * 4
    )


def test_figures_stand_on_it(seen: str) -> None:
    """What was worked out by hand stands in the tables and in the drawings' words."""
    words = unescape(seen)

    for told in ("Green 7", "2 ft", "3 ft", "2.62 yd³", "26.16 yd³", "2026-W22", "1.5"):
        assert told in words
    assert "1 of 2" in words  # probes right the first time, of two
    assert f"Wren <small>{code_of(STREAM)}</small>" in words
    assert "Pass A, line S1" in words


def test_it_is_drawn(page: Path, tmp_path: Path) -> None:
    """Dark and light fills of the bars and black words reach the glass, on white."""
    picture(page, tmp_path / "page.png")
    with Image.open(tmp_path / "page.png") as drawn:
        counted = drawn.convert("RGB").getcolors(1 << 24)
    assert counted is not None
    colours = {colour: count for count, colour in counted}

    assert colours[(255, 255, 255)] > 1_000_000
    for fill in (*FILLS[:2], INK):
        assert colours.get(tuple(bytes.fromhex(fill[1:])), 0) > 200


def test_it_prints(page: Path, tmp_path: Path) -> None:
    """On paper all of it is there: no table is cut off at the side, and the evil name is words."""
    printed(page, tmp_path / "page.pdf")

    pages = PdfReader(tmp_path / "page.pdf").pages
    text = unicodedata.normalize("NFKC", "".join(one.extract_text() for one in pages))

    assert "machine" in text
    assert "Open flags, worst first" in text
    assert "onerror" in text


def luminance(colour: str) -> float:
    """Relative luminance of a colour as WCAG 2 defines it."""
    parts = [value / 255 for value in bytes.fromhex(colour[1:])]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast of two colours as WCAG 2 defines it."""
    high, low = sorted([luminance(one), luminance(other)], reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast() -> None:
    """Words reach 7:1 on white; fills differ without colour, and each has an outline that shows."""
    assert contrast(INK, "#ffffff") >= 7
    assert contrast(FILLS[0], FILLS[1]) >= 3
    assert contrast(FILLS[1], FILLS[2]) >= 2
    assert all(contrast(INK, fill) >= 1.5 for fill in FILLS)
    assert contrast(INK, FILLS[2]) >= 7


def test_the_same_report_gives_the_same_bytes(report: OfficeReport) -> None:
    """Nothing of the clock or of chance is on the page."""
    assert build_page(report) == build_page(report)


def test_a_page_of_nothing() -> None:
    """An office without jobs has a page too."""
    empty = OfficeReport("", "", True, (), (), (), ())

    assert b"Nothing stands open" in build_page(empty)


def test_bars_are_to_scale() -> None:
    """The heights of two bars are in the ratio of their values, and both end on one foot."""
    drawn = ET.fromstring(columns("t", ["a", "b"], [Series("one", [10.0, 40.0])], "ft"))
    bars = [bar for bar in drawn.iter() if bar.tag.endswith("rect")][1:]
    high = [float(bar.get("height", 0)) for bar in bars]
    foot = {round(float(bar.get("y", 0)) + float(bar.get("height", 0)), 1) for bar in bars}

    assert abs(high[1] / high[0] - 4) < 0.01
    assert len(foot) == 1


def test_names_too_long_for_a_drawing() -> None:
    """A long name is cut and kept whole in the words that a pointer shows."""
    drawn = str(rows("t", ["n" * 90], [Series("one", [0.0])], ""))

    assert "n" * 90 in drawn
    assert f">{'n' * 19}...<" in drawn


@pytest.mark.parametrize("most", [0, 1e-9, 0.3, 1, 7, 99.9, 100, 12345.6, 9.2e18])
def test_a_scale_holds_the_most(most: float) -> None:
    """The last mark reaches the most, and there are few enough to read."""
    marks = nice_scale(most)

    assert marks[-1] >= most
    assert 2 <= len(marks) <= 8
