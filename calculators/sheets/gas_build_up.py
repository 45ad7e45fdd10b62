"""How fast the air in a shut vessel turns deadly."""

from __future__ import annotations

from ..asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Band,
    Belongs,
    Chart,
    Found,
    Heading,
    Line,
    Listing,
    Mark,
    Note,
    Number,
    Outcome,
    Refusal,
    Rows,
    Sheet,
)
from ..asking.figures import carried, fixed, plain_number, said_span
from ..models.bed.respiration import CO2_PER_KG, HEAT_MJ_PER_KG
from ..models.gas import shut_vessel as vessel
from ..models.gas.dilution import gas_m3_h
from ..models.living.breathing import GUARDED_FACTOR
from ..models.nature import FRESH_OXYGEN_PERCENT, OUTDOOR_PPM
from ..rules import gases
from ..rules.fan_stopped import AWAY
from ..words import within
from ..words.cautions import FAN_STOPPED, NO_ENTRY, OXYGEN_METER
from ..words.gas import BEYOND_THE_METER, STAGES, STEEP_BREATH, beside_the_law
from ..words.questions.shared import barley_kg, germination_day, grain_temp_c, number

IDLH_PPM = gases.strictest(gases.CO2, "danger").ppm
_DANGER = f"{plain_number(IDLH_PPM / 1e4)} %"
DRUM = vessel.EXAMPLE_DRUM

TOLD_MINUTES = 60.0
"""Beyond this no figure is given [min]: a long time would soothe, and no vessel was measured."""

TOO_SLOW = (
    f"No figure is given. By this sum the mean of the vessel would come to {_DANGER} so late that the number would "
    "soothe, and the sum was never measured. Low down and at the grain the gas could kill long before the mean does, "
    "and gas flows in from drains and ducts. Keep everybody away from it all the same, and check what was typed."
)

hours_closed = number(
    "hours_closed",
    "Hours shut",
    "h",
    vessel.HOURS_CLOSED,
    "Since the fan stopped or the last opening was shut.",
    example="0.75",
)
free_m3 = number(
    "free_m3",
    "Air left inside",
    "m3",
    vessel.FREE_M3,
    f"Above the grain, {plain_number(vessel.FREE_M3_T.low)} to {plain_number(vessel.FREE_M3_T.high)} for each tonne. "
    "Leave out the air between the corns: less air means faster.",
    example=plain_number(DRUM["free_m3"]),
)
start_ppm = Number(
    "start_ppm",
    "Carbon dioxide at first",
    "ppm",
    0,
    500_000,
    "As read when it was shut. Outdoor air has about 420; air off a working bed often has ten times that.",
    example=plain_number(DRUM["start_ppm"]),
)
respiration_kw_t = number(
    "respiration_kw_t",
    "Heat of breathing, if worked out",
    "kW/t",
    vessel.GROWING_KW_T,
    "A tonne of barley. Blank: by the law of breathing. The soonest case never goes below its far end.",
)._replace(optional=True, in_view=True)


def work(
    *,
    barley_kg: float,
    day: float,
    grain_temp_c: float,
    hours_closed: float,
    free_m3: float,
    start_ppm: float,
    respiration_kw_t: float | None,
) -> Outcome | Refusal:
    """Add what the grain breathes out to the air that is left."""
    _check_air(free_m3, barley_kg)
    shut = vessel.shut(
        barley_kg=barley_kg,
        day=day,
        grain_temp_c=grain_temp_c,
        free_m3=free_m3,
        start_ppm=start_ppm,
        respiration_kw_t=respiration_kw_t,
    )
    minutes = hours_closed * 60
    most, least = shut.ppm_after(minutes)
    made = vessel.co2_kg_h(barley_kg=barley_kg, respiration_kw_t=shut.kw_t)
    litres = gas_m3_h(source_kg_h=made, temperature_c=grain_temp_c)
    soonest, reckoned = shut.minutes_until(IDLH_PPM)
    if soonest is None or soonest > TOLD_MINUTES:
        return Refusal(TOO_SLOW, _notes(shut, most, respiration_kw_t, day, grain_temp_c))
    found = (
        Found(
            "minutes_to_idlh",
            soonest,
            "it was there when it was shut"
            if soonest == 0
            else f"({plain_number(IDLH_PPM)} − {plain_number(start_ppm)}) / {carried(shut.quick)} ppm a minute "
            f"= {fixed(soonest, 1)} min, at {fixed(shut.fastest_kw_t, 2)} kW a tonne",
            soonest,
            reckoned,
            1 if soonest < 10 else 0,
            worked="given" if soonest == 0 else "sum",
        ),
        Found(
            "co2_percent",
            most / 1e4,
            f"{_rise_words(start_ppm, shut.quick, minutes, most)}; {fixed(most, 0)} / 10,000 = "
            f"{fixed(most / 1e4, 1)} %",
            least / 1e4,
            most / 1e4,
        ),
        Found(
            "oxygen_percent",
            vessel.oxygen_percent(ppm=most),
            f"{fixed(FRESH_OXYGEN_PERCENT, 2)} − ({fixed(most, 0)} − {plain_number(OUTDOOR_PPM)}) / 10,000 = "
            f"{fixed(vessel.oxygen_percent(ppm=most), 1)} %"
            if vessel.oxygen_percent(ppm=most) > 0
            else "all of it is used up",
            vessel.oxygen_percent(ppm=most),
            vessel.oxygen_percent(ppm=least),
            worked="sum" if vessel.oxygen_percent(ppm=most) > 0 else "rule",
        ),
        Found(
            "co2_kg_h",
            made,
            f"{plain_number(barley_kg)} kg / 1000 × {carried(shut.kw_t)} kW a tonne × 3.6 / "
            f"{fixed(HEAT_MJ_PER_KG / CO2_PER_KG, 2)} MJ "
            f"for each kg = {fixed(made, 2)} kg/h, {fixed(litres, 3)} m³ of gas an hour into "
            f"{plain_number(free_m3)} m³ of air, "
            f"{fixed(shut.rise, 0)} ppm a minute",
        ),
        Found(
            "respiration_used_kw_t",
            shut.kw_t,
            "your own figure" if respiration_kw_t is not None else "typical for the day and temperature, by the law",
            shut.kw_t,
            shut.fastest_kw_t,
            worked="model" if respiration_kw_t is None else "given",
        ),
    )
    return Outcome(
        found,
        (Rows("limits", _rows(shut, minutes)),),
        _notes(shut, most, respiration_kw_t, day, grain_temp_c),
        (_chart(shut, hours_closed),),
    )


