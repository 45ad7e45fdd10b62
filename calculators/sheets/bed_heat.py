"""The air that a bed of growing barley needs, from the heat that it makes."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Belongs, Either, Found, Outcome, Sheet
from ..asking.figures import at_least, carried, fixed, plain_number
from ..models.bed import air as bed
from ..models.bed import humid_air, respiration
from ..models.bed.air import BedAir
from ..models.bed.humid_air import MoistAir, fan_warming, moist_air, pressure_at, warmed
from ..models.bounds import OutOfRange
from ..models.living.breathing import SOONEST_FACTOR
from ..models.nature import FRESH_OXYGEN_PERCENT
from ..rules import drum
from ..rules.drum import DrumSight
from ..rules.limits import floor_germination as edges
from ..rules.limits.drum_germination import AIR_ON_RH
from ..rules.lines import passed
from ..words import within
from ..words.bed_air import notes_of
from ..words.bed_workings import breath_of, dried, fan_figures
from ..words.limits import at_edge
from ..words.questions import bed_air as ask
from ..words.questions.shared import barley_kg, barley_moisture

_LEAST_RISE_K = 0.1


def work(
    *,
    barley_kg: float,
    barley_moisture: float,
    day: float | None,
    dry_matter_loss_per_day: float | None,
    heat_factor: float,
    air_on_c: float,
    air_on_rh: float,
    air_off_c: float,
    air_off_rh: float,
    fresh_air_percent: float,
    fan_pa: float | None,
    fan_efficiency: float,
    fan_place: str,
    altitude_m: float,
    bed_moisture: float,
) -> Outcome:
    """Balance heat and water of the air through the bed."""
    pressure = pressure_at(altitude_m=altitude_m)
    sprayed = moist_air(temp_c=air_on_c, relative_humidity=air_on_rh, pressure_pa=pressure)
    off = moist_air(temp_c=air_off_c, relative_humidity=air_off_rh, pressure_pa=pressure)
    warming = 0.0
    if fan_pa is not None:
        warming = fan_warming(sprayed, fan_pa=fan_pa, fan_efficiency=fan_efficiency)
    on = warmed(sprayed, by_k=warming) if fan_place == "after-sprays" else sprayed
    through = _through(on, off, warming if on is not sprayed else 0.0)
    breath = breath_of(day, dry_matter_loss_per_day, heat_factor, (on.temp_c + off.temp_c) / 2.0, bed_moisture)
    share, times, off_by = breath.percent_day, breath.peak / breath.percent_day, breath.doubt
    dry_kg = respiration.barley_dry_matter(barley_kg=barley_kg, barley_moisture=barley_moisture)
    respired = respiration.respired_per_day(dry_matter_kg=dry_kg, dry_matter_loss_per_day=share)
    heat = respiration.heat_kw(respired_kg_day=respired)
    gas = respiration.co2_kg_h(respired_kg_day=respired)
    dry_air = bed.dry_air_kg_h(heat_kw=heat, through=through)
    volume = dry_air * sprayed.volume_m3
    water = dry_air * through.water_kg * 24.0
    after, wettest, driest = (
        bed.moisture_after_a_day(
            dry_matter_kg=dry_kg, bed_moisture=bed_moisture, evaporated_kg_day=water * by, respired_kg_day=respired * by
        )
        for by in (1.0, 1.0 / off_by, off_by)
    )
    percent = bed.co2_percent(co2_kg_h=gas, dry_air_kg_h=dry_air, fresh_air_percent=fresh_air_percent)
    tonnes = barley_kg / 1000.0

    def sure(id: str, value: float, working: str) -> Found:
        """A figure that moves with the heat, with the doubt of the heat."""
        return Found(id, value, working, *((value / off_by, value * off_by) if off_by > 1.0 else ()))

    found = [
        sure(
            "peak_airflow_m3_h",
            volume * times,
            f"{carried(volume)} m³/h × {carried(times)} = {fixed(volume * times, 0)} m³/h",
        ),
        sure(
            "airflow_m3_h",
            volume,
            f"{carried(heat)} kW × 3600 / {fixed(through.heat_kj, 3)} kJ/kg = {carried(dry_air)} kg of dry "
            f"air an hour; × {fixed(sprayed.volume_m3, 4)} m³/kg = {fixed(volume, 0)} m³/h",
        ),
        sure(
            "airflow_m3_h_t",
            volume / tonnes,
            f"{carried(volume)} m³/h / {carried(tonnes)} t = {fixed(volume / tonnes, 0)}",
        ),
        sure("breathed_percent_day", share, breath.words)._replace(worked="given" if day is None else "model"),
        sure(
            "heat_kw",
            heat,
            f"{plain_number(barley_kg)} kg × (100 − {plain_number(barley_moisture)})/100 = {carried(dry_kg)} kg "
            f"dry; × {carried(share)}/100 = {carried(respired)} kg a day; × "
            f"{fixed(respiration.HEAT_MJ_PER_KG, 2)} MJ/kg / 86.4 = {fixed(heat, 2)} kW",
        ),
        sure(
            "peak_heat_kw",
            heat * times,
            f"{carried(heat)} kW × {carried(times)} = {fixed(heat * times, 1)} kW",
        ),
        Found(
            "vapour_percent",
            100.0 * (1.0 - through.sensible_share),
            f"all that does not warm the air: 100 × "
            f"({fixed(through.heat_kj, 3)} − {fixed(through.sensible_kj, 3)}) / {fixed(through.heat_kj, 3)} = "
            f"{fixed(100.0 * (1.0 - through.sensible_share), 0)} %",
        ),
        sure(
            "water_lost_kg_day",
            water,
            f"{carried(dry_air)} kg/h × {fixed(1000 * through.water_kg, 3)} g/kg × 24 h / 1000 = {fixed(water, 0)} kg",
        ),
        Found(
            "moisture_lost_points_day",
            bed_moisture - after,
            dried(dry_kg, bed_moisture, after, water, respired),
            *((bed_moisture - wettest, bed_moisture - driest) if off_by > 1.0 else ()),
        ),
        sure(
            "co2_kg_h",
            gas,
            f"{carried(respired)} kg a day × {fixed(respiration.CO2_PER_KG, 3)} / 24 = {fixed(gas, 2)} kg/h",
        ),
        Found(
            "co2_percent",
            percent,
            f"{bed.OUTDOOR_CO2_PERCENT} % outdoors + "
            f"{carried((percent - bed.OUTDOOR_CO2_PERCENT) * fresh_air_percent / 100, 3)} % a pass × 100 / "
            f"{plain_number(fresh_air_percent)} = {fixed(percent, 2)} %",
        ),
    ]
    if fan_pa is not None:
        found += fan_figures(fan_pa, fan_efficiency, sprayed, warming, volume)
    if on is not sprayed:
        found += [
            Found(
                "bed_air_c",
                on.temp_c,
                f"{plain_number(air_on_c)} °C + {fixed(warming, 2)} K = {fixed(on.temp_c, 1)} °C",
            ),
            Found("bed_air_rh", on.relative_humidity, "the same water in warmer air"),
        ]
    alone = heat * 3600.0 / (humid_air.DRY_AIR_KJ_KG_K * (off.temp_c - on.temp_c)) * sprayed.volume_m3
    lost = bed_moisture - after
    sight = DrumSight(
        air_on_c=on.temp_c, air_on_rh=on.relative_humidity, air_off_c=off.temp_c, bottom_c=on.temp_c, top_c=off.temp_c,
        moisture=bed_moisture,
    )  # fmt: skip
    lines = [*drum.lines(sight), passed(edges.MOISTURE_LOST, lost)]
    notes = notes_of(
        percent, lost, alone, volume, fan_pa, lines, by_law=day is not None, most_points=bed_moisture - driest
    )
    return Outcome(tuple(found), notes=notes)


def _through(on: MoistAir, off: MoistAir, warming: float) -> BedAir:
    """The bed's balance, with its limits said as the questions put them."""
    by_fan = f" The fan, after the sprays, warms the air to {fixed(on.temp_c, 1)} °C." if warming else ""
    low = at_least(on.temp_c + _LEAST_RISE_K, 1)
    if off.temp_c < low - 1e-9:
        raise AskAgain(
            "air_off_c",
            f"{plain_number(off.temp_c)} °C is not warmer than the air that meets the bed.{by_fan} "
            "Growing grain warms its air. Check that the two thermometers are not swapped and the fan "
            f"runs. Type a number from {fixed(low, 1)} to {plain_number(humid_air.AIR_C.high)} °C.",
        )
    try:
        return bed.bed_air(air_on=on, air_off=off)
    except OutOfRange as limit:
        raise AskAgain(
            "air_off_rh",
            f"at {plain_number(off.temp_c)} °C this is drier than the air that came in, so the grain would "
            f"gain water from the air. Type a number from {fixed(limit.low + 0.05, 1)} to 100 %.",
        ) from None


