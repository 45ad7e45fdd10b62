"""Gas in pages: a shut drum by the minutes, what an oxygen meter shows, and the published values, all computed."""

from __future__ import annotations

from collections.abc import Callable

from ..asking.declare import Axis, Band, Chart, Line, Mark
from ..asking.figures import at_least, fixed, plain_number
from ..drawing.chart import Data
from ..models.bed import respiration
from ..models.gas import shut_vessel
from ..models.gas.dilution import gas_m3_h
from ..models.nature import FRESH_OXYGEN_PERCENT
from ..rules import gases
from ..words.gas import (
    ALARM_PPM,
    STAGES,
    STEEP_WANTS_MG,
    limit_name,
    minutes_words,
    percent_words,
    printed_words,
)

DRUM = shut_vessel.EXAMPLE_DRUM
SHUT = shut_vessel.shut(**DRUM)
DANGER_PPM = gases.strictest(gases.CO2, "danger").ppm
LEAVE_PPM = gases.strictest(gases.CO2, "ceiling", "short").ppm
DAY_PPM = gases.strictest(gases.CO2, "day").ppm
PUSHED_ALARM_PPM = (1 - gases.OXYGEN_ALARM_PERCENT / FRESH_OXYGEN_PERCENT) * 1e6
"""Carbon dioxide when an oxygen alarm sounds where the gas flowed in and pushed the air away [ppm]."""

_CASE = (
    f"A shut drum of the example maltings, invented: {plain_number(DRUM['barley_kg'] / 1000)} tonnes on day "
    f"{plain_number(DRUM['day'])} at {plain_number(DRUM['grain_temp_c'])} °C, {plain_number(DRUM['free_m3'])} m³ of "
    "air left, no leak. Computed, not measured. The soonest case is the far end of the law of breathing, for grain "
    "further on than is said. Yours differs. These are never minutes for anybody."
)


def _soonest(ppm: float) -> str:
    return minutes_words(SHUT.minutes_until(ppm)[0])


def shut_drum() -> Chart:
    """The rise in the shut drum, the soonest case in front."""
    end = 20.0
    steps = [end * n / 40 for n in range(41)]
    courses = [SHUT.ppm_after(minutes) for minutes in steps]
    fast, middle = ([course[n] / 1e4 for course in courses] for n in range(2))
    top = 10.0
    within = sum(value <= top for value in fast)
    return Chart(
        "shut-drum",
        "Carbon dioxide after the fan stops in a shut drum",
        f"{_soonest(DANGER_PPM).capitalize()} after the fan stops the air can be at {percent_words(DANGER_PPM)}: "
        f"dangerous to life at once. {_CASE}",
        Axis("Since the fan stopped", "min", 0.0, end, 1),
        Axis("Carbon dioxide", "%", 0.0, top, 1),
        lines=(
            Line("soonest case", steps[:within], fast[:within]),
            Line("by the typical heat", steps, middle),
        ),
        bands=(Band("typical to soonest", steps, middle, [min(value, top) for value in fast]),),
        marks=(
            Mark(f"dangerous at once, {percent_words(DANGER_PPM)}", DANGER_PPM / 1e4),
            Mark(f"leave, {percent_words(LEAVE_PPM)}", LEAVE_PPM / 1e4),
        ),
    )


def shut_drum_times() -> Data:
    """When the drum passes what means something, the soonest first."""
    rows = []
    for stage in STAGES:
        soonest, reckoned = SHUT.minutes_until(stage.ppm)
        assert soonest is not None and reckoned is not None
        rows.append((fixed(soonest, 1), fixed(reckoned, 1), f"{fixed(stage.ppm / 1e4, 1)} %", stage.name))
    return Data(("Soonest, minutes", "By the typical heat", "Carbon dioxide", "What that means"), tuple(rows))


TIMES_CAPTION = (
    "Minutes after the fan stops in the shut drum of the example maltings, computed. Never minutes for anybody"
)


