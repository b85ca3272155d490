"""The printed level book and its facts."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from models.readers.level_notes import LEAST_SQUARES, LevelBook, read_allowance, reduce_notes
from models.units import LengthUnit
from sync.papers.level_book import build_facts, build_text

FIXTURES = Path(__file__).parents[3] / "fixtures" / "levels"


def book_of(name: str, unit: LengthUnit = LengthUnit.FT, rule: str = "0.05ft-mile") -> LevelBook:
    """A page of the fixtures, reduced."""
    return reduce_notes((FIXTURES / name).read_bytes(), unit, read_allowance(rule, unit))


def test_a_page_prints_as_a_level_book() -> None:
    """Columns, sums and checks; corrections in thousandths, readings in hundredths."""
    text = build_text(book_of("mahun_two_page_loop.csv", rule="0.02/sqrt-setup"))
    rows = [line.split() for line in text.splitlines()]

    assert " ".join(rows[2]) == (
        "point BS HI IS FS rise fall elevation correction adjusted remarks"
    )
    assert ["TP1", "6.02", "908.56", "8.26", "2.13", "902.54", "-0.011", "902.529"] in rows
    assert ["sum", "52.67", "52.62", "22.84", "22.79"] in rows
    assert "sum BS - sum FS = +0.05; last - first = +0.05: OK" in text
    assert "EC +0.05; allowed 0.060 ft by 0.02/sqrt-setup: OK" in text
    assert "Adjusted by setups; setups: 9." in text


def test_every_line_is_in_its_column() -> None:
    """Figures end under the end of their heads."""
    lines = build_text(book_of("link_two_benchmarks.csv")).splitlines()
    end = lines[2].index("elevation") + len("elevation")

    assert [line[end - 6 : end].strip() for line in lines[4:9]] == [
        "100.00",
        "93.28",
        "92.76",
        "98.25",
        "94.95",
    ]


@pytest.mark.parametrize(
    ("rule", "verdict"),
    [("0.04", "OK"), ("0.039", "OUT"), ("0.05ft-mile", "CHECK")],
)
def test_the_foot_says_how_the_run_closes(rule: str, verdict: str) -> None:
    """EC +0.04 on BM B: within, out, or not to be judged without distances."""
    text = build_text(book_of("link_two_benchmarks.csv", rule=rule))
    (closing,) = [line for line in text.splitlines() if line.startswith("Closing on BM B")]

    assert "computed 94.95, known 94.91, EC +0.04" in closing
    assert closing.endswith(f": {verdict}")
    assert ("level it again" in text) is (verdict == "OUT")


def test_a_run_that_meets_nothing_known_says_so() -> None:
    """The arithmetic agrees, and that is not to be taken for a check of the readings."""
    text = build_text(book_of("rise_and_fall_metric.csv", LengthUnit.M, "third"))

    assert "readings themselves are unchecked" in text
    assert "correction" not in text.splitlines()[2]
    assert "Level notes in metres" in text
    assert "99.400" in text


def test_remarks_stay_on_their_line() -> None:
    """A remark with a line break in it does not break the table."""
    data = 'point,BS,FS,elevation,remarks\nBM,1,,10,"two\nlines"\nA,,2,,=1+1\n'
    text = build_text(reduce_notes(data, LengthUnit.FT))

    assert "two lines\n" in text


def test_facts_are_those_of_the_print() -> None:
    """The same page as plain values that JSON takes, lengths in whole nanometres."""
    facts = json.loads(json.dumps(build_facts(book_of("link_two_benchmarks.csv", rule="0.04"))))

    assert facts["sums"]["bs_nm"] == 7_748_016_000
    assert [line["row"] for line in facts["lines"]] == [2, 3, 4, 5, 6]
    assert facts["lines"][0]["hi_nm"] == 31_424_880_000
    assert facts["lines"][1]["fall_nm"] == 2_048_256_000
    assert facts["lines"][1]["rise_nm"] is None
    assert facts["lines"][-1]["adjusted_nm"] == facts["closings"][0]["known_nm"]
    assert facts["closings"][0]["ec_nm"] == 12_192_000
    assert facts["closings"][0]["verdict"] == "OK"
    assert facts["checks"] == {"arithmetic": True, "rise_and_fall": True}
    assert facts["sound"] is True


def test_least_squares_say_how_sure_they_are() -> None:
    """Standard deviations, and the standard error of unit weight with its bounds.

    With one reading to spare none can be named as the worst; a second loop names one.
    """
    data = (FIXTURES / "mahun_two_page_loop.csv").read_bytes()
    twice = data.replace(b"BM Red,,,4.78,,", b"BM Red,10.00,,4.78,,\nTP1,,,1.23,,")
    book = reduce_notes(data, LengthUnit.FT, adjust_by=LEAST_SQUARES)
    text, facts = build_text(book), build_facts(book)["least_squares"]
    assert isinstance(facts, dict)

    assert "Adjusted by least squares; setups: 9." in text
    assert "Standard deviations by what readings are good to: L 0.005, TP1 0.007" in text
    assert "between 0.03 and 2.24 at 95 % with 1 to spare" in text
    assert "Largest residual" not in text
    assert "Largest residual for its size: " in build_text(
        reduce_notes(twice, LengthUnit.FT, adjust_by=LEAST_SQUARES)
    )
    assert facts["freedom"] == 1
    assert facts["sigma_nm"]["TP1"] > 0
    assert "least_squares" not in build_facts(book_of("mahun_two_page_loop.csv"))
