"""Reads a PDF with independent programs; one that is not installed makes the test fail."""

from __future__ import annotations

import re
import subprocess
from html import unescape
from pathlib import Path
from typing import NamedTuple

MARGIN_PT = 11 * 72 / 25.4


class Word(NamedTuple):
    """One word with its box, in points from the top left of its page."""

    page: int
    left: float
    top: float
    right: float
    bottom: float
    text: str


def run(*command: str) -> str:
    """Run a program and return what it says; its failure is the test's."""
    done = subprocess.run(command, capture_output=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr.decode("utf-8", "replace")
    return done.stdout.decode("utf-8", "replace")


def text_of(path: Path) -> str:
    """All words of a PDF as they stand on the page."""
    return run("pdftotext", "-layout", str(path), "-")


def facts_of(path: Path) -> dict[str, str]:
    """What a PDF says about itself."""
    lines = (line.partition(":") for line in run("pdfinfo", "-isodates", str(path)).splitlines())
    return {name: value.strip() for name, _, value in lines}


def pages_of(path: Path) -> int:
    """Number of pages."""
    return int(facts_of(path)["Pages"])


def words_of(path: Path) -> tuple[list[Word], float, float]:
    """Every word with its box, and the size of the pages."""
    page, found, size = 0, [], (0.0, 0.0)
    number = r'="([\d.-]+)"'
    box = re.compile(
        rf"<word xMin{number} yMin{number} xMax{number} yMax{number}>(.*?)</word>", re.S
    )
    for line in run("pdftotext", "-bbox", str(path), "-").splitlines():
        if sheet := re.search(rf"<page width{number} height{number}", line):
            page, size = page + 1, (float(sheet[1]), float(sheet[2]))
        elif word := box.search(line):
            left, top, right, bottom = (float(word[n]) for n in range(1, 5))
            found.append(Word(page, left, top, right, bottom, unescape(word[5])))
    return found, *size


def outside_margins(path: Path) -> list[Word]:
    """Words that reach over a margin, by more than a rounding."""
    words, width, height = words_of(path)
    least, slack = MARGIN_PT, 0.6
    return [
        word
        for word in words
        if word.left < least - slack
        or word.right > width - least + slack
        or word.top < least - 6
        or word.bottom > height - least + 6
    ]


def unembedded(path: Path) -> list[str]:
    """Fonts that are not in the file, or whose letters can't be copied out."""
    lines = run("pdffonts", str(path)).splitlines()[2:]
    return [line for line in lines if line.split()[-5:-2] != ["yes", "yes", "yes"]]
