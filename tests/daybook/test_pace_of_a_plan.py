"""A plan without an hour is loaded when the bed is ready, as fast as a bed of its warmth goes."""

from __future__ import annotations

from datetime import datetime
from types import SimpleNamespace
from typing import Any

import pytest

from calculators.daybook.next.off_plan import _planned_load_h
from calculators.models.living.ready import BED_C
from calculators.rules.replan.bed import BedNow


def hours_to_load(temp_c: float) -> float:
    none: Any = SimpleNamespace(of=lambda kind: ())
    bed = BedNow("floor", 12.5, 44.0, temp_c, 40.0, 6.0, 12.0, None, 5.0)
    return _planned_load_h(none, bed, none, datetime(2026, 11, 30, 12))


@pytest.mark.parametrize(("cooler", "warmer"), [(15.0, 20.0), (25.0, 27.5), (27.5, BED_C.high)])
def test_a_warmer_bed_is_ready_sooner_up_to_the_warmest_that_has_a_pace(cooler: float, warmer: float):
    assert hours_to_load(warmer) < hours_to_load(cooler) - 0.5


def test_beyond_what_has_a_pace_the_nearest_is_taken():
    assert hours_to_load(BED_C.high + 5.0) == hours_to_load(BED_C.high)
    assert hours_to_load(BED_C.low - 3.0) == hours_to_load(BED_C.low)
