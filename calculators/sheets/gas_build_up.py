"""How fast the air in a shut vessel turns deadly."""

from __future__ import annotations

from ..cautions import NO_ENTRY, OXYGEN_METER
from ..declare import (
    Answer,
    AskAgain,
    Axis,
    Band,
    Chart,
    Found,
    Heading,
    Line,
    Listing,
    Mark,
    Note,
    Number,
    Outcome,
    Rows,
    Sheet,
)
from ..figures import fixed, plain_number
from ..models import shut_vessel as vessel
from ..models.exposure import IDLH_PPM
from ..models.gas import PPM, gas_m3_h
from ..questions import barley_kg, germination_day, grain_temp_c, number

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
    "Above the grain and between the corns. Less air means faster.",
    example="15",
)
start_ppm = Number(
    "start_ppm",
    "Carbon dioxide when it was shut",
    "ppm",
    0,
    500_000,
    "As read then. Outdoor air has about 420; air off a working bed often has ten times that.",
    example="420",
)
respiration_kw_t = Number(
    "respiration_kw_t",
    "Heat of breathing, if worked out",
    "kW/t",
    vessel.RESPIRATION_KW_T.low,
    vessel.RESPIRATION_KW_T.high,
    "A tonne of barley. Blank: typical for that day and temperature, good to a factor of two.",
    example="1",
    optional=True,
    in_view=True,
)

_STAGES = (
    ("day limit, 8 h", 5000.0),
    ("oxygen alarm at 19.5 %", 1e4 * (vessel.FRESH_OXYGEN_PERCENT - vessel.OXYGEN_ALARM_PERCENT) + 420),
    ("UK limit, 15 min", 15_000.0),
    ("US short-term limit", 30_000.0),
    ("dangerous at once (IDLH)", IDLH_PPM),
    ("unconscious within minutes", 70_000.0),
)


def work(
    *,
    barley_kg: float,
    day: float,
    grain_temp_c: float,
    hours_closed: float,
    free_m3: float,
    start_ppm: float,
    respiration_kw_t: float | None,
) -> Outcome:
    """Add what the grain breathes out to the air that is left."""
    kw_t = vessel.typical_kw_t(day=day, grain_temp_c=grain_temp_c) if respiration_kw_t is None else respiration_kw_t
    doubt = vessel.TYPICAL_DOUBT if respiration_kw_t is None else vessel.GIVEN_DOUBT
    fastest = kw_t * doubt
    if fastest > vessel.RESPIRATION_KW_T.high:
        fastest = vessel.RESPIRATION_KW_T.high
    shut = {"barley_kg": barley_kg, "grain_temp_c": grain_temp_c, "free_m3": free_m3}
    slowest = max(kw_t / doubt, vessel.RESPIRATION_KW_T.low)
    rise, quick, slow = (vessel.rise_ppm_min(respiration_kw_t=kw, **shut) for kw in (kw_t, fastest, slowest))
    minutes = hours_closed * 60
    ppm, most, least = (vessel.shut_ppm(minutes=minutes, start_ppm=start_ppm, rise=r) for r in (rise, quick, slow))
    if most > PPM.high:
        raise AskAgain("start_ppm", "Type what was read, from 0 to 500000 ppm.")
    made = vessel.co2_kg_h(barley_kg=barley_kg, respiration_kw_t=kw_t)
    litres = gas_m3_h(source_kg_h=made, temperature_c=grain_temp_c)
    found = [
        Found(
            "ppm",
            ppm,
            f"{plain_number(start_ppm)} + {fixed(rise, 0)} ppm a minute × {plain_number(minutes)} min"
            f" = {fixed(start_ppm + rise * minutes, 0)} ppm"
            + ("" if ppm >= start_ppm + rise * minutes else f"; oxygen ends it at {fixed(ppm, 0)}"),
            least,
            most,
            -3 if ppm >= 10_000 else -2,
        ),
        Found("co2_percent", ppm / 1e4, f"{fixed(ppm, 0)} / 10,000", least / 1e4, most / 1e4),
        Found(
            "oxygen_percent",
            vessel.oxygen_percent(ppm=ppm),
            f"20.9 − ({fixed(ppm, 0)} − 420) / 10,000 = {fixed(vessel.oxygen_percent(ppm=ppm), 1)} %",
            vessel.oxygen_percent(ppm=most),
            vessel.oxygen_percent(ppm=least),
        ),
    ]
    soonest = vessel.minutes_until(ppm=IDLH_PPM, start_ppm=start_ppm, rise=quick)
    idlh = vessel.minutes_until(ppm=IDLH_PPM, start_ppm=start_ppm, rise=rise)
    if idlh is not None and soonest is not None:
        found.append(
            Found(
                "minutes_to_idlh",
                idlh,
                f"(40,000 − {plain_number(start_ppm)}) / {fixed(rise, 0)} = {fixed(idlh, 1)} min",
                soonest,
                vessel.minutes_until(ppm=IDLH_PPM, start_ppm=start_ppm, rise=slow),
            )
        )
    found += [
        Found(
            "rise_ppm_min",
            rise,
            f"{fixed(litres, 3)} m³ of gas an hour into {plain_number(free_m3)} m³ of air",
        ),
        Found(
            "co2_kg_h",
            made,
            f"{plain_number(barley_kg)} kg × {fixed(kw_t, 2)} kW a tonne, 10.6 MJ for each kg",
        ),
        Found(
            "respiration_used_kw_t",
            kw_t,
            "as given" if respiration_kw_t is not None else "typical for the day, by temperature",
            slowest,
            fastest,
        ),
    ]
    return Outcome(
        tuple(found),
        (Rows("limits", _rows(start_ppm, rise, quick, minutes)),),
        _notes(ppm, most, respiration_kw_t, start_ppm),
        (_chart(start_ppm, rise, quick, slow, hours_closed),),
    )


