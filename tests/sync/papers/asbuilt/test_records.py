"""Tables of the record: sums are the book's, struck readings stand crossed out, gaps are named."""

from __future__ import annotations

from math import asin, cos, sin, sqrt
from statistics import mean, stdev

import pytest

from models.ledger.ledger import ledger_of
from models.state.job_state import JobState
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.tables.record_table import Record, Row
from tests.sync.papers.asbuilt.conftest import facts_of_book
from tests.sync.papers.asbuilt.record_books import plan_alone, struck_shot_book, us_record
from tests.sync.papers.day_writer import FT
from tests.sync.papers.sample_day import answer_all, shoot


def table(facts: Facts, name: str) -> Record:
    """One table of a record."""
    return next(one for one in facts.every_table if one.name == name)


def column(record: Record, name: str) -> list[object]:
    """Values of one column, as the workbook holds them."""
    place = [field.name for field in record.fields].index(name)
    return [row.items[place].value for row in record.rows]


def shown(record: Record) -> list[list[str]]:
    """Rows as paper shows them."""
    return [[row.items[place].shown for place in record.printed_columns] for row in record.rows]


def total(record: Record, name: str) -> float:
    """Sum of one column of numbers."""
    return sum(value for value in column(record, name) if isinstance(value, int | float))


def placed(facts: Facts, item: str) -> float:
    """What the quantities say was placed of an item."""
    record = table(facts, "quantities")
    value = dict(zip(column(record, "item"), column(record, "placed"), strict=True))[item]
    assert isinstance(value, float)
    return value


def test_lines_add_up_to_the_quantities(us_facts: Facts) -> None:
    """Lengths cut, line by line, come to what the quantities say was placed, and to the book's."""
    lines = table(us_facts, "lines")
    cut_ft = placed(us_facts, "Sand slits") + placed(us_facts, "Piped slits")
    state: JobState = us_facts.state

    assert total(lines, "cut") == pytest.approx(cut_ft)
    done = (one.share.done for on, _, one in ledger_of(state).every_piece() if on == "G7")
    assert cut_ft * FT == pytest.approx(sum(done))
    assert total(lines, "pipe") == pytest.approx(placed(us_facts, "Pipe in slits"))


def test_difference_is_placed_less_planned(us_facts: Facts) -> None:
    """Sand slits: 24 lines of 70 ft planned, 16 cut."""
    record = table(us_facts, "quantities")
    sand = next(row for row in shown(record) if row[0] == "Sand slits")

    assert sand == ["Sand slits", "ft", "1680.0", "1120.0", "-560.0", "66 %"]


def test_loads_add_up_to_the_balance(us_facts: Facts) -> None:
    """What the tickets say comes to what the balance says was delivered."""
    loads, balance = table(us_facts, "loads"), table(us_facts, "balance")
    came = zip(column(loads, "what"), column(loads, "amount"), strict=True)
    tons = sum(amount for what, amount in came if what == "Sand A" and isinstance(amount, float))

    assert dict(zip(column(balance, "material"), column(balance, "delivered"), strict=True))[
        "Sand A"
    ] == pytest.approx(tons)


def test_lot_figures_are_those_of_its_readings(us_facts: Facts) -> None:
    """The lot of sand slits has as many depths as the workbook lists, and their extremes."""
    probes, lots = table(us_facts, "probes"), table(us_facts, "lots")
    read = zip(column(probes, "line"), column(probes, "depth"), strict=True)
    depths = [d for line, d in read if str(line).startswith("S") and isinstance(d, float)]
    lot = next(row for row in lots.rows if [i.shown for i in row.items[:2]] == ["G7 sand", "depth"])

    assert lot.items[3].value == len(depths)
    assert (lot.items[4].value, lot.items[6].value) == (min(depths), max(depths))


def below(quality: float, n: int, steps: int = 20_000) -> float:
    """Share of a lot below a limit by the beta law, added up in slices: no library, no table."""
    x = min(max(0.5 - quality * sqrt(n) / (2 * (n - 1)), 0.0), 1.0)

    def area(to: float) -> float:
        turns = [(step + 0.5) * asin(sqrt(to)) / steps for step in range(steps)]
        return sum((sin(turn) * cos(turn)) ** (n - 3) for turn in turns) * asin(sqrt(to)) / steps

    return area(x) / area(1.0)


def test_percent_within_limits_is_that_of_the_readings(us_facts: Facts) -> None:
    """Worked out again from the depths and limits that are printed, for both kinds of slit."""
    probes, lots = table(us_facts, "probes"), table(us_facts, "lots")
    told = [row for row in lots.rows if row.items[1].shown == "depth" and row.items[10].value]
    for row in told:
        letter = {"sand": "S", "piped": "P"}[row.items[0].shown.split()[1]]
        read = zip(column(probes, "line"), column(probes, "depth"), strict=True)
        depths = [float(str(d)) for name, d in read if str(name).startswith(letter) and d]
        low, high = (float(str(row.items[place].value)) for place in (7, 8))
        spread, n = stdev(depths), len(depths)
        out = below((high - mean(depths)) / spread, n) + below((mean(depths) - low) / spread, n)

        assert row.items[9].value == sum(low <= depth <= high for depth in depths)
        assert row.items[10].value == pytest.approx(100 * (1 - out), abs=0.06)
    assert told


