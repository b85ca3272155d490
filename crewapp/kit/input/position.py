"""Where the tablet is: a question of a form, its accuracy in words, and what goes in the book."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import Any

from crewapp.kit.input.forms import AnswerKind, Answers, Step
from crewapp.words.translate import say, translate_later
from models.units.job_units import Figures

NDEG, NM_PER_M = 10**9, 10**9
FARTHEST_LAT, FARTHEST_LON = 90.0, 180.0
WORST_M = 100_000.0
"""An accuracy of more than this says nothing."""

FIELD = "position"
TAKE = translate_later("Take position")
ASKING = translate_later("asking the tablet")
REFUSED = translate_later(
    "No position on this tablet: {why}. Everything else can be inked without it."
)
NONE_YET = translate_later(
    "No position yet. Stand clear of trees and walls and try again, or ink it without."
)


def position_step() -> Step:
    """Question where the tablet is; an answer is never needed."""
    return Step(FIELD, say("Position"), say("Where is the tablet?"), AnswerKind.POSITION)


def position_answer(
    lat_deg: float, lon_deg: float, accuracy_m: float | None, figures: Figures
) -> dict[str, Any] | None:
    """A position as a form keeps it, its accuracy in the job's unit; None if it is none."""
    if not (isfinite(lat_deg) and isfinite(lon_deg)):
        return None
    if abs(lat_deg) > FARTHEST_LAT or abs(lon_deg) > FARTHEST_LON:
        return None
    good_nm = good_to_nm(accuracy_m)
    text = say("accuracy not known")
    if good_nm is not None:
        text = say("good to {distance}", distance=figures.distance(good_nm))
    return {
        "lat": round(lat_deg * NDEG),
        "lon": round(lon_deg * NDEG),
        "good": good_nm,
        "text": text,
    }


def good_to_nm(accuracy_m: float | None) -> int | None:
    """The accuracy that the tablet states, in nm; None where it states none that means a thing."""
    if accuracy_m is None or not isfinite(accuracy_m) or not 0 < accuracy_m <= WORST_M:
        return None
    return round(accuracy_m * NM_PER_M)


def is_better(new: dict[str, Any], old: Any) -> bool:
    """Whether a position is known better than one that is there already."""
    if not isinstance(old, dict) or old.get("good") is None:
        return True
    return new["good"] is not None and new["good"] <= old["good"]


@dataclass(frozen=True, slots=True)
class Position:
    """Fields of an entry's position by their names; None and nothing where there is none."""

    placed_by: str | None = None
    lat_ndeg: int | None = None
    lon_ndeg: int | None = None
    placed_sd_nm: int | None = None


def position_of(answers: Answers) -> Position:
    """Return the position that was taken for a form; an empty one where none was."""
    taken = answers.get(FIELD)
    if not isinstance(taken, dict):
        return Position()
    return Position("position", taken["lat"], taken["lon"], taken["good"])