def oxygen_meter() -> Data:
    """What an oxygen meter shows beside carbon dioxide."""

    def words(percent: float) -> str:
        # the alarm's own figure counts as sounding, however the machine rounds it
        loud = percent <= gases.OXYGEN_ALARM_PERCENT + 1e-9
        return f"{fixed(percent, 1)} %: " + ("the alarm sounds" if loud else "silent")

    rows = []
    for ppm, said in (
        (ALARM_PPM, ""),
        (DANGER_PPM, ": dangerous to life at once"),
        (PUSHED_ALARM_PPM, ": unconscious in minutes" if PUSHED_ALARM_PPM > 0.95 * gases.UNCONSCIOUS_PPM else ""),
    ):
        rows.append(
            (
                f"{fixed(ppm / 1e4, 1)} %{said}",
                words(shut_vessel.oxygen_percent(ppm=ppm)),
                words(shut_vessel.oxygen_displaced_percent(ppm=ppm)),
            )
        )
    return Data(
        ("Carbon dioxide", "Oxygen, where the grain used it up", "Oxygen, where the gas flowed in"),
        tuple(rows),
    )


OXYGEN_CAPTION = f"What an oxygen meter shows, from {plain_number(FRESH_OXYGEN_PERCENT)} % in fresh air (computed)"


def gas_made() -> Data:
    """What six tonnes breathe out, by the day."""
    rows = []
    for day, temp in ((0.0, 14.0), (1.0, 14.0), (3.0, 15.0), (3.0, 20.0), (5.0, 15.0)):
        most, typical = (
            shut_vessel.co2_kg_h(barley_kg=DRUM["barley_kg"], respiration_kw_t=kw_t)
            for kw_t in (
                shut_vessel.soonest_kw_t(day=day, grain_temp_c=temp),
                shut_vessel.typical_kw_t(day=day, grain_temp_c=temp),
            )
        )
        volume = gas_m3_h(source_kg_h=most, temperature_c=temp)
        when = "in the steep" if day == 0 else f"day {plain_number(day)}"
        rows.append(
            (
                f"{when}, {plain_number(temp)} °C",
                fixed(at_least(most, 0), 0),
                fixed(at_least(volume, 0), 0),
                fixed(typical, 1),
            )
        )
    return Data(
        ("Grain", "Gas at the most, kg an hour", "As bare gas, m³ an hour", "Gas, typical, kg an hour"), tuple(rows)
    )


MADE_CAPTION = (
    f"What {plain_number(DRUM['barley_kg'] / 1000)} tonnes breathe out (computed by the law of breathing; at the most: "
    "its far end, for grain further on than is said)"
)


def limits_table(gas: str) -> Data:
    """The published values for one gas."""
    rows = []
    for limit in gases.limits_of(gas):
        name = limit_name(limit) + (f"; {limit.remark}" if limit.remark else "")
        rows.append((name, f"{limit.ppm:,.10g}", printed_words(limit), limit.how_read))
    return Data(("Whose, over what time", "ppm", "Printed in mg/m³ (at)", "How far it was read"), tuple(rows))


FACTS: dict[str, Callable[[], str]] = {
    "danger-soonest": lambda: _soonest(DANGER_PPM),
    "leave-soonest": lambda: _soonest(LEAVE_PPM),
    "day-soonest": lambda: _soonest(DAY_PPM),
    "alarm-soonest": lambda: _soonest(ALARM_PPM),
    "danger-ppm": lambda: f"{DANGER_PPM:,.0f} ppm",
    "danger-percent": lambda: percent_words(DANGER_PPM),
    "leave-ppm": lambda: f"{LEAVE_PPM:,.0f} ppm",
    "leave-percent": lambda: percent_words(LEAVE_PPM),
    "day-ppm": lambda: f"{DAY_PPM:,.0f} ppm",
    "day-percent": lambda: percent_words(DAY_PPM),
    "alarm-used": lambda: f"{fixed(ALARM_PPM / 1e4, 1)} %",
    "alarm-pushed": lambda: f"{fixed(PUSHED_ALARM_PPM / 1e4, 1)} %",
    "oxygen-at-danger": lambda: f"{fixed(shut_vessel.oxygen_displaced_percent(ppm=DANGER_PPM), 1)} %",
    "h2s-danger-ppm": lambda: f"{gases.strictest(gases.H2S, 'danger').ppm:g} ppm",
    "kg-h-kw": lambda: f"{fixed(respiration.co2_kg_h_at(heat_kw=1.0), 2)} kg",
    "steep-first-mg": lambda: f"{fixed(STEEP_WANTS_MG[0][0], 0)} mg",
    "steep-third-mg": lambda: f"{fixed(STEEP_WANTS_MG[1][0], 0)} mg",
    "steep-most-mg": lambda: f"{fixed(STEEP_WANTS_MG[1][1], 0)} mg",
}
"""Figures about gas that stand in sentences of pages, by name."""
