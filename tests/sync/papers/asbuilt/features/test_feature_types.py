"""What the book says becomes what lies in the ground, and nothing that was struck stands."""

from __future__ import annotations

from fractions import Fraction

from models.entries.keys import line_key
from models.entries.kind_names import COLLECTOR
from models.ledger.ledger import ledger_of
from models.science.quality.verdict import Verdict
from models.state.indexes import PASSES, PIPE_IN_LINE
from sync.papers.asbuilt.features.course import Place
from sync.papers.asbuilt.features.feature_types import AsBuilt, LineStatus
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.wording.entry_text import title_of
from tests.sync.papers.asbuilt.small_green import CUT_FT, OFF_PLAN_FT, green, written_green
from tests.sync.papers.day_writer import FT, IN, DayWriter


def test_each_line_has_the_status_of_what_became_of_it() -> None:
    """Planned, cut, piped, out, and out but accepted; one on no plan is there without a place."""
    lines = {line.line_id: line for line in green().lines}

    assert {name: line.status for name, line in lines.items()} == {
        "S1": LineStatus.CUT,
        "S2": LineStatus.ACCEPTED,
        "S3": LineStatus.OUT,
        "S4": LineStatus.PLANNED,
        "P1": LineStatus.PIPED,
        "P2": LineStatus.CUT,
        "X9": LineStatus.CUT,
    }
    assert (lines["X9"].start, lines["X9"].planned_nm, lines["X9"].cut_nm) == (None, None, 7 * FT)


def test_line_gathers_its_probes_pipe_and_sand() -> None:
    """S1 stands with three probes of 9 in; P1 with its pipe, joined and capped."""
    lines = {line.line_id: line for line in green().lines}
    cut, piped = lines["S1"], lines["P1"]

    assert (cut.n_probes, cut.n_out, cut.least_nm) == (3, 0, 9 * IN)
    assert cut.mean_nm == 9 * IN
    assert (cut.pass_ids, cut.days, cut.sand_pl) == (("G1-1",), ("2026-06-08",), Fraction(10**15))
    assert (piped.pipe_nm, piped.is_connected, piped.is_end_capped) == (22 * FT, True, True)
    assert lines["S2"].n_in_tolerance == 0


def test_cut_length_is_the_books() -> None:
    """The sum over lines is what the day sheets are made from."""
    book = written_green()

    done = (one.share.done for _, _, one in ledger_of(book.state).every_piece())
    assert green().cut_nm == (CUT_FT - OFF_PLAN_FT) * FT == sum(done)
    assert green().off_plan_nm == OFF_PLAN_FT * FT
    assert green().surfaces[0].cut_nm == (CUT_FT - OFF_PLAN_FT) * FT


def test_line_cut_twice_counts_once() -> None:
    """What was cut again of a line is in no length of it, and stands beside it."""
    book = written_green()
    again = {"surface_id": "G1", "line_ids": ["S1", "S4"], "length_nm": 3 * FT}
    book.write("pass", pass_id="G1-9", **again)
    job = as_built(book.state)

    lines = {line.line_id: line for line in job.lines}
    assert (lines["S1"].cut_nm, lines["S1"].again_nm) == (40 * FT, 3 * FT)
    assert job.cut_nm == (CUT_FT - OFF_PLAN_FT + 3) * FT


def test_pass_that_names_a_line_twice_cut_it_again() -> None:
    """A machine that went over one line with two legs cut it twice: the line counts once."""
    book = written_green()
    again = {"surface_id": "G1", "line_ids": ["S4", "S4"], "length_nm": 3 * FT}
    book.write("pass", pass_id="G1-9", **again)
    job = as_built(book.state)

    line = next(line for line in job.lines if line.line_id == "S4")
    assert (line.cut_nm, line.again_nm) == (3 * FT, 3 * FT)


def test_probe_lies_at_its_distance_along_the_line() -> None:
    """S1 runs east from (0, 4 ft): the probe 20 ft along it lies at (20 ft, 4 ft)."""
    middle = [one for one in green().probes if one.along_nm == 20 * FT and one.line_id == "S1"]

    assert [one.at for one in middle] == [Place(20 * FT, 4 * FT)]


def test_struck_and_overtaken_readings_stand_apart() -> None:
    """The slip of 19 in and readings taken again are listed with why, and are nowhere else."""
    job = green()
    aside = [(one.how, one.said, one.at) for one in job.void_readings]

    assert aside == [
        ("struck", "G1-1 S1 at 20.0 ft: 19 in", Place(20 * FT, 4 * FT)),
        ("overtaken", "G1-1 S1 at 38.0 ft: 8 in", Place(38 * FT, 4 * FT)),
        ("overtaken", "C1 0+10.0 invert: rod 4.50 from L1", Place(5 * FT, -2 * FT)),
    ]
    assert job.void_readings[0].instead == "G1-1 S1 at 20.0 ft: 9 in"
    assert 19 * IN not in {probe.depth_nm for probe in job.probes}