def _check_air(free_m3: float, barley_kg: float) -> None:
    low, high = vessel.free_m3_limits(barley_kg=barley_kg)
    if low <= free_m3 <= high:
        return
    raise AskAgain(
        "free_m3",
        f"{plain_number(free_m3)} m³ of air over {plain_number(barley_kg)} kg of barley is no shut steep, drum or bin: "
        f"type a number {said_span(low, high)} m³. Check both units. A room, a cellar or a "
        "vessel that is all but empty is no case for this sheet: gas gathers there too. Keep everyone away.",
    )


def _rise_words(start: float, rise: float, minutes: float, reached: float) -> str:
    straight = start + rise * minutes
    ends = "" if reached >= straight else f", but oxygen ends it at {fixed(reached, 0)}"
    sum_of = f"{plain_number(start)} + {carried(rise)} ppm a minute × {plain_number(minutes / 60)} h × 60"
    return f"{sum_of} = {fixed(straight, 0)}{ends}"


def _rows(shut: vessel.Shut, minutes: float) -> list[list[str | float | None]]:
    rows: list[list[str | float | None]] = []
    for stage in STAGES:
        soonest, when = shut.minutes_until(stage.ppm)
        if soonest is None:
            passed = "oxygen runs out first"
        elif when is not None and when <= minutes:
            passed = "passed"
        else:
            passed = "may be passed" if soonest <= minutes else "not by this sum; may be, low down"
        told = [None if time is None or time > TOLD_MINUTES else time for time in (soonest, when)]
        rows.append([stage.name, stage.ppm / 1e4, *told, passed, vessel.oxygen_percent(ppm=stage.ppm)])
    return rows


def _notes(shut: vessel.Shut, most: float, given: float | None, day: float, grain_temp_c: float) -> tuple[Note, ...]:
    stopped = FAN_STOPPED
    if most >= IDLH_PPM:
        stopped = Note(
            "danger",
            f"By this sum the air inside is, or may be, at {plain_number(IDLH_PPM / 1e4)} % or more: it kills. "
            f"{FAN_STOPPED.text}",
        )
    notes = [stopped, NO_ENTRY, OXYGEN_METER]
    if given is not None:
        law = vessel.typical_kw_t(day=day, grain_temp_c=grain_temp_c)
        notes += beside_the_law(given_kw_t=given, law_kw_t=law, soonest_kw_t=shut.fastest_kw_t)
    if most >= vessel.highest_ppm(start_ppm=shut.start_ppm) - 1:
        notes.append(
            Note(
                "remark",
                "In the soonest case the grain has used up all the oxygen. It goes on making gas by fermenting, which "
                "this sum leaves out.",
            )
        )
    if given is None:
        notes.append(
            Note(
                "remark",
                "The typical heat is held to the dry matter that is lost in all; no published table by day was "
                f"found. The soonest case reckons with {fixed(shut.fastest_kw_t, 1)} kW a tonne: "
                f"{plain_number(GUARDED_FACTOR)} times the law, for grain further on than is said, which stays at its "
                "highest once it is there. The slow side of the doubt is not told.",
            )
        )
    if day < 1:
        notes.append(Note("remark", STEEP_BREATH))
    return tuple(notes)