def _rows(start: float, rise: float, quick: float, minutes: float) -> list[list[str | float | None]]:
    rows: list[list[str | float | None]] = []
    for name, ppm in _STAGES:
        when = vessel.minutes_until(ppm=ppm, start_ppm=start, rise=rise)
        soonest = vessel.minutes_until(ppm=ppm, start_ppm=start, rise=quick)
        if when is None:
            passed = "oxygen runs out first"
        elif when <= minutes:
            passed = "passed"
        else:
            passed = "may be passed" if soonest is not None and soonest <= minutes else "later"
        oxygen = vessel.oxygen_percent(ppm=ppm)
        rows.append([name, ppm / 1e4, soonest, when, passed, oxygen])
    return rows


def _notes(ppm: float, most: float, given: float | None, start: float) -> tuple[Note, ...]:
    notes = [NO_ENTRY]
    if most >= IDLH_PPM:
        notes.append(
            Note(
                "danger",
                "By this sum the air inside is, or may be, at 4 % or more: it kills. Keep people away from "
                "every hatch, duct and drain of it. Opening a hatch lets the gas out over your feet.",
            )
        )
    notes.append(OXYGEN_METER)
    if ppm >= vessel.highest_ppm(start_ppm=start) - 1:
        notes.append(
            Note(
                "remark",
                "Here the grain has used up all the oxygen. It goes on making gas by fermenting, which this sum "
                "leaves out.",
            )
        )
    if given is None:
        notes.append(
            Note(
                "remark",
                "No published table of breathing by day was found. The typical figure is set by the dry matter "
                "that is lost in five days and may be half or double.",
            )
        )
    return tuple(notes)


