"""How long a fan runs before the first test of the air."""

from __future__ import annotations

from ..cautions import NO_ENTRY, PROCESS_AIR
from ..declare import (
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
from ..figures import fixed, plain_number
from ..models import gas, shut_vessel
from ..questions import barley_kg, germination_day, number

SOURCE_TEMP_C = 20.0
"""Temperature taken for the grain and its gas: warmer than most beds, so on the high side [C]."""

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
    example="25",
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
    1_000_000,
    "Where the mean should be when the first test is made from outside. Not a limit for people.",
    example="1000",
)
outdoor_ppm = Number(
    "outdoor_ppm",
    "Carbon dioxide in the air blown in",
    "ppm",
    0,
    50_000,
    "Outdoors about 420; more near an outlet or in a cellar.",
    default="420",
    source="from memory",
)
mixing = number(
    "mixing",
    "Mixing",
    "",
    gas.MIXING,
    "10 very poor, as in a vessel with corners, grain or ducts; 1 perfect, which no vessel has.",
    default="10",
    source="MMWR 43 (RR-13): up to 10 where air is very poorly distributed",
)
source_kg_h = number(
    "source_kg_h",
    "Gas still being made",
    "kg/h",
    gas.SOURCE_KG_H,
    "From the sheet on gas in a shut vessel, or 0 for an empty, washed vessel.",
)


def _source(kg_h: float | None, barley_kg: float | None, day: float | None) -> tuple[float, str]:
    if kg_h is not None:
        return kg_h, f"{plain_number(kg_h)} kg/h"
    if barley_kg is None or day is None:
        return 0.0, "no gas made"
    kw_t = shut_vessel.TYPICAL_DOUBT * shut_vessel.typical_kw_t(day=day, grain_temp_c=SOURCE_TEMP_C)
    made = shut_vessel.co2_kg_h(barley_kg=barley_kg, respiration_kw_t=kw_t)
    return made, f"{fixed(made, 2)} kg/h ({plain_number(barley_kg)} kg at twice the typical {fixed(kw_t / 2, 1)} kW/t)"


def work(
    *,
    volume_m3: float,
    airflow_m3_h: float,
    start_ppm: float,
    end_ppm: float,
    outdoor_ppm: float,
    mixing: float,
    source_kg_h: float | None,
    barley_kg: float | None,
    day: float | None,
) -> Outcome | Refusal:
    """Dilute the mean of the space, if it can be diluted that far."""
    if end_ppm > start_ppm:
        raise AskAgain(
            "end_ppm",
            f"{plain_number(end_ppm)} ppm is more than the {plain_number(start_ppm)} ppm there are now. "
            f"Type a number below {plain_number(start_ppm)} ppm.",
        )
    made, said = _source(source_kg_h, barley_kg, day)
    space = {
        "airflow_m3_h": airflow_m3_h,
        "outdoor_ppm": outdoor_ppm,
        "source_m3_h": gas.gas_m3_h(source_kg_h=made, temperature_c=SOURCE_TEMP_C),
    }
    best = gas.floor_ppm(**space)
    floor = gas.floor_ppm(**space, mixing=mixing)
    notes = _notes(made, source_kg_h)
    if end_ppm <= floor:
        return Refusal(_never(end_ppm, outdoor_ppm, best, floor), notes)
    course = {**space, "volume_m3": volume_m3, "start_ppm": start_ppm}
    minutes = gas.dilution_minutes(**course, end_ppm=end_ppm, mixing=mixing)
    perfect = gas.dilution_minutes(**course, end_ppm=end_ppm)
    changes = airflow_m3_h / volume_m3
    found = (
        Found(
            "minutes",
            minutes,
            f"60 × {plain_number(mixing)} × {plain_number(volume_m3)} / {plain_number(airflow_m3_h)} × "
            f"ln(({plain_number(start_ppm)} − {fixed(floor, 0)}) / ({plain_number(end_ppm)} − {fixed(floor, 0)})) "
            f"= {fixed(minutes, 1)} min; with perfect mixing, which there is not, {fixed(perfect, 1)}",
        ),
        Found(
            "floor_ppm",
            best,
            f"{plain_number(outdoor_ppm)} + 1,000,000 × {fixed(space['source_m3_h'], 3)} m³/h / "
            f"{plain_number(airflow_m3_h)} m³/h; {said}",
        ),
        Found("floor_mixed_ppm", floor, f"the same with the fresh air divided by {plain_number(mixing)}"),
        Found("air_changes", changes, f"{plain_number(airflow_m3_h)} / {plain_number(volume_m3)}"),
        Found(
            "air_changes_in_all",
            changes * minutes / 60,
            f"{fixed(changes, 1)} an hour × {fixed(minutes, 1)} min / 60",
        ),
    )
    return Outcome(found, notes=notes, charts=(_chart(course, minutes, mixing, end_ppm),))