def _chart(shut: vessel.Shut, hours: float) -> Chart:
    turn = (vessel.highest_ppm(start_ppm=shut.start_ppm) - shut.start_ppm) / shut.quick / 60
    steps = sorted({hours * n / 24 for n in range(25)} | ({turn} if turn < hours else set()))
    courses = [shut.ppm_after(60 * h) for h in steps]
    fast, middle = ([course[n] / 1e4 for course in courses] for n in range(2))
    return Chart(
        "course",
        "Carbon dioxide in the shut vessel",
        f"After {plain_number(hours)} h the soonest case has {fixed(fast[-1], 1)} % carbon dioxide. "
        f"{_DANGER} is dangerous at once. These are never hours allowed inside.",
        Axis("Time since it was shut", "h", 0.0, 1.03 * hours, 2),
        Axis("Carbon dioxide", "%", 0.0, max([4.8, *fast]), 2),
        lines=(Line("soonest case", steps, fast), Line("by the typical or given heat", steps, middle)),
        bands=(Band("typical to soonest", steps, middle, fast),),
        marks=(Mark(f"dangerous at once, {_DANGER}", IDLH_PPM / 1e4),),
    )


SHEET = Sheet(
    id="gas-build-up",
    title="Gas in a shut vessel",
    purpose="How fast the air in a shut drum, steep or bin turns deadly.",
    questions=(
        barley_kg._replace(
            low=vessel.BARLEY_KG.low,
            high=vessel.BARLEY_KG.high,
            hint="As it was filled into the steep.",
            example=plain_number(DRUM["barley_kg"]),
        ),
        germination_day._replace(example=plain_number(DRUM["day"])),
        grain_temp_c._replace(example=plain_number(DRUM["grain_temp_c"])),
        hours_closed,
        free_m3,
        start_ppm,
        respiration_kw_t,
    ),
    answers=(
        Answer(
            "minutes_to_idlh",
            f"Soonest: minutes until {_DANGER}, dangerous at once",
            "min",
            0,
            lead=True,
            rests_on=f"NIOSH: {IDLH_PPM:,.0f} ppm; the fastest that the heat of breathing may be",
            trust="Counted from the moment the fan stops, for the mean of the vessel. Near the grain it goes "
            "faster. Never time allowed inside.",
            next=f"At once: {AWAY}.",
            within=within.between(0.0, TOLD_MINUTES, "A longer time would soothe."),
        ),
        Answer(
            "co2_percent",
            "Carbon dioxide inside by now, soonest case",
            "%",
            1,
            lead=True,
            rests_on="1 % is 10,000 parts per million; the fastest that the heat of breathing may be",
            trust="A mean of the whole vessel, without leaks.",
            next="Everyone out and away.",
            within=within.part("free_m3"),
        ),
        Answer(
            "oxygen_percent",
            "What an oxygen meter would show then",
            "%",
            1,
            lead=True,
            rests_on=f"{plain_number(FRESH_OXYGEN_PERCENT)} % in fresh air; the grain uses oxygen as it makes gas",
            trust=f"Gas that flowed in from elsewhere pushes oxygen away far less: at {_DANGER} the meter then shows "
            f"{fixed(vessel.oxygen_displaced_percent(ppm=IDLH_PPM), 1)}.",
            within=within.oxygen("free_m3"),
        ),
        Answer(
            "co2_kg_h",
            "Gas made, by the typical or given heat",
            "kg/h",
            2,
            rests_on="2,803 kJ for 6 mol: 10.6 MJ a kilogram; one volume of oxygen goes for each that comes",
            within=within.kilograms("barley_kg", most=10_000.0),
        ),
        Answer(
            "respiration_used_kw_t",
            "Heat of breathing used",
            "kW/t",
            2,
            rests_on="one law for heat, gas, oxygen and loss: [[page:reference/living-batch|the living batch]]",
            trust="It may be more by far: the soonest case says how much is reckoned with.",
            within=within.between(
                0.0, 2.0 * vessel.GROWING_KW_T.high, "No barley breathes faster.", "respiration_kw_t"
            ),
        ),
    ),
    listings=(
        Listing(
            "limits",
            "Limits and when they are passed",
            (
                Heading("limit", "Limit", kind="text"),
                Heading("percent", "Carbon dioxide", "%", 1, within=within.part()),
                Heading(
                    "soonest",
                    "Soonest",
                    "min",
                    1,
                    within=within.between(0.0, TOLD_MINUTES, "A longer time would soothe."),
                ),
                Heading(
                    "minutes",
                    "By the heat used",
                    "min",
                    1,
                    within=within.between(0.0, TOLD_MINUTES, "A longer time would soothe."),
                ),
                Heading("passed", "In this case", kind="text"),
                Heading("oxygen", "Oxygen meter", "%", 1, within=within.oxygen()),
            ),
        ),
    ),
    work=work,
    guarded=True,
    first=BEYOND_THE_METER,
    belongs=(
        Belongs(
            "respiration_kw_t", ("respiration_kw_t", "grain_temp_c"), "the heat of breathing, at its fastest", "kW/t"
        ),
    ),
    sources=("niosh-co2", "eh40", "austria-mak", "cfr-1910-146"),
    story="A shut drum of the example maltings with 6 tonnes on day 3: invented numbers.",
)
