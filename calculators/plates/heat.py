"""The heat of growing grain as pages show it: by its day, in each sheet, and with nothing to cool it."""

from __future__ import annotations

from ..asking.answer import Answered, answer, example_of
from ..asking.declare import Outcome
from ..asking.figures import fixed, plain_number
from ..drawing.chart import Data
from ..models.living.bed_days import BARLEY_PERCENT, BED_PERCENT, MIDDLE, breathed_a_day, breathed_away, heat_on_day
from ..models.living.breathing import breathing
from ..models.living.pace import growth_after_cast
from ..rules.conventions import USUAL_WATER_C
from ..sheets import find_sheet

DAYS = (1, 2, 3, 4, 5, 7)
WARMTHS = (12.0, 15.0, 18.0)

CASE_DAY, CASE_C = 3, 15.0
"""The grain that every sheet is asked about: day 3 at 15 C, barley at 14 %, grain at 45 %."""


def by_day() -> Data:
    """Heat, gas and loss of a tonne of barley at 15 C, by the day."""
    rows = []
    for day in DAYS:
        grown = growth_after_cast(day=day + MIDDLE, temp_c=CASE_C)
        one = breathing(
            barley_kg=1000.0, barley_moisture=BARLEY_PERCENT, net_moisture=BED_PERCENT, temp_c=CASE_C, growth_h=grown
        )
        grams = (f"{1000.0 * kg:,.0f}" for kg in (one.co2_kg_h, one.o2_kg_h))
        rows.append((str(day), fixed(one.heat_kw, 1), *grams, fixed(24.0 * one.loss_kg_h, 1)))
    return Data(
        ("Day", "Heat, kW", "Carbon dioxide, g an hour", "Oxygen, g an hour", "Dry matter burnt, kg a day"), tuple(rows)
    )


BY_DAY_CAPTION = "A tonne of barley on a floor at 15 °C, from a usual steep (computed; each to a factor of 2.2)"


def shares() -> Data:
    """Share of the dry matter breathed away a day, by day and warmth; and over five days."""
    rows = [(str(day), *(fixed(breathed_a_day(day=day + MIDDLE, temp_c=temp), 1) for temp in WARMTHS)) for day in DAYS]
    rows.append(("first five", *(fixed(breathed_away(days=5.0, temp_c=temp), 1) for temp in WARMTHS)))
    return Data(("Day", *(f"At {plain_number(temp)} °C" for temp in WARMTHS)), tuple(rows))


SHARES_CAPTION = "Dry matter breathed away, % a day, and % in the first five days (computed; to a factor of 2.2)"


def _figure(sheet_id: str, answer_id: str, **typed: str) -> float:
    sheet = find_sheet(sheet_id)
    result = answer(sheet, {**example_of(sheet), **typed})
    assert isinstance(result, Answered) and isinstance(result.outcome, Outcome), (sheet_id, result)
    (found,) = [one.value for one in result.outcome.answers if one.id == answer_id]
    assert isinstance(found, float)
    return found


def one_grain() -> dict[str, float]:
    """The heat of one grain in each sheet that reckons with it [kW a tonne of barley], by the sheet's id."""
    day, temp, moisture = str(CASE_DAY), plain_number(CASE_C), plain_number(BED_PERCENT)
    barley = {"barley_kg": "1000", "barley_moisture": plain_number(BARLEY_PERCENT)}
    lying = {"bottom_c": temp, "top_c": temp, "hours_since_turning": "0", "earlier_rounds": "", "day": day}
    air = {"air_on_c": "14", "air_off_c": "16", "fan_pa": "", "bed_moisture": moisture, "day": day}
    stopped = {"place": "box", "grain_temp_c": temp, "bed_moisture": moisture, "day": day}
    return {
        "floor-round": _figure("floor-round", "heat_kw_t", **lying),
        "bed-heat": _figure("bed-heat", "heat_kw", **barley, **air),
        "gas-build-up": _figure(
            "gas-build-up", "respiration_used_kw_t", day=day, grain_temp_c=temp, respiration_kw_t=""
        ),
        "fan-stopped": _figure("fan-stopped", "usual_kw_t", barley_moisture=barley["barley_moisture"], **stopped),
    }


