"""The span of what barley comes to in air, as the page of the store prints it."""

from __future__ import annotations

from pathlib import Path

import pytest

from calculators.models.grain.equilibrium import equilibrium_moisture
from tests.models.both_sides import Case, cases

PAGE = Path("docs/procedures/store-through-the-year.md").read_text("utf-8")


@pytest.mark.parametrize("case", cases(equilibrium_moisture, {"humidity": 65.0, "temp_c": 15.0}, humidity=(20.0, 90.0),
                                       temp_c=(0.0, 40.0)), ids=str)  # fmt: skip
def test_a_limit_is_accepted_exactly_and_refused_just_outside(case: Case) -> None:
    case.hold()


@pytest.mark.parametrize("humidity", [60, 65, 70, 80])
def test_the_page_prints_what_is_computed(humidity: int) -> None:
    spans = [equilibrium_moisture(humidity=humidity, temp_c=temp) for temp in (5, 15, 25)]
    cells = " | ".join(f"{span.low:.1f}–{span.high:.1f} %" for span in spans)
    assert f"| {humidity} % | {cells} |" in PAGE


def test_wetter_air_wets_and_warmth_dries() -> None:
    for low, high in ((50, 60), (60, 80)):
        one, other = (equilibrium_moisture(humidity=at, temp_c=15) for at in (low, high))
        assert one.low < other.low and one.high < other.high
    assert equilibrium_moisture(humidity=65, temp_c=25).low < equilibrium_moisture(humidity=65, temp_c=5).low
