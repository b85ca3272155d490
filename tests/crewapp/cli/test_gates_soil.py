"""From a plan file to what ``crewapp plan gates`` says of the soil between the piped slits."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.main import main
from tests.crewapp.conftest import put_plan

Captured = pytest.CaptureFixture[str]
RAIN = {"surface_id": "G7", "sand": "20 in/h", "roughness": "0.011", "rain": "1 in", "lasts": "1 h"}


def planned(folder: Path, **terms: str) -> Path:
    """Bring a plan with terms into a new book."""
    plan = put_plan(folder, drainage_terms=[{**RAIN, **terms}])
    book = folder / "new.book"
    assert main(["plan", "import", str(book), str(plan)]) == 0
    return book


def gates(book: Path, capsys: Captured) -> tuple[str, dict[str, Any]]:
    """What is printed of the gates, and what is told as JSON of the one surface."""
    capsys.readouterr()
    assert main(["plan", "gates", str(book), "--surface", "G7"]) == 0
    printed = capsys.readouterr().out
    assert main(["plan", "gates", str(book), "--surface", "G7", "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)["surfaces"][0]
    return printed, found


def test_soil_is_told_beside_the_gates(tmp_path: Path, capsys: Captured) -> None:
    """Slits of 9 in to a layer 9 in down: 4 K (9 / spacing)^2, and whose the design is."""
    book = planned(tmp_path, soil="0.5 in/h", impermeable_depth="9 in")
    printed, found = gates(book, capsys)
    soil = next(line for line in printed.splitlines() if "the soil between the piped slits" in line)

    # piped slits 48 in apart, by hand: 4 x 0.5 x (9 / 48)^2 = 0.0703 in/h
    assert found["soil_mm_per_h"] == pytest.approx(4 * 0.5 * 25.4 * (9 / 48) ** 2)
    assert "carries: 0.07 in/h = Hooghoudt: 0.50 in/h of the soil, head 9 in" in soil
    assert "governs" not in soil
    assert "The soil is a way beside the slits and governs nothing; alone" in printed
    assert "soil" not in " ".join(found["missing"])
    assert "An estimate, not a design" in printed


def test_soil_that_is_not_known_is_said(tmp_path: Path, capsys: Captured) -> None:
    """No figure, one sentence, and every gate as before."""
    printed, found = gates(planned(tmp_path), capsys)
    other = tmp_path / "other"
    other.mkdir()
    _, known = gates(planned(other, soil="0.01 in/h", impermeable_depth="9 in"), capsys)

    assert "  For G7 the conductivity of its soil and the depth to the impermeable layer" in printed
    assert "Hooghoudt" not in printed
    assert found["soil_mm_per_h"] is None
    assert [one["mm_per_h"] for one in found["gates"]] == [
        one["mm_per_h"] for one in known["gates"]
    ]
    assert found["gates"][0]["governing"] == known["gates"][0]["governing"]


@pytest.mark.parametrize(
    ("terms", "words"),
    [({"soil": "0.5"}, "in/h"), ({"impermeable_depth": "9"}, "9 in"), ({"soil": "0 in/h"}, "soil")],
)
def test_soil_without_a_unit_or_of_nothing_is_refused(
    tmp_path: Path, capsys: Captured, terms: dict[str, str], words: str
) -> None:
    """Told with what would be accepted; no book is made."""
    plan = put_plan(tmp_path, drainage_terms=[{**RAIN, **terms}])

    assert main(["plan", "import", str(tmp_path / "new.book"), str(plan)]) == 2
    assert words in capsys.readouterr().err
    assert not (tmp_path / "new.book").exists()