BEFORE = {"floor-round": "0.84", "bed-heat": "1.72 on a mean day, 2.41 on the busiest", "gas-build-up": "2.41"}
"""What the same grain had in each sheet before the one law, as measured then [kW a tonne of barley]."""


def one_grain_table() -> Data:
    """One grain in every sheet: before, and now."""
    rows = []
    for sheet_id, now in one_grain().items():
        rows.append((find_sheet(sheet_id).title, BEFORE.get(sheet_id, "–"), fixed(now, 2)))
    rows.append(("the one law itself", "–", fixed(heat_on_day(day=CASE_DAY + MIDDLE, temp_c=CASE_C), 2)))
    return Data(("Sheet", "Before, kW/t", "Now, kW/t"), tuple(rows))


ONE_GRAIN_CAPTION = (
    f"One grain, one heat: barley at {plain_number(BARLEY_PERCENT)} %, grain at {plain_number(BED_PERCENT)} % and "
    f"{plain_number(CASE_C)} °C on day {CASE_DAY} (now: asked of each sheet when this page was built)"
)


STEEP_H = 40.0
"""Grain at the end of a usual steep: so long since the first wetting [h], all of it as warm as the usual water."""


def one_steep() -> dict[str, float]:
    """The heat of grain at the end of a steep in each sheet that reckons with it [kW a tonne], by the sheet's id."""
    temp, barley = plain_number(USUAL_WATER_C), {"barley_moisture": plain_number(BARLEY_PERCENT)}
    begun = {"rest_h": "0.5", "drained_moisture": "46", "since_wetting_h": plain_number(STEEP_H), "air_c": temp}
    return {
        "gas-build-up": _figure("gas-build-up", "respiration_used_kw_t", day="0", grain_temp_c=temp, free_m3="3"),
        "steep-oxygen": _figure("steep-oxygen", "heat_kw_t", water_temp_c=temp, immersion="third"),
        "rest-warmth": _figure("rest-warmth", "heat_kw_t", **barley, **begun, start_c=temp),
    }


STEEP_BEFORE = {"gas-build-up": "0.63", "steep-oxygen": "0.004 to 0.04"}
"""The same before the one law, as those sheets reckoned then [kW a tonne of barley]."""


def one_steep_table() -> Data:
    """Grain at the end of a steep in every sheet: before, and now."""
    rows = []
    for sheet_id, now in one_steep().items():
        rows.append((find_sheet(sheet_id).title, STEEP_BEFORE.get(sheet_id, "–"), fixed(now, 2)))
    return Data(("Sheet", "Before, kW/t", "Now, kW/t"), tuple(rows))


ONE_STEEP_CAPTION = (
    f"Gas, oxygen and warmth of one steep: at its end, {plain_number(USUAL_WATER_C)} °C, {plain_number(STEEP_H)} h "
    "since the first wetting (now: asked of each sheet when this page was built)"
)


def stopped() -> Data:
    """How grain warms with nothing to cool it, by its day and its warmth: the soonest case first."""
    rows = []
    for place, day, temp in (("drum", 1, 14), ("drum", 3, 14), ("drum", 3, 17), ("floor", 4, 17), ("rest", 0, 15)):
        typed = {"place": place, "day": str(day), "grain_temp_c": str(temp), "respiration_kw_t": ""}
        sheet = find_sheet("fan-stopped")
        result = answer(sheet, {**example_of(sheet), **typed})
        assert isinstance(result, Answered)
        when = "in a rest" if place == "rest" else f"{place}, day {day}"
        if not isinstance(result.outcome, Outcome):
            rows.append((f"{when}, {temp} °C", "no figure: it would soothe", ""))
            continue
        warms = next(one for one in result.outcome.answers if one.id == "k_per_h")
        assert isinstance(warms.value, float) and warms.low is not None
        rows.append((f"{when}, {temp} °C", f"{fixed(warms.value, 1)} K", f"{fixed(warms.low, 1)} K"))
    return Data(("Grain", "Soonest, in an hour", "By the law, in an hour"), tuple(rows))


STOPPED_CAPTION = "How grain begins to warm once nothing cools it (computed). About grain, never time for people"
