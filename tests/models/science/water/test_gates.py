"""Gates: what each lever does is what the gates themselves say; rain; what is refused."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.water.gates import (
    Gate,
    SlitGrid,
    carry_mm_per_h,
    governing_gate,
    intake_mm_per_h,
    pipe_mm_per_h,
    strip_area_m2,
)
from models.science.water.manning import full_flow_m3_per_s
from models.science.water.widening import Lever, Widening, can_be_cut, rain_gone, widenings


@dataclass(frozen=True)
class Drainage:
    """All that the four gates depend on."""

    grid: SlitGrid
    pipe_bore_nm: int
    pipe_grade: float
    collector_bore_nm: int
    collector_grade: float

    def rates(self) -> dict[Gate, float]:
        """Each gate by its own formula."""
        pipe = full_flow_m3_per_s(self.pipe_bore_nm, self.pipe_grade, 0.015)
        collector = full_flow_m3_per_s(self.collector_bore_nm, self.collector_grade, 0.015)
        return {
            Gate.INTAKE: intake_mm_per_h(self.grid),
            Gate.CARRY: carry_mm_per_h(self.grid),
            Gate.PIPE: pipe_mm_per_h(pipe, strip_area_m2(20 * 10**9, self.grid.piped_spacing_nm)),
            Gate.COLLECTOR: pipe_mm_per_h(collector, 500),
        }

    def pulled(self, lever: Lever, factor: float) -> Drainage:
        """The same with one thing changed."""
        field = FIELDS[lever]
        owner = self.grid if hasattr(self.grid, field) else self
        value = getattr(owner, field) * factor
        moved = value if isinstance(getattr(owner, field), float) else round(value)
        if owner is self.grid:
            return replace(self, grid=replace(self.grid, **{field: moved}))
        return replace(self, **{field: moved})


FIELDS = {
    Lever.SPACING: "spacing_nm",
    Lever.WIDTH: "width_nm",
    Lever.DEPTH: "depth_nm",
    Lever.SAND: "conductivity_mm_per_h",
    Lever.PIPED_SPACING: "piped_spacing_nm",
    Lever.PIPE_GRADE: "pipe_grade",
    Lever.PIPE_BORE: "pipe_bore_nm",
    Lever.COLLECTOR_GRADE: "collector_grade",
    Lever.COLLECTOR_BORE: "collector_bore_nm",
}

MM = 10**6
DRAINAGES = st.builds(
    Drainage,
    st.builds(
        SlitGrid,
        st.integers(20 * MM, 60 * MM),
        st.integers(150 * MM, 400 * MM),
        st.integers(300 * MM, 900 * MM),
        st.integers(300 * MM, 2000 * MM),
        st.floats(100, 4000),
    ),
    st.integers(20 * MM, 50 * MM),
    st.floats(0.003, 0.03),
    st.integers(75 * MM, 150 * MM),
    st.floats(0.001, 0.02),
)


@given(DRAINAGES)
def test_a_pulled_lever_makes_the_next_gate_govern(drainage: Drainage) -> None:
    """Put into the formulas, each factor brings the old gate and the next one level.

    No other gate is narrower then, and a touch less than the factor leaves the old one
    governing.
    """
    rates = drainage.rates()
    assume(min(sorted(rates.values())[1:]) > min(rates.values()) * 1.001)
    old = governing_gate(rates)
    for found in [one for one in widenings(rates) if can_be_cut(one, drainage.grid)]:
        after = drainage.pulled(found.lever, found.factor).rates()
        short = drainage.pulled(found.lever, found.factor**0.9).rates()

        assert after[old] == pytest.approx(found.rate_mm_per_h, rel=1e-4)
        assert after[found.next_gate] == pytest.approx(after[old], rel=1e-4)
        assert min(after.values()) >= after[old] * (1 - 1e-4)
        assert governing_gate(short) is old
        assert found.rate_mm_per_h > rates[old]


def test_sand_cannot_bring_the_carry_to_the_intake() -> None:
    """Both grow with the sand, so only a pipe is met; without pipes the sand is no answer."""
    with_pipe = widenings({Gate.INTAKE: 2.0, Gate.CARRY: 1.0, Gate.PIPE: 5.0})
    without = widenings({Gate.INTAKE: 2.0, Gate.CARRY: 1.0})

    assert [(one.factor, one.next_gate) for one in with_pipe if one.lever is Lever.SAND] == [
        (5.0, Gate.PIPE)
    ]
    assert Lever.SAND not in {one.lever for one in without}


def test_a_pipe_that_carries_nothing_is_a_shut_gate() -> None:
    """A flat collector lets nothing through, and governs."""
    shut = pipe_mm_per_h(0, 1)

    assert shut == 0
    assert governing_gate({Gate.INTAKE: 1.0, Gate.COLLECTOR: shut}) is Gate.COLLECTOR


def test_slits_that_would_touch_cannot_be_cut() -> None:
    """Slits that meet edge to edge are refused; a shade less wide or less close is not."""
    grid = SlitGrid(8, 9, 16, 48, 1.0)
    wider = [Widening(Lever.WIDTH, factor, Gate.PIPE, 1.0) for factor in (1.99, 2.0)]
    closer = [Widening(Lever.SPACING, factor, Gate.PIPE, 1.0) for factor in (0.51, 0.5)]

    assert [can_be_cut(one, grid) for one in wider] == [True, False]
    assert [can_be_cut(one, grid) for one in closer] == [True, False]


def test_one_known_gate_has_nothing_to_meet() -> None:
    """With a single gate there is no next one."""
    assert widenings({Gate.INTAKE: 2.0}) == []


def test_equal_gates_need_no_change() -> None:
    """The first that water meets governs, and a factor of one is enough."""
    rates = {Gate.CARRY: 1.0, Gate.COLLECTOR: 1.0}

    assert governing_gate(rates) is Gate.CARRY
    assert {one.factor for one in widenings(rates)} == {1.0}


@given(st.floats(0, 200), st.floats(0, 48), st.floats(0.1, 100))
def test_no_water_is_lost(rain_mm: float, lasts_h: float, rate: float) -> None:
    """What stands when the rain ends is what leaves after it."""
    gone = rain_gone(rain_mm, lasts_h, rate)

    assert gone.standing_mm == pytest.approx(gone.after_h * rate, abs=1e-9)
    assert gone.gone_h >= lasts_h


@pytest.mark.parametrize(
    "call",
    [
        lambda: intake_mm_per_h(SlitGrid(16, 9, 16, 48, 1.0)),
        lambda: carry_mm_per_h(SlitGrid(1, 9, 16, 0, 1.0)),
        lambda: pipe_mm_per_h(1, 0),
        lambda: pipe_mm_per_h(-1, 1),
        lambda: governing_gate({}),
        lambda: widenings({Gate.INTAKE: 1.0, Gate.COLLECTOR: 0.0}),
        lambda: rain_gone(1, 1, 0),
        lambda: rain_gone(-1, 1, 1),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]