def test_inverts_tell_design_laid_and_by_whom(us_facts: Facts) -> None:
    """A shot has station, design, as laid, off, cover or a dash, setup, person and moment."""
    row = next(row for row in shown(table(us_facts, "inverts")) if row[0] == "0+50.0")

    assert row[1:5] == ["7.59", "96.50", "96.41", "-0.09"]
    assert row[5] == "-"
    assert row[6] == "L1, R. Okafor, 2026-06-09 7:51 am, OUT"


def test_struck_shot_stands_crossed_out_with_its_reason() -> None:
    """A struck reading is there with a line through it and why; what replaced it stands."""
    inverts = table(facts_of_book(struck_shot_book()), "inverts")
    rows = [row for row in inverts.rows if row.items[1].shown == "0+50.0"]
    struck = [row for row in rows if row.is_struck]

    assert len(rows) == 2
    assert [row.items[-1].shown for row in struck] == ["struck: rod not plumb"]
    assert "struck: rod not plumb" in struck[0].items[-2].shown


def test_shot_taken_again_is_crossed_out_too(green_facts: Facts) -> None:
    """An older shot of the same place stays in view, as shot again since."""
    rows = [row for row in table(green_facts, "inverts").rows if row.items[1].shown == "0+10.0"]

    assert [row.items[-1].shown for row in rows] == ["shot again since", "stands"]


def test_struck_probe_is_told_with_what_stands_instead(us_facts: Facts) -> None:
    """The slip keyed 19 for 9 has its reason, its author and the right reading."""
    (row,) = table(us_facts, "struck").rows

    assert row.is_struck
    assert "19 in" in row.items[2].shown
    assert "R. Okafor: keyed 19 for 9. Now: G7-08 S15" in row.items[3].shown


def test_ties_name_what_has_fewer_than_two(us_facts: Facts) -> None:
    """The outlet has two ties; the head has one, and that is said; so are the lines' ends."""
    ties = table(us_facts, "ties")

    assert [row[:3] for row in shown(ties)][:2] == [
        ["C1, outlet", "PP1", "8.06"],
        ["C1, outlet", "PP2", "33.54"],
    ]
    assert "Fewer than two ties: C1, head." in ties.note
    assert "both ends of G7 S01 to S16, P01" in ties.note


def test_open_flags_stand_first_and_plainly(us_facts: Facts) -> None:
    """What stops the work is listed with its cure, and the cover counts it."""
    rows: list[Row] = list(table(us_facts, "open_flags").rows)

    assert [row.items[0].shown for row in rows][:2] == ["STOP", "STOP"]
    assert us_facts.standing.words.startswith("Flags that stand open: 2 that stop the work")


def test_answers_say_who_when_and_why() -> None:
    """Once answered, a deviation has its decision, its person, its moment, its reason."""
    book = us_record()
    answer_all(book, why="agreed with the owner")
    facts = facts_of_book(book)
    rows = shown(table(facts, "deviations"))

    assert not table(facts, "open_flags").rows
    assert {(row[1], row[2], row[4]) for row in rows} == {
        ("accepted as is", "R. Okafor", "agreed with the owner")
    }
    assert all("2026-06-09" in row[3] for row in rows)


def test_rate_of_a_ring_is_water_gone_over_time(us_facts: Facts) -> None:
    """Twice an inch in 900 s, the refill taken out, is 4 in/h: by hand 2 / 0.5."""
    (row,) = shown(table(us_facts, "infiltration"))

    assert row[4:] == ["4.00", "2.000 in / 1800 s x 3600"]


def test_sightings_tell_the_time_since_the_rain(us_facts: Facts) -> None:
    """Water stood an hour after the rain, and after three the green was fit to play on."""
    seen = shown(table(us_facts, "surface_seen"))

    assert [(row[3], row[4]) for row in seen] == [
        ("1 h", "water stands"),
        ("3 h", "fit to play on"),
    ]


def test_job_with_nothing_cut_says_so() -> None:
    """Every line is there as not cut, nothing has a lot, no day was worked."""
    facts = facts_of_book(plan_alone())

    assert {row[-1] for row in shown(table(facts, "lines"))} == {"not cut"}
    assert not table(facts, "lots").rows
    assert facts.head.worked == "no ground worked yet"


def test_answer_to_what_was_put_right_is_kept_as_past() -> None:
    """Once the belly is answered and its shot shot again on grade, the answer says no longer so."""
    book = us_record()
    answer_all(book, why="lifted and laid anew")
    shoot(book, {50: 0})
    rows = shown(table(facts_of_book(book), "deviations"))
    belly = next(row for row in rows if "belly" in row[0])

    assert belly[0].endswith("(no longer so)")
    assert not any(row[0].endswith("so)") for row in rows if "S15" in row[0])