def _chart(start: float, rise: float, quick: float, slow: float, hours: float) -> Chart:
    turn = (vessel.highest_ppm(start_ppm=start) - start) / rise / 60
    steps = sorted({hours * n / 24 for n in range(25)} | ({turn} if turn < hours else set()))

    def percent(rate: float) -> list[float]:
        return [vessel.shut_ppm(minutes=60 * h, start_ppm=start, rise=rate) / 1e4 for h in steps]

    middle, fast, low = percent(rise), percent(quick), percent(slow)
    top = max([4.8, *fast])
    return Chart(
        "course",
        "Carbon dioxide in the shut vessel",
        f"After {plain_number(hours)} h the sum gives {fixed(middle[-1], 1)} % carbon dioxide. "
        "4 % is dangerous at once. These are never hours allowed inside.",
        Axis("Time since it was shut", "h", 0.0, 1.03 * hours, 2),
        Axis("Carbon dioxide", "%", 0.0, top, 2),
        lines=(Line("carbon dioxide", steps, middle),),
        bands=(Band("doubt", steps, low, fast),),
        marks=(Mark("dangerous at once, 4 %", 4.0),),
    )


SHEET = Sheet(
    id="gas-build-up",
    title="Gas in a shut vessel",
    purpose="How fast the air in a shut drum, steep or bin turns deadly.",
    questions=(
        barley_kg._replace(
            low=vessel.BARLEY_KG.low, high=vessel.BARLEY_KG.high, hint="As it was filled into the steep."
        ),
        germination_day._replace(example="3"),
        grain_temp_c._replace(example="20"),
        hours_closed,
        free_m3,
        start_ppm,
        respiration_kw_t,
    ),
    answers=(
        Answer(
            "co2_percent",
            "Carbon dioxide inside, by now",
            "%",
            1,
            lead=True,
            rests_on="the same as parts per million: 1 % is 10,000",
            trust="A mean of the whole vessel without leaks. The doubt is in the breathing of the grain.",
            next="Keep everyone out and away from the openings.",
        ),
        Answer(
            "ppm",
            "The same in parts per million",
            "ppm",
            -2,
            rests_on="2,803 kJ for 6 mol of carbon dioxide; one volume of oxygen goes for each that comes",
        ),
        Answer(
            "minutes_to_idlh",
            "Minutes until 4 %, dangerous at once",
            "min",
            0,
            lead=True,
            rests_on="NIOSH: 40,000 ppm",
            trust="Counted from the moment the fan stops, for the mean of the vessel. Near the grain it goes "
            "faster. Never time allowed inside.",
        ),
        Answer(
            "oxygen_percent",
            "What an oxygen meter would show",
            "%",
            1,
            lead=True,
            rests_on="20.9 % in fresh air; the grain uses oxygen as it makes gas",
            trust="Gas that flowed in from elsewhere pushes oxygen away far less: at 4 % the meter then shows 20.1.",
        ),
        Answer("rise_ppm_min", "Rise", "ppm a minute", 0, rests_on="kilograms of gas as litres"),
        Answer("co2_kg_h", "Gas made", "kg/h", 2, rests_on="10.6 MJ a kilogram on either basis"),
        Answer(
            "respiration_used_kw_t",
            "Heat of breathing used",
            "kW/t",
            2,
            rests_on="1 % of dry matter a day is 1.72 kW a tonne (computed); the course by day is an assumption "
            "from the trade, and 10 K warmer counts 2.25 times (from memory)",
            trust="Typical figures to a factor of two; figures worked out for this bed to a quarter.",
        ),
    ),
    listings=(
        Listing(
            "limits",
            "Limits and when they are passed",
            (
                Heading("limit", "Limit", kind="text"),
                Heading("percent", "Carbon dioxide", "%", 1),
                Heading("soonest", "Soonest, minutes", "", 0),
                Heading("minutes", "By this sum, minutes", "", 0),
                Heading("passed", "In this case", kind="text"),
                Heading("oxygen", "Oxygen meter then", "%", 1),
            ),
        ),
    ),
    work=work,
    guarded=True,
    sources=("niosh-co2", "eh40", "cfr-1910-146"),
    story="A shut drum of the example maltings with 6 tonnes on day 3: invented numbers.",
)
