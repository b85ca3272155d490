"""Every count is written one way: with its noun, in the form that the number takes."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache

import pytest

from crewapp.words import translate as wording
from models.counted import with_counts
from tests.house.tree import ROOT, syntax

FOLDERS = ("models", "sync", "crewapp")
COUNTED = re.compile(r"\{(\w+):(!?)([^{}|]+)\|([^{}|]+)\}")
NOUNS = (
    *("entries", "flags", "stations", "lines", "passes", "probes", "days", "photos", "pictures"),
    *("segments", "jobs", "files", "points", "readings", "shots", "setups", "sieves", "stubs"),
    *("drives", "legs", "cells", "features", "faults", "things", "tablets", "loads", "reaches"),
    *("outlines", "corners", "heights", "entities", "numbers", "pages", "tickets", "rings"),
    *("parts", "coils", "hoppers", "machines", "inverts", "items", "sheets", "joints", "surfaces"),
)
_NOUN = rf"(?:[a-z']+ )?(?:{'|'.join(NOUNS)})\b"
BARE = re.compile(rf"\{{(\w+)\}} {_NOUN}")
BEHIND = re.compile(rf" {_NOUN}")

# Counts that can't be one, or words that only look like a count of what follows.
NEVER_ONE = {
    "{cuts} passes": "a line cut twice is logged by two or more",
    "{tablets} tablets": "logged by two tablets or more",
    "{readings} probes": "a drift is a run of many",
    "{setups} setups": "a run has two or more",
    "{count} things": "an outline file that draws more than one thing",
    "self.n readings": "a drift is a run of many",
    "len(trace.points) points": "more than are read",
    "len(meeting) ends": "where more than two ends of lines meet",
    "single_line(one.collector_id) inverts": "the name of a collector",
    "slits.every planned lines": "one line in so many, two or more",
    "tenths hoppers": "kept as a decimal, such as 1.0 hoppers, and stored so in old books",
}


@cache
def sources() -> list[tuple[str, ast.AST]]:
    """Every text of the program and every value in one, with where it stands."""
    return [
        (str(path.relative_to(ROOT)), node)
        for folder in FOLDERS
        for path in sorted((ROOT / folder).rglob("*.py"))
        for node in ast.walk(syntax(path))
        if isinstance(node, (ast.JoinedStr, ast.FormattedValue))
        or (isinstance(node, ast.Constant) and isinstance(node.value, str))
    ]


def bare_counts() -> Iterator[str]:
    """Texts in which a number is followed by a plural that is always written."""
    for where, node in sources():
        if isinstance(node, ast.JoinedStr):
            for value, words in zip(node.values, node.values[1:], strict=False):
                if not (isinstance(value, ast.FormattedValue) and isinstance(words, ast.Constant)):
                    continue
                found = BEHIND.match(str(words.value))
                name = ast.unparse(value.value)
                if found and not name.isupper() and name + found[0] not in NEVER_ONE:
                    yield f"{where}: {name}{found[0]}"
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            if re.search(r"[a-z]\(e?s\)", node.value):
                yield f"{where}: {node.value[:60]}"
            found_all = (one[0] for one in BARE.finditer(node.value))
            yield from (f"{where}: {one}" for one in found_all if one not in NEVER_ONE)


def test_no_plural_is_written_behind_a_number_that_may_be_one() -> None:
    """Neither "1 stations" nor "1 flag(s)": such texts are listed with where they stand."""
    assert list(bare_counts()) == []


def test_what_is_never_one_is_still_written() -> None:
    """An exception that no text needs any more goes."""
    texts = set()
    for _, node in sources():
        if isinstance(node, ast.JoinedStr):
            for value, words in zip(node.values, node.values[1:], strict=False):
                if isinstance(value, ast.FormattedValue) and isinstance(words, ast.Constant):
                    texts.add(ast.unparse(value.value) + str(words.value))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            texts |= {one[0] for one in BARE.finditer(node.value)}
    assert [one for one in NEVER_ONE if not any(text.startswith(one) for text in texts)] == []


def counted_texts() -> Iterator[tuple[str, str]]:
    """Every text that counts: those of the program, and their translations."""
    for where, node in sources():
        if isinstance(node, ast.FormattedValue) and node.format_spec is not None:
            spec = ast.unparse(node.format_spec)[2:-1]
            if "|" in spec:
                yield where, f"{{n:{spec}}}"
        elif isinstance(node, ast.Constant) and COUNTED.search(str(node.value)):
            yield where, str(node.value)
    for code in wording.LANGUAGES:
        meanings = wording.table(code).values()
        yield from ((f"locale {code}", text) for text in meanings if COUNTED.search(text))


@cache
def texts_that_count() -> list[tuple[str, str]]:
    """Each of them once."""
    return sorted(set(counted_texts()))


@pytest.mark.parametrize("count", [0, 1, 2])
def test_every_count_reads_right(count: int, capsys: pytest.CaptureFixture[str]) -> None:
    """Each text that counts, printed with 0, 1 and 2: one noun for one, the other for the rest."""
    texts, wrong = texts_that_count(), []
    for where, text in texts:
        parts = COUNTED.findall(text)
        bare = COUNTED.sub(r"{\1:\2\3|\4}", "".join(f"{{{n}:{b}{o}|{m}}} " for n, b, o, m in parts))
        facts = with_counts({name: count for name, *_ in parts})
        shown = bare.format(**facts)
        print(f"{where}: {shown}")
        wanted = "".join(
            f"{'' if is_bare else f'{count} '}{one if count == 1 else many} "
            for _, is_bare, one, many in parts
        )
        wrong += [] if shown == wanted else [f"{where}: {shown}"]
    assert wrong == []
    assert len(texts) > 100
    assert "1 entry" in capsys.readouterr().out or count != 1


def test_both_languages_count_the_same() -> None:
    """A text that counts a noun in English counts one in every other language too."""
    lacking = [
        (code, text)
        for code in wording.LANGUAGES
        for text, meaning in wording.table(code).items()
        if {one[0] for one in COUNTED.findall(text)} - {one[0] for one in COUNTED.findall(meaning)}
    ]
    assert lacking == []


def test_a_count_said_in_spanish() -> None:
    """The verb goes with the number as the noun does."""
    wording.set_language("es")
    try:
        said = [wording.say("{count:entry|entries} came", count=n) for n in (0, 1, 2)]
    finally:
        wording.set_language("en")
    assert said == ["Llegaron 0 anotaciones", "Llegó 1 anotación", "Llegaron 2 anotaciones"]