_HEAT = "burning of starch, 17.29 MJ and 1.629 kg of carbon dioxide for each kilogram respired"
_LAW = "the one law of breathing, by day, warmth and moisture"
_AIR = "steady balance of heat and water in moist air (ASHRAE formulas by psychrolib)"
_TRUST_AIR = (
    "Half a degree wrong in the rise moves it by a fifth when the rise is 2.5 K. The bed is taken as even "
    "and steady; a bed that is being cooled down needs more."
)
_BLOWN = within.between(0.0, 1_000_000.0, "No fan of any works blows more.", "barley_kg", "air_off_c")
_KW = within.between(0.0, 20_000.0, "No bed gives more.", "barley_kg", "dry_matter_loss_per_day", "heat_factor")
_AIR_T = within.between(
    0.0,
    5000.0,
    "Beds get 300 to 1000; far more lifts the corns (from memory).",
    "air_off_c",
    "dry_matter_loss_per_day",
    instead="Look at both thermometers: the air comes off only a little warmer than it went on.",
)
_CO2 = within.between(
    0.0,
    FRESH_OXYGEN_PERCENT,
    "Breathing makes one volume for each of oxygen, and air has no more of that.",
    "fresh_air_percent",
    "dry_matter_loss_per_day",
    instead="Give it more fresh air: in so little the grain would choke.",
)

