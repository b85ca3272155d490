"""Sand: what is refused, and laws of the quantities."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.materials.bulking import bulking
from models.science.materials.gradation import USGA_1993, Grain, judge_gradation
from models.science.quality.verdict import Verdict

SIZE = st.integers(10_000_000, 500_000_000)


@pytest.mark.parametrize(
    "call",
    [
        lambda: bulking(160, 200),
        lambda: bulking(160, 0),
        lambda: judge_gradation({}, "USGA 2099"),
        lambda: judge_gradation({Grain.FINE: Fraction(-1)}, USGA_1993),
        lambda: judge_gradation({Grain.FINE: Fraction(60), Grain.COARSE: Fraction(60)}, USGA_1993),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]


def test_an_unmeasured_fraction_is_not_a_pass() -> None:
    """An empty lab sheet is not yet measured in every band."""
    verdicts = {result.verdict for result in judge_gradation({}, USGA_1993)}

    assert verdicts == {Verdict.NOT_MEASURED}
