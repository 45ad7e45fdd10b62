"""How long a fan runs before the first test of the air."""

from __future__ import annotations

from ..asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Chart,
    Either,
    Found,
    Line,
    Mark,
    Note,
    Number,
    Outcome,
    Refusal,
    Sheet,
)
from ..asking.figures import at_least, carried, few_digits, fixed, limits_said, plain_number
from ..models.gas import dilution as gas
from ..models.gas import shut_vessel
from ..models.nature import OUTDOOR_PPM
from ..rules import gases
from ..words import within
from ..words.cautions import NO_ENTRY, PROCESS_AIR
from ..words.gas import BEYOND_THE_METER
from ..words.questions.shared import barley_kg, germination_day, number

SOURCE_TEMP_C = 20.0
"""Temperature taken for the grain and its gas: warmer than most beds, so on the high side [C]."""

HIGHEST_TARGET_PPM = gases.strictest(gases.CO2, "day").ppm
"""No target above the strictest published value for the mean of a day [ppm]."""

LEFT_INSIDE = (
    "Grain, roots or slurry left inside make gas for days, and could bring the air back to deadly while the fan runs "
    "and the moment it stops. Look from outside, by camera or from the rail. If any is there, give its weight and "
    "day."
)

TEST_STANDS = (
    "The order stands: a competent person has the air tested from outside, low down first, at several depths, for "
    "oxygen and for carbon dioxide, before and after the fan has run. The fan goes on."
)

ROOMS_ONLY = Note(
    "warning",
    "The sum was published for rooms with nothing in them that makes gas. In a vessel the gas lies low and in "
    "corners that a fan does not sweep, and could strike someone down there while the mean is low.",
)

volume_m3 = number(
    "volume_m3",
    "Volume of air",
    "m3",
    gas.VOLUME_M3,
    "The whole space that is blown through, with ducts and the space under the floor.",
    example="40",
)
airflow_m3_h = number(
    "airflow_m3_h",
    "Fresh air",
    "m3/h",
    gas.AIRFLOW_M3_H,
    "Outdoor air that goes in, measured. Air that only goes round does not count.",
    example="3000",
)
start_ppm = Number(
    "start_ppm",
    "Carbon dioxide now",
    "ppm",
    0,
    1_000_000,
    "As read from outside at the lowest point. 4 % is understood as 40000.",
    example="60000",
)
end_ppm = Number(
    "end_ppm",
    "First test at",
    "ppm",
    1,
    HIGHEST_TARGET_PPM,
    "Where the mean should be when the first test is made from outside. Not a limit for people.",
    example="1000",
    reason=f"Above {HIGHEST_TARGET_PPM:,.0f} ppm lies no published value for the mean of a day.",
)
outdoor_ppm = Number(
    "outdoor_ppm",
    "Carbon dioxide in the air blown in",
    "ppm",
    350,
    50_000,
    f"Outdoors about {plain_number(OUTDOOR_PPM)}; more near an outlet or in a cellar.",
    default=plain_number(OUTDOOR_PPM),
    source="from memory",
)
source_kg_h = number(
    "source_kg_h",
    "Gas still being made",
    "kg/h",
    gas.SOURCE_KG_H,
    "From the sheet on gas in a shut vessel. 0 takes away no warning.",
)


def _source(kg_h: float | None, barley_kg: float | None, day: float | None) -> tuple[float, str]:
    if kg_h is not None:
        return kg_h, f"{plain_number(kg_h)} kg/h"
    if barley_kg is None or day is None:
        return 0.0, "no gas made"
    kw_t = shut_vessel.soonest_kw_t(day=day, grain_temp_c=SOURCE_TEMP_C)
    made = shut_vessel.co2_kg_h(barley_kg=barley_kg, respiration_kw_t=kw_t)
    return made, f"{fixed(made, 2)} kg/h ({plain_number(barley_kg)} kg at {fixed(kw_t, 1)} kW/t, the most it may make)"