def test_struck_probe_of_a_struck_pass_keeps_its_place() -> None:
    """A reading names its pass alone, so its surface is known though the pass be struck."""
    book = written_green()
    slips = [e for e in book.state.entries.values() if getattr(e.body, "pass_id", "") == "G1-3"]
    book.write("struck", why="other green", strikes=[entry.id for entry in slips])
    job = as_built(book.state)

    struck = [one for one in job.void_readings if one.reason == "other green"]
    assert [(one.kind, one.line_id, one.at) for one in struck] == [
        ("Pass cut", "S3", None),
        ("Depth probe", "S3", Place(20 * FT, 12 * FT)),
    ]
    assert {line.line_id: line.status for line in job.lines}["S3"] is LineStatus.PLANNED


def test_probe_whose_pass_alone_was_struck_stands_apart() -> None:
    """Nobody struck the reading, but what it was a reading of: it is listed, not lost."""
    book = written_green()
    cuts = [e for e in book.state.current(PASSES) if getattr(e.body, "pass_id", "") == "G1-3"]
    book.write("struck", why="other green", strikes=[cuts[0].id])
    job = as_built(book.state)

    struck = [one for one in job.void_readings if "other green" in one.reason]
    assert [(one.kind, one.how, one.reason, one.at) for one in struck] == [
        ("Pass cut", "struck", "other green", None),
        ("Depth probe", "struck", "its pass G1-3 was struck: other green", Place(20 * FT, 12 * FT)),
    ]
    assert "S3" not in {probe.line_id for probe in job.probes}


def test_struck_tie_and_point_stand_apart() -> None:
    """A distance that does not hold is listed with why, so that nobody digs by an old copy."""
    book = written_green()
    standing = [e for e in book.state.entries.values() if not book.state.is_struck(e.id)]
    marks = [
        next(entry for entry in standing if entry.kind == kind)
        for kind in ("tie", "permanent_point")
    ]
    book.write("struck", why="post is gone", strikes=[entry.id for entry in marks])
    job = as_built(book.state)

    gone = [one.kind for one in job.void_readings if one.reason == "post is gone"]
    assert gone == [title_of("permanent_point"), title_of("tie")]


def test_inverts_lie_on_the_course_with_their_levels() -> None:
    """Station 40 is round the bend; its invert is 0.05 ft high of one percent, and out."""
    shots = {shot.station_nm // FT: shot for shot in green().inverts}

    assert [shot.off_nm for shot in shots.values()] == [0, 0, FT * 5 // 100, 0]
    assert shots[40].verdict is Verdict.OUT
    assert shots[40].at == Place(25 * FT, -12 * FT, 10045 * FT // 100)


def test_laid_pipe_keeps_the_bend_of_its_course() -> None:
    """Levels run straight between shots: a third of a foot up at the bend, a third along."""
    laid = green().collectors[0].laid

    assert [round(place.level_nm or 0, -3) for place in laid] == [
        100 * FT,
        10010 * FT // 100,
        round(Fraction(301, 3) * FT, -3),
        10045 * FT // 100,
        10050 * FT // 100,
    ]
    assert laid[2] == Place(25 * FT, -2 * FT, laid[2].level_nm)


def test_ties_are_held_against_the_plan_where_both_ends_are_known() -> None:
    """By Pythagoras, S1 begins sqrt(10^2 + 4^2) ft from PP1; PP2 was never measured in."""
    first, second = green().ties

    assert abs((first.by_plan_nm or 0) - (116**0.5) * FT) < 1
    assert (first.name, second.name) == ("G1 S1 start", "C1 outlet")
    assert (second.point, second.by_plan_nm) == (None, None)
    assert second.end == Place(-5 * FT, -2 * FT)


def turned_green() -> AsBuilt:
    """The green with its collector stationed from the head."""
    book = written_green()
    collector = book.state.latest(COLLECTOR, "C1")
    assert collector is not None
    turned = collector.model_dump()
    turned["design"]["stationed_from"] = "head"
    book.write("collector", **turned)
    book.write("tie", tied="line_end", surface_id="G1", line_id="S1", point_id="PP1", distance_nm=1)
    return as_built(book.state)


def test_grade_is_positive_with_the_flow() -> None:
    """From the outlet the pipe climbs 0.5 ft in 50; from the head that would be a backfall."""
    assert green().collectors[0].laid_grade == Fraction(1, 100)
    assert turned_green().collectors[0].laid_grade == Fraction(-1, 100)


def test_tie_hangs_from_the_end_that_it_names() -> None:
    """The end of S1 is its east end; the outlet is the last point where stations run down."""
    first, outlet, end = turned_green().ties

    assert first.end == Place(0, 4 * FT)
    assert outlet.end == Place(25 * FT, -22 * FT)
    assert end.end == Place(40 * FT, 4 * FT)


def test_joint_is_made_once_somebody_wrote_so() -> None:
    """P1 was joined; without its pipe the same joint is still to be made."""
    book = written_green()
    (pipe,) = book.state.current(PIPE_IN_LINE, line_key("G1", "P1"))
    book.write("struck", strikes=[pipe.id], why="other line")

    assert [joint.is_made for joint in green().joints] == [True]
    assert [joint.is_made for joint in as_built(book.state).joints] == [False]


def test_empty_book_has_an_empty_as_built() -> None:
    """A book without a word gives features without a thing, and no exception."""
    job = as_built(DayWriter().state)

    assert (job.lines, job.probes, job.inverts, job.cut_nm, job.last_day) == ((), (), (), 0, "")
