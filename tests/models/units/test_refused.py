"""What cannot be read is refused with its place, its reason and three forms that would do."""

from __future__ import annotations

import pytest

from models.errors import UnreadableError
from tests.models.units.readers import READERS

INCHES = [
    ("", 1, "nothing was typed"),
    ("   ", 1, "nothing was typed"),
    (".", 1, "needs figures after it"),
    ("8.", 2, "needs figures after it"),
    ("8..5", 3, "two decimal points"),
    ("8.5.2", 4, "two decimal points"),
    ("8-1/3", 5, "halves, 4ths"),
    ("8\u2153", 2, "halves, 4ths"),
    ("8-1/128", 5, "halves, 4ths"),
    ("8-9/8", 3, "not smaller than one"),
    ("9/8", 1, "not smaller than one"),
    ("8-8/8", 3, "not smaller than one"),
    ("1/0", 3, "0 below the line"),
    ("8-1/2/2", 6, "more than one fraction"),
    ("8.5-1/2", 6, "do not go together"),
    ("2'13\"", 3, "below 12"),
    ("2'12", 3, "below 12"),
    ("2.5'3\"", 2, "feet must be whole"),
    ("8 in 3", 6, "nothing follows inches"),
    ("8 1", 3, "side by side"),
    ("8-", 2, "missing after it"),
    ("8/", 2, "missing after it"),
    ("1e3", 2, "powers of ten"),
    ("1E-3", 2, "powers of ten"),
    ("0x10", 2, "decimal figures"),
    ("1_000", 2, "only digits"),
    ("8,5", 2, "comma"),
    ("1,000", 2, "comma"),
    ("8in3", 4, "area or a volume"),
    ("8 m\u00b2", 4, "area or a volume"),
    ("--8", 2, "two signs"),
    ("-8", 1, "minus sign is not used"),
    ("+8", 1, "plus sign is not used"),
    ("8 1/2 ft", 7, "inches only"),
    ("8-1/2 mm", 7, "inches only"),
    ("inf", 1, "not a number"),
    ("-Infinity", 2, "not a number"),
    ("nan", 1, "not a number"),
    ("abc", 1, "does not begin with a number"),
    ("in", 1, "does not begin with a number"),
    ("8 xx", 3, "'xx' is not a unit"),
    ("8 yd", 3, "'yd' is not a unit"),
    ("12+34.5", 3, "station"),
    ("1:200", 2, "ratio"),
    ("5%", 2, "grade"),
    ("~8-1/2", 1, "rounded for showing"),
    ("\u0663", 1, "digits 0 to 9"),
    ("8\u0665", 2, "digits 0 to 9"),
    ("8\u00b2", 2, "digits 0 to 9"),
    ("\u21532", 2, "right after a fraction"),
    ("8 \u03bcm", 3, "is not used here"),
    ("8\n", 2, "invisible"),
    ("8\x00", 2, "invisible"),
    ("8\u200b5", 2, "invisible"),
    ("8" * 41, 41, "longer than 40"),
    ("99999999999999 m", 1, "larger than the book"),
    ("0.0000001", 9, "finer than"),
    ("0.000001 ft", 8, "finer than"),
    ("  8 1/3\u201d", 7, "halves, 4ths"),  # the place counts what was typed, blanks and all
    ("   8,5", 5, "comma"),
    ("2\u2019\u200913\u2033", 4, "below 12"),
]
OTHERS = [
    ("length ft", "8-1/2", 3, "inches only"),
    ("station us_100ft", "", 1, "nothing was typed"),
    ("station us_100ft", "1+2", 2, "2 figures after the +"),
    ("station us_100ft", "1+025", 2, "2 figures after the +"),
    ("station us_100ft", "0+125.5", 2, "2 figures after the +"),
    ("station metric_1000m", "1+25", 2, "3 figures after the +"),
    ("station metric_100m", "1+250", 2, "2 figures after the +"),
    ("station us_100ft", "1+", 2, "missing after the +"),
    ("station us_100ft", "+25", 1, "missing before the +"),
    ("station us_100ft", "1+-25", 3, "sign of a station"),
    ("station us_100ft", "1+25+25", 2, "more than one +"),
    ("station us_100ft", "1.5+25", 4, "whole stations"),
    ("station us_100ft", "sta 1+2", 6, "2 figures after the +"),
    ("station us_100ft", "sta", 4, "something is missing"),
    ("station us_100ft", "1+25.00000001", 13, "finer than"),
    ("grade", "2:1", 1, "begins with 1"),
    ("grade", "0.06 in 200", 1, "begins with 1"),
    ("grade", "1:0", 3, "cannot be 0"),
    ("grade", "1 in 200 ft", 3, "inch or a ratio"),
    ("grade", "1 in per 10", 12, "no unit"),
    ("grade", "1 in per 0 ft", 10, "cannot be 0"),
    ("grade", "1/200", 6, "no unit"),
    ("grade", "5 mm/ft", 6, "mixes"),
    ("grade", "1/8 mm/m", 1, "inches only"),
    ("grade", "1/3 in/ft", 3, "halves, 4ths"),
    ("grade", "5 in/yd", 6, "'yd' is not a unit"),
    ("grade", "200", 1, "steeper than 100 %"),
    ("grade", "1+25", 2, "station"),
    ("grade", "0,5 %", 2, "comma"),
    ("grade", "% 5", 1, "does not begin with a number"),
    ("volume yd3", "10 m", 4, "'m' is not a unit"),
    ("volume m3", "1/2", 1, "metric"),
    ("volume yd3", "-5", 1, "minus sign"),
    ("volume m3", "9224", 1, "larger than the book"),
    ("mass ton", "12 T", 4, "short or a metric ton"),
    ("mass ton", "12 long tons", 4, "'long tons' is not a unit"),
    ("mass t", "1/2", 1, "metric"),
    ("mass lb", "1,250", 2, "comma"),
    ("count", "1.5", 2, "no point"),
    ("count", "-3", 1, "minus sign"),
    ("count", "1/2", 2, "fraction"),
    ("count", "99999999999", 1, "counted that high"),
    ("time", "7", 2, "minutes are missing"),
    ("time", "24:00", 1, "hours go to 23"),
    ("time", "7:60", 3, "minutes go to 59"),
    ("time", "13:05 pm", 1, "1 to 12"),
    ("time", "0:30 am", 1, "1 to 12"),
    ("time", "7.05", 2, "colon"),
    ("time", "7:05:00", 5, "seconds"),
    ("duration min", "1:60", 3, "go to 59"),
    ("duration min", "1:5", 3, "two figures"),
    ("duration min", "5.", 2, "needs figures after it"),
    ("duration min", "0.33 h", 1, "whole number of minutes"),
    ("duration min", "1.5 h 15 min", 1, "hours must be whole"),
    ("duration min", "99999", 1, "longer than a month"),
]
REFUSALS = [*(("length in", *row) for row in INCHES), *OTHERS]


@pytest.mark.parametrize(("reader", "text", "place", "why"), REFUSALS)
def test_refusal_names_text_place_and_reason(reader: str, text: str, place: int, why: str) -> None:
    """The error says what was typed, at which character it fails, and why."""
    with pytest.raises(UnreadableError) as caught:
        READERS[reader](text)

    facts = caught.value.context
    assert why in str(facts["why"])
    assert facts["place"] == place
    assert text.startswith(str(facts["text"]).removesuffix("..."))


@pytest.mark.parametrize("reader", READERS)
def test_three_forms_are_offered_and_each_is_read(reader: str) -> None:
    """What the refusal offers would not be refused."""
    with pytest.raises(UnreadableError) as caught:
        READERS[reader]("?")

    forms = str(caught.value.context["forms"]).split(", ")
    assert len(forms) == 3
    for form in forms:
        READERS[reader](form)


def test_long_text_is_cut_in_the_sentence() -> None:
    """Pasted prose does not fill the screen."""
    with pytest.raises(UnreadableError) as caught:
        READERS["grade"]("x" * 100_000)

    assert len(str(caught.value)) < 300