def work(
    *,
    volume_m3: float,
    airflow_m3_h: float,
    start_ppm: float,
    end_ppm: float,
    outdoor_ppm: float,
    source_kg_h: float | None,
    barley_kg: float | None,
    day: float | None,
) -> Outcome | Refusal:
    """Dilute the mean of the space, if it can be diluted that far."""
    changes = airflow_m3_h / volume_m3
    _check_air(changes, volume_m3)
    made, said = _source(source_kg_h, barley_kg, day)
    space = {
        "airflow_m3_h": airflow_m3_h,
        "outdoor_ppm": outdoor_ppm,
        "source_m3_h": gas.gas_m3_h(source_kg_h=made, temperature_c=SOURCE_TEMP_C),
        "mixing": gas.VESSEL_MIXING,
    }
    floor = gas.floor_ppm(**space)
    notes = _notes(made)
    if end_ppm <= floor:
        return Refusal(_never(end_ppm, outdoor_ppm, floor), notes)
    if start_ppm <= end_ppm:
        return Refusal(
            f"No time is given. {plain_number(start_ppm)} ppm was read, and the first test was to be at "
            f"{plain_number(end_ppm)}: that is one place and one minute, and says nothing of the low places. "
            f"{TEST_STANDS}",
            notes,
        )
    course = {**space, "volume_m3": volume_m3, "start_ppm": start_ppm}
    by_sum = gas.dilution_minutes(**course, end_ppm=end_ppm)
    one_change = 60 * gas.VESSEL_MIXING / changes
    minutes = max(by_sum, one_change)
    working = (
        f"60 × {plain_number(gas.VESSEL_MIXING)} × {plain_number(volume_m3)} / {plain_number(airflow_m3_h)} × "
        f"ln(({plain_number(start_ppm)} − {fixed(floor, 0)}) / ({plain_number(end_ppm)} − {fixed(floor, 0)})) "
        f"= {fixed(by_sum, 1)} min"
    )
    if one_change > by_sum:
        working = (
            f"60 × {plain_number(gas.VESSEL_MIXING)} × {plain_number(volume_m3)} / {plain_number(airflow_m3_h)} = "
            f"{fixed(one_change, 1)} min, never less than one change of air, times ten"
        )
    found = (
        Found("minutes", minutes, working),
        Found(
            "floor_ppm",
            floor,
            f"{plain_number(outdoor_ppm)} + 1,000,000 × {carried(space['source_m3_h'])} m³/h × "
            f"{plain_number(gas.VESSEL_MIXING)} / {plain_number(airflow_m3_h)} m³/h = {fixed(floor, 0)} ppm, {said}",
        ),
        Found(
            "air_changes", changes, f"{plain_number(airflow_m3_h)} / {plain_number(volume_m3)} = {fixed(changes, 1)}"
        ),
        Found(
            "air_changes_in_all",
            changes * minutes / 60,
            f"{carried(changes)} an hour × {carried(minutes)} min / 60 = {fixed(changes * minutes / 60, 1)}",
        ),
    )
    return Outcome(found, notes=notes, charts=(_chart(course, minutes, end_ppm),))


def _check_air(changes: float, volume_m3: float) -> None:
    low, high = gas.AIR_CHANGES_H
    if not low <= changes <= high:
        least, most = limits_said(low * volume_m3, high * volume_m3)
        why = "That is no fan for this space." if changes < low else "No fan gives a vessel that."
        raise AskAgain(
            "airflow_m3_h",
            f"that is {few_digits(changes)} air changes an hour. {why} Type a number from {least} to {most} m³/h. "
            "Check both units.",
        )


def _never(end: float, outdoor: float, floor: float) -> str:
    if end <= outdoor:
        return (
            f"{plain_number(end)} ppm is never reached: the air blown in already has "
            f"{plain_number(outdoor)} ppm. No fan brings a space below the air it blows. {TEST_STANDS}"
        )
    return (
        f"{plain_number(end)} ppm is never reached: gas is still being made, and where air mixes badly this fan cannot "
        f"bring even the mean below {few_digits(floor, 4)} ppm, however long it runs. Take the grain away or use more "
        f"air. {TEST_STANDS}"
    )


