"""The take-off on paper and as a workbook, read back with other programs."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import load_workbook

from models.queries.takeoff.inputs import inputs_of
from models.queries.takeoff.job_takeoff import job_takeoff
from models.queries.takeoff.what_if import read_change, try_changes
from models.science.takeoff.items import Item
from models.state.job_state import JobState
from sync.papers.takeoff.facts import gather_takeoff
from sync.papers.takeoff.pdf_file import build_takeoff_pdf
from sync.papers.takeoff.takeoff_files import build_takeoff_xlsx, write_takeoff_sheets
from tests.models.planned_ground import collector, sand, state_of, surface, terms, written
from tests.sync.papers.pdf_reading import outside_margins, pages_of, text_of, unembedded

PRICES = [
    written("unit_price", item="sand to order", price_cents=4250, per="1 t"),
    written("unit_price", item="tees", price_cents=345, per="each"),
]


def job(*more: dict[str, object]) -> JobState:
    """A small job with everything that a take-off asks for."""
    return state_of(surface(), collector(), sand(), terms(), *more)


def pdf_of(state: JobState, path: Path) -> Path:
    """The printed take-off of a job."""
    path.write_bytes(build_takeoff_pdf(gather_takeoff(state, job_takeoff(state))))
    return path


def test_paper_shows_every_line_with_its_arithmetic(tmp_path: Path) -> None:
    """Each item of the job stands there with its amount, and what it was worked out from."""
    state = job(*PRICES)
    takeoff = job_takeoff(state)
    text = " ".join(text_of(pdf_of(state, tmp_path / "a.pdf")).split())

    for line in takeoff.lines:
        assert line.item.value in text
        assert takeoff.show(line.amount) in text
    assert "= 25 mm x 200 mm x 40.00 m x (1 + 0 %)" in text
    assert "4.31 t x 42.50 for 1.00 t" in text
    assert "186.72" in text  # 4.312321 x 42.50 + 3.45, by hand


def test_paper_keeps_its_margins_and_fonts(tmp_path: Path) -> None:
    """Nothing runs over a margin, and every letter is in the file."""
    many = [surface(f"F{number}") for number in range(2, 30)]
    path = pdf_of(job(*many, *PRICES), tmp_path / "a.pdf")

    assert pages_of(path) > 5
    assert outside_margins(path) == []
    assert unembedded(path) == []


def test_no_price_no_estimate(tmp_path: Path) -> None:
    """Without a typed price the sheet says so and shows no money."""
    state = job()
    text = text_of(pdf_of(state, tmp_path / "a.pdf"))
    tabs = load_workbook(BytesIO(build_takeoff_xlsx(gather_takeoff(state, job_takeoff(state)))))

    assert "No price is typed in" in text
    assert "comes to" not in text
    assert tabs.sheetnames == ["whole_job", "parts", "said"]


def test_workbook_holds_numbers_with_their_units() -> None:
    """Read back, amounts are numbers in the unit beside them, and add up as they should."""
    state = job(*PRICES)
    takeoff = job_takeoff(state)
    book = load_workbook(BytesIO(build_takeoff_xlsx(gather_takeoff(state, takeoff))))
    rows = {row[0]: row[1:] for row in book["whole_job"].iter_rows(min_row=2, values_only=True)}
    parts = list(book["parts"].iter_rows(min_row=2, values_only=True))
    cut = [row for row in parts if row[1] == Item.SLIT_CUT.value and "together" in str(row[0])]

    assert set(rows) == {line.item.value for line in takeoff.lines}
    assert rows[Item.SLIT_CUT.value][:2] == (0.3, "m3")
    assert rows[Item.SAND_MASS.value][:2] == (4.312321, "t")
    assert rows[Item.END_CAPS.value][:2] == (2, "each")
    assert rows[Item.SOD.value][:2] == (8, "m2")
    assert rows[Item.DAYS.value][:2] == (2.8, "days")
    assert [row[2] for row in cut] == [0.3]
    assert book["estimate"]["B2"].value == 183.27


def test_names_cannot_become_formulas() -> None:
    """A surface called like a formula stays words in the workbook."""
    state = job(surface("=1+1", name="=HYPERLINK(1)"))
    book = load_workbook(BytesIO(build_takeoff_xlsx(gather_takeoff(state, job_takeoff(state)))))
    titles = [cell for cell in book["parts"]["A"] if str(cell.value).startswith("=")]

    assert titles
    assert {cell.data_type for cell in titles} == {"s"}


@pytest.mark.parametrize("unit_system", ["us", "metric"])
def test_same_job_same_bytes(unit_system: str) -> None:
    """Built twice, both forms are the same to the byte, in either system."""
    own = written("job", job_id="j", name="Job", unit_system=unit_system)
    first, second = (gather_takeoff(state, job_takeoff(state)) for state in (job(own), job(own)))

    assert build_takeoff_pdf(first) == build_takeoff_pdf(second)
    assert build_takeoff_xlsx(first) == build_takeoff_xlsx(second)


def test_a_trial_is_told_and_has_its_own_files(tmp_path: Path) -> None:
    """A take-off with an input changed says so on its face and never replaces the plan's."""
    state = job()
    tried = try_changes(inputs_of(state), [read_change("swell=30%")]).after
    plain = write_takeoff_sheets(state, job_takeoff(state), tmp_path)
    trial = write_takeoff_sheets(state, tried, tmp_path, tried="swell=30%")

    assert [path.name for path in plain] == ["j-take-off.pdf", "j-take-off.xlsx"]
    assert [path.name for path in trial] == [
        "j-take-off-with-swell-30.pdf",
        "j-take-off-with-swell-30.xlsx",
    ]
    assert "A trial, not the plan: swell=30%" in text_of(trial[0])
    assert "A trial" not in text_of(plain[0])


def test_a_job_with_nothing_in_it_still_prints(tmp_path: Path) -> None:
    """An empty book gives one page that says that nothing is taken off."""
    path = pdf_of(JobState(), tmp_path / "a.pdf")

    assert "Nothing is taken off." in text_of(path)
    assert pages_of(path) == 1


def test_paper_is_an_estimate_with_cautions_in_both_languages(tmp_path: Path) -> None:
    """An engineer designs, local codes go first; blades, dust and bad air are told."""
    state = job(*PRICES)
    text = " ".join(text_of(pdf_of(state, tmp_path / "a.pdf")).split())
    book = load_workbook(BytesIO(build_takeoff_xlsx(gather_takeoff(state, job_takeoff(state)))))
    told = [row[1] for row in book["said"].iter_rows(values_only=True) if row[0] == "caution"]

    for words in (
        "belongs to a licensed engineer",
        "ingeniero con licencia",
        "blades stand still",
        "las cuchillas queden quietas",
        "silica dust",
        "polvo de sílice",
        "Never enter a basin",
        "No entre nunca en una arqueta",
        "Local codes",
        "códigos locales",
    ):
        assert words in text
        assert any(words in one for one in told)