SHEET = Sheet(
    id="bed-heat",
    title="Air for the bed",
    purpose="How much air carries off the heat of the growing grain, and what it does to the moisture.",
    questions=(
        barley_kg._replace(hint="Of the batch in the bed, as it was weighed dry."),
        barley_moisture._replace(hint="Of that barley, before the steep."),
        ask.day,
        ask.dry_matter_loss_per_day,
        ask.air_on_c,
        ask.air_on_rh,
        ask.air_off_c,
        ask.air_off_rh,
        ask.fresh_air_percent,
        ask.fan_pa,
        ask.fan_efficiency,
        ask.fan_place,
        ask.altitude_m,
        ask.bed_moisture,
        ask.heat_factor,
    ),
    either=(Either((("day",), ("dry_matter_loss_per_day",))),),
    answers=(
        Answer(
            "peak_airflow_m3_h",
            "Air on the busiest day",
            "m3/h",
            0,
            lead=True,
            rests_on=f"{_AIR}; the heat at its highest, by the one law",
            trust="By the day, as sure as the heat: one batch in forty needs more than the upper end.",
            next="Size a fan for the upper end, unless your own losses say less. Set each day’s air by the rise.",
            within=_BLOWN,
        ),
        Answer(
            "airflow_m3_h",
            "Air for the heat of that day",
            "m3/h",
            0,
            lead=True,
            rests_on=_AIR,
            trust=_TRUST_AIR,
            next="At the air set. If the rise is larger than planned, give more air or colder air.",
            within=_BLOWN,
        ),
        Answer(
            "airflow_m3_h_t", "Air for each tonne of barley", "m3/h", 0, rests_on=_AIR, trust=_TRUST_AIR, within=_AIR_T
        ),
        Answer(
            "heat_kw",
            "Heat of the bed that day",
            "kW",
            1,
            rests_on=_HEAT,
            trust="As good as the share breathed away.",
            within=_KW,
        ),
        Answer(
            "breathed_percent_day",
            "Breathed away that day, of the dry matter",
            "%",
            2,
            rests_on=_LAW,
            trust=f"The law to a factor of {fixed(SOONEST_FACTOR, 1)} either way: it is held to losses over whole "
            "batches. Your own figure is rarely better than a third either way.",
            worked="model",
            within=within.between(0.0, respiration.LOSS_PER_DAY.high, "No bed breathes more.", "day", "heat_factor"),
        ),
        Answer(
            "peak_heat_kw",
            "Heat on the busiest day",
            "kW",
            1,
            rests_on=_HEAT,
            within=_KW,
        ),
        Answer("vapour_percent", "Heat that leaves as vapour", "%", 0, rests_on=_AIR, within=within.part("air_off_c")),
        Answer(
            "water_lost_kg_day",
            "Water lost a day",
            "kg",
            0,
            rests_on=_AIR,
            trust=_TRUST_AIR,
            within=within.kilograms("barley_kg"),
        ),
        Answer(
            "moisture_lost_points_day",
            "Moisture lost a day",
            "points",
            2,
            lead=True,
            rests_on="balance of water and dry matter of the bed",
            trust="Published for practice: about 0.5 a day.",
            next="Weigh a sample each day. [[sheet:sprinkling]] gives the water to put back.",
            within=within.between(
                -2.0,
                10.0,
                "A bed that lost more would be dry the same day.",
                "air_on_rh",
                "air_off_rh",
                "air_off_c",
                instead="Check both humidities, and the breathing that was typed.",
            ),
        ),
        Answer(
            "co2_kg_h",
            "Carbon dioxide breathed out",
            "kg/h",
            2,
            rests_on=_HEAT,
            within=within.kilograms("barley_kg", most=5000.0),
        ),
        Answer(
            "co2_percent",
            "Carbon dioxide in the returned air",
            "%",
            2,
            rests_on="what the bed adds at each pass, over the share of fresh air; outdoor air at 0.042 %",
            trust="A mean of mixed air in the duct, and only there. Use a meter.",
            within=_CO2,
        ),
        Answer(
            "fan_warming_k",
            "Warming by the fan",
            "K",
            2,
            rests_on="all the fan’s power ends as heat in its air",
            trust="As good as pressure and efficiency.",
            next="Before the sprays it is the cooler’s load; after them it eats into the rise.",
            within=within.between(
                0.0,
                20.0,
                "A fan that warmed its air more would cook the bed.",
                "fan_pa",
                "fan_efficiency",
                instead="Check the pressure and the efficiency.",
            ),
        ),
        Answer(
            "fan_kw",
            "Power of the fan that day",
            "kW",
            1,
            rests_on="pressure times volume over efficiency",
            within=within.between(0.0, 5000.0, "No works has such a fan.", "fan_pa", "fan_efficiency", "barley_kg"),
        ),
        Answer(
            "bed_air_c",
            "Air that meets the bed",
            "C",
            1,
            rests_on="air set, and the fan’s warming",
            within=within.between(0.0, 60.0, "No bed is blown with such air.", "air_on_c", "fan_pa"),
        ),
        Answer(
            "bed_air_rh",
            "Its humidity",
            "%",
            0,
            rests_on=_AIR,
            trust=f"Under about {at_edge(AIR_ON_RH, 'accept_low')} the bed dries.",
            worked="model",
            within=within.part("air_on_rh"),
        ),
    ),
    work=work,
    belongs=(Belongs("dry_matter_loss_per_day", ("air_off_c",), "what is breathed away a day, by the law,", "%"),),
    guarded=True,
    needs=("psychrolib",),
    sources=(
        "ashrae-psychrolib",
        "starch-heat",
        "cereals-processing",
        "malting-airflow",
        "cnam-germination",
        "evans-2024",
        "davidson-1978",
        "day-1891",
    ),
    story="Batch example-01 in the drum of the example maltings: invented numbers.",
)