def _notes(made: float) -> tuple[Note, ...]:
    reckoned = "Reckoned as if nothing in there makes gas. " if made == 0 else ""
    return (
        NO_ENTRY,
        ROOMS_ONLY,
        Note("warning", reckoned + LEFT_INSIDE),
        PROCESS_AIR,
        Note(
            "remark",
            f"{TEST_STANDS} With the fan off the gas comes back: [[sheet:gas-build-up|gas in a shut vessel]].",
        ),
    )


def _chart(course: dict[str, float], minutes: float, end_ppm: float) -> Chart:
    steps = [minutes * n / 24 for n in range(25)]
    percent = [gas.diluted_ppm(minutes=t, **course) / 1e4 for t in steps]
    return Chart(
        "course",
        "Mean carbon dioxide while the fan runs",
        f"The mean of the space falls to {plain_number(end_ppm)} ppm or less after "
        f"{plain_number(at_least(minutes, 0))} minutes of fan. "
        "Low corners and the air between corns lag behind. The curve allows no entry.",
        Axis("Fan running", "min", 0.0, minutes, 0),
        Axis("Carbon dioxide, mean", "%", 0.0, None, 2),
        lines=(Line("mixed as badly as in a vessel", steps, percent),),
        marks=(Mark("first test", end_ppm / 1e4),),
    )


SHEET = Sheet(
    id="dilution-estimate",
    title="Fan before the first test",
    purpose="How long to blow fresh air before a competent person tests it, from outside, for the first time.",
    questions=(
        volume_m3,
        airflow_m3_h,
        start_ppm,
        end_ppm,
        source_kg_h,
        barley_kg._replace(
            label="Barley still inside",
            low=shut_vessel.BARLEY_KG.low,
            high=shut_vessel.BARLEY_KG.high,
            hint="As it was filled into the steep, with its day.",
            example="",
        ),
        germination_day,
        outdoor_ppm,
    ),
    either=(Either((("source_kg_h",), ("barley_kg", "day")), required=False),),
    answers=(
        Answer(
            "minutes",
            "Minutes of fan before the first test",
            "min",
            0,
            lead=True,
            rests_on="MMWR 43 (RR-13), Table S3-1: t = K (V/Q) ln((C1 − F)/(C2 − F)), with K = 10 always",
            trust="The mean of a room without growing grain. It allows no entry, and it is not the end of the fan.",
            next="Then have the air tested from outside, low down first. The fan goes on.",
            rounds_up=True,
            within=within.between(
                0.0,
                10_000.0,
                "A fan that takes longer is no fan for this space.",
                "airflow_m3_h",
                instead="Find out what fan it is.",
            ),
        ),
        Answer(
            "floor_ppm",
            "Lowest mean by this sum",
            "ppm",
            0,
            rests_on="balance of gas made and air blown in, the air divided by ten for mixing",
            trust="A mean. Low places hold more.",
            rounds_up=True,
            within=within.ppm("airflow_m3_h"),
        ),
        Answer(
            "air_changes",
            "Air changes an hour",
            "",
            1,
            rests_on="fresh air by volume",
            within=within.between(0.0, gas.AIR_CHANGES_H.high, "No fan gives a vessel more.", "airflow_m3_h"),
        ),
        Answer(
            "air_changes_in_all",
            "Air changes in all",
            "",
            1,
            rests_on="air changes by time",
            within=within.between(0.0, 10_000.0, "No fan gives a vessel so many.", "airflow_m3_h"),
        ),
    ),
    work=work,
    guarded=True,
    first=BEYOND_THE_METER,
    sources=("mmwr-s3-1", "cfr-1910-146", "niosh-co2"),
    story="An emptied drum of the example maltings: invented numbers.",
)
