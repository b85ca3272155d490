"""The Pass screen's state: verdicts on the limit, the next step, chips past both limits."""

from __future__ import annotations

from dataclasses import replace

import pytest

from crewapp.kit.input.work_fields import ticket_field, ticket_letters
from crewapp.pages.passes.chips import depth_chips, depth_number, length_chips, place_chips
from crewapp.pages.passes.probe_places import ProbeRule
from crewapp.pages.passes.view import (
    DepthLimits,
    LineWork,
    PassCard,
    PassEntry,
    PassView,
    SandCard,
    drive_question,
    judge_depth,
    next_step,
    next_turf,
    piece_rows,
    places_out_of_limits,
    probes_left,
    probes_status,
    toggle_line,
)
from models.queries.layout.drive_pieces import DrivePlan
from models.science.layout.drive_pieces import DriveStretch
from models.units import UnitSystem
from models.units.job_units import Figures

INCH, FOOT, MM = 25_400_000, 304_800_000, 1_000_000
US, METRIC = Figures(), Figures(UnitSystem.METRIC)
LIMITS = DepthLimits(9 * INCH, 17 * INCH // 2, 10 * INCH, INCH)
LINE = LineWork(
    "S01", "sand_slit", LIMITS, ProbeRule(15 * FOOT, 3 * FOOT), from_nm=0, to_nm=20 * FOOT
)
NO_SAND = SandCard("", "", "not measured")


def probe(along_ft: int, depth_nm: int = 9 * INCH) -> PassEntry:
    """Return a probe that stands."""
    return PassEntry(str(along_ft), "probe", "", "", "ok", False, "S01", along_ft * FOOT, depth_nm)


def card(*written: PassEntry, line: LineWork = LINE, sand: SandCard = NO_SAND) -> PassCard:
    """Return a pass of one line, 20 ft long."""
    return PassCard("P", "id", (line,), 20 * FOOT, written, sand)


def test_depth_on_its_limit_is_ok() -> None:
    """Exactly the least and exactly the most are in tolerance; an eighth beyond is out."""
    assert judge_depth(LIMITS, LIMITS.least_nm, US).status == "ok"
    assert judge_depth(LIMITS, LIMITS.most_nm, US).status == "ok"
    assert judge_depth(LIMITS, LIMITS.least_nm - 1, US).status == "out"
    assert judge_depth(LIMITS, LIMITS.most_nm + 1, US).status == "out"


def test_depth_out_says_by_how_much() -> None:
    """Measured from the limit that it breaks, in the job's units."""
    assert judge_depth(LIMITS, 8 * INCH, US).text == "8 in: 1/2 in shallow"
    assert judge_depth(LIMITS, 41 * INCH // 4, US).text == "10-1/4 in: 1/4 in deep"


def test_depth_chips_reach_past_both_limits() -> None:
    """Eighths from one below the least to one above the most; the design among them."""
    texts = [chip.text for chip in depth_chips(LIMITS, US)]

    assert (texts[0], texts[-1], len(texts)) == ("8-3/8", "10-1/8", 15)
    assert "9" in texts


def test_metric_depth_chips_step_by_five() -> None:
    """230 mm, 10 under and 20 over: from 215 to 255."""
    limits = DepthLimits(230 * MM, 220 * MM, 250 * MM)
    texts = [chip.text for chip in depth_chips(limits, METRIC)]

    assert texts == ["215", "220", "225", "230", "235", "240", "245", "250", "255"]
    assert depth_number(METRIC, 230 * MM) == "230"


@pytest.mark.parametrize(
    ("figures", "limits", "first", "last"),
    [
        (METRIC, DepthLimits(9 * INCH, 17 * INCH // 2, 10 * INCH), "215", "255"),
        (US, DepthLimits(230 * MM, 217 * MM, 255 * MM), "8-1/2", "10-1/8"),
    ],
    ids=["9 in in a metric job", "230 mm in feet and inches"],
)
def test_a_depth_chip_inks_what_it_says(
    figures: Figures, limits: DepthLimits, first: str, last: str
) -> None:
    """Whatever unit the plan was drawn in, a chip's text read back is its reading, exactly."""
    found = depth_chips(limits, figures)

    assert [figures.read_depth(chip.text) for chip in found] == [chip.value for chip in found]
    assert (found[0].text, found[-1].text) == (first, last)
    assert found[0].value < limits.least_nm
    assert found[-1].value > limits.most_nm


def test_length_chips_stand_round_the_plan() -> None:
    """Half feet, three to each side of the planned length."""
    drive = DrivePlan((DriveStretch("S01", 1, 0, 40 * FOOT, 0),))
    view = PassView(US, picked=("S01",), drive=drive)

    assert [chip.text for chip in length_chips(view)] == [
        *("38.5", "39.0", "39.5", "40.0", "40.5", "41.0", "41.5")
    ]
    assert length_chips(replace(view, drive=DrivePlan(()))) == ()


def test_place_chips_go_from_start_to_end() -> None:
    """One even step, no more than fit, the start among them."""
    texts = [chip.text for chip in place_chips(120 * FOOT, US, most=7)]
    assert texts == ["0", "20", "40", "60", "80", "100", "120"]


def test_place_to_probe_again_comes_first() -> None:
    """Where the newest reading is out, between the even steps too; once right it goes."""
    again = replace(probe(3), status="out")
    first = card(again, replace(probe(17), status="ok"))

    assert places_out_of_limits(first, "S01") == (3 * FOOT,)
    overtaken = replace(again, is_overtaken=True)
    assert places_out_of_limits(card(probe(3), overtaken, probe(17)), "S01") == ()
    texts = [chip.text for chip in place_chips(120 * FOOT, US, most=7, again=(30 * FOOT,))]
    assert texts == ["30", "0", "50", "100"]


def test_probe_taken_again_counts_as_it_is_now() -> None:
    """A place that was out and is right now leaves the pass right; the old row stays."""
    was_out = replace(probe(3), status="out")

    assert probes_status(card(was_out)) == "out"
    assert probes_status(card(probe(3), replace(was_out, is_overtaken=True))) == "ok"


def test_next_step_follows_the_work() -> None:
    """Probes, then pipe, then sand, then the turf of a green; then nothing."""
    probed = (probe(3), probe(17))
    filled = SandCard("", "", "ok")
    piped = replace(LINE, use="piped_slit")

    assert next_step(card(), "field", US) == "probe"
    assert next_step(card(*probed, line=piped), "field", US) == "pipe"
    assert next_step(card(*probed), "field", US) == "sand"
    assert next_step(card(*probed, sand=filled), "green", US) == "finish"
    assert next_step(card(*probed, sand=filled), "field", US) == ""


def test_struck_probe_is_wanted_again() -> None:
    """A probe crossed out leaves its place open."""
    struck = replace(probe(3), is_struck=True)

    assert probes_left(card(probe(3), probe(17)), US) == 0
    assert probes_left(card(struck, probe(17)), US) == 1


def test_turf_goes_step_by_step() -> None:
    """Lifted, put back, rolled, done."""
    steps = [next_turf(replace(card(), turf_done=done)) for done in ((), ("lifted",))]
    assert steps == ["lifted", "put_back"]
    assert next_turf(replace(card(), turf_done=("lifted", "put_back", "rolled"))) == ""


def test_lines_picked_keep_the_order_of_the_plan() -> None:
    """A tap adds a line at its place; a second tap takes it out."""
    order = ("S01", "S02", "S03")
    assert toggle_line(("S03",), "S01", order) == ("S01", "S03")
    assert toggle_line(("S01", "S03"), "S01", order) == ("S03",)


@pytest.mark.parametrize("text", ["007", "TQ-40121", "0", "A1B2-C3"])
def test_ticket_is_no_figure(text: str) -> None:
    """Letters, dashes and zeros in front stay, in the text and in what is shown of it."""
    spec = ticket_field("Ticket")
    assert spec.grammar.is_complete(text)
    assert spec.show(spec.parse(text)) == text


@pytest.mark.parametrize("text", ["-1", "TQ-", "tq1", "T Q", "1" * 15])
def test_ticket_is_a_plain_name(text: str) -> None:
    """No dash at an end, no small letters, no spaces, not without end."""
    assert not ticket_field("Ticket").grammar.is_complete(text)


@pytest.mark.parametrize(
    ("last", "letters"),
    [
        ("TQ-40121", "TQ-"),
        ("tq40121", "TQ"),
        ("40121", ""),
        ("TQ-", ""),
        ("SCALE-9", "SCALE-"),
        ("", ""),
    ],
)
def test_only_letters_of_the_last_ticket_are_offered(last: str, letters: str) -> None:
    """Its number never is: it would be the one ticket that this one is not."""
    assert ticket_letters(last) == letters


TWIN = DrivePlan(
    (
        DriveStretch("S37", 1, 0, 100 * FOOT, 0),
        DriveStretch("S40a", 2, 0, 40 * FOOT, 0),
        DriveStretch("S40b", 2, 45 * FOOT, 100 * FOOT, 0),
    )
)


def test_pieces_of_a_drive_say_what_they_rest_on() -> None:
    """The whole leg by the length driven, the parted one by its stakes, a typed one as typed."""
    view = PassView(US, picked=("S37", "S40a", "S40b"), drive=TWIN)
    rows = piece_rows(view, 101 * FOOT, {"S40a": 39 * FOOT})

    assert [(row["key"], row["figure"], row["detail"]) for row in rows] == [
        ("S37", "101.0 ft", "length driven"),
        ("S40a", "39.0 ft", "typed"),
        ("S40b", "56.0 ft", "from the stakes"),
    ]
    assert view.has_unequal_pieces
    assert {row["detail"] for row in piece_rows(view, 0, {})} == {"from the stakes"}


def test_a_length_off_the_plan_is_asked_about() -> None:
    """Within a hundredth nothing is asked; a drive that stopped, or ran over, is."""
    view = PassView(US, picked=("S37", "S40a", "S40b"), drive=TWIN)

    assert "did it stop" in drive_question(view, 60 * FOOT)
    assert "run over" in drive_question(view, 110 * FOOT)
    assert drive_question(view, 101 * FOOT) == "101.0 ft driven of 100.0 ft."
    assert drive_question(view, 0) == "By the plan this pass is 100.0 ft long."