def _never(end: float, outdoor: float, best: float, floor: float) -> str:
    if end <= outdoor:
        return (
            f"{plain_number(end)} ppm is never reached: the air blown in already has "
            f"{plain_number(outdoor)} ppm. No fan brings a space below the air it blows."
        )
    if end <= best:
        return (
            f"{plain_number(end)} ppm is never reached: gas is still being made, and this fan cannot bring even "
            f"the mean below {fixed(best, 0)} ppm, however long it runs. Take the grain away or use more air."
        )
    return (
        f"{plain_number(end)} ppm is never reached at this mixing: the sum stops at {fixed(floor, 0)} ppm "
        f"({fixed(best, 0)} ppm if the air mixed perfectly, which it does not). "
        "Take the grain away or use more air."
    )


def _notes(made: float, typed: float | None) -> tuple[Note, ...]:
    notes = [NO_ENTRY, ROOMS_ONLY, PROCESS_AIR]
    if made == 0 and typed is None:
        notes.append(
            Note(
                "warning",
                "Reckoned as if nothing in there makes gas. Grain, roots or slurry left inside do, and could "
                "bring it back to deadly. If any is there, give its weight and day.",
            )
        )
    notes.append(
        Note(
            "remark",
            "After the fan has run, air is tested from outside, at several depths, for oxygen and for carbon dioxide, "
            "by a competent person. The fan goes on, and so does the meter. With the fan off the gas comes back: "
            "[[sheet:gas-build-up|gas in a shut vessel]].",
        )
    )
    return tuple(notes)


def _chart(course: dict[str, float], minutes: float, mixing: float, end_ppm: float) -> Chart:
    steps = [minutes * n / 24 for n in range(25)]

    def percent(mix: float) -> list[float]:
        return [gas.diluted_ppm(minutes=t, mixing=mix, **course) / 1e4 for t in steps]

    lines = [Line("with this mixing", steps, percent(mixing))]
    if mixing > 1:
        lines.append(Line("if it mixed perfectly, which it does not", steps, percent(1.0)))
    return Chart(
        "course",
        "Mean carbon dioxide while the fan runs",
        f"The mean of the space falls to {plain_number(end_ppm)} ppm after {fixed(minutes, 0)} minutes of fan. "
        "Low corners and the air between corns lag behind. The curve allows no entry.",
        Axis("Fan running", "min", 0.0, minutes, 0),
        Axis("Carbon dioxide, mean", "%", 0.0, None, 2),
        lines=tuple(lines),
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
            hint="As it was filled into the steep. Leave this and the line above blank for an empty vessel.",
            example="",
        ),
        germination_day,
        mixing._replace(in_view=True),
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
            rests_on="MMWR 43 (RR-13), Table S3-1: t = K (V/Q) ln((C1 − F)/(C2 − F))",
            trust="The mean of a room without growing grain. It allows no entry, and it is not the end of the fan.",
            next="Then have the air tested from outside, low down first. The fan goes on.",
            rounds_up=True,
        ),
        Answer(
            "floor_ppm",
            "Lowest mean this fan can hold, at best",
            "ppm",
            0,
            lead=True,
            rests_on="balance of gas made and air blown in",
            trust="A mean, with perfect mixing. Low places hold more.",
            rounds_up=True,
        ),
        Answer(
            "floor_mixed_ppm",
            "Lowest mean at this mixing",
            "ppm",
            0,
            rests_on="the same with the fresh air divided by the mixing figure",
            rounds_up=True,
        ),
        Answer("air_changes", "Air changes an hour", "", 1, rests_on="fresh air by volume"),
        Answer("air_changes_in_all", "Air changes in all", "", 1, rests_on="air changes by time"),
    ),
    work=work,
    guarded=True,
    sources=("mmwr-s3-1", "cfr-1910-146"),
    story="An emptied drum of the example maltings: invented numbers.",
)
