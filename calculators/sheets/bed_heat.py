"""The air that a bed of growing barley needs, from the heat that it makes."""

from __future__ import annotations

from collections.abc import Sequence

from ..asking.declare import Answer, AskAgain, Choice, Found, Note, Option, Outcome, Sheet
from ..asking.figures import at_least, carried, fixed, plain_number
from ..models.bed import air as bed
from ..models.bed import humid_air, respiration
from ..models.bed.air import BedAir
from ..models.bed.humid_air import MoistAir, fan_warming, moist_air, pressure_at, warmed
from ..models.bounds import BED_MOISTURE, Bounds, OutOfRange
from ..models.gas.shut_vessel import FRESH_OXYGEN_PERCENT
from ..rules import drum
from ..rules.drum import DrumSight
from ..rules.limits import floor_germination as edges
from ..rules.limits.drum_germination import AIR_ON_RH
from ..rules.lines import Line, passed
from ..words import within
from ..words.cautions import NO_ENTRY, PROCESS_AIR
from ..words.limits import limit_notes
from ..words.questions.shared import barley_kg, barley_moisture, number

_HIGH_CO2 = 0.5
_LEAST_RISE_K = 0.1
_IDLH_CO2 = 4.0
_COURSE = ", ".join(plain_number(share) for share in respiration.DAY_SHARES[:5])

dry_matter_loss_per_day = number(
    "dry_matter_loss_per_day",
    "Breathed away a day",
    "%",
    respiration.LOSS_PER_DAY,
    f"Of the dry matter. Mean of 5 % in 5 days: 1. By day at 15 °C about {_COURSE}; 3 °C colder a fifth less.",
    example="1",
)
air_on_c = number(
    "air_on_c",
    "Air on",
    "C",
    humid_air.AIR_C,
    "As the sprays or the cooler send it to the bed.",
    example="14",
)
air_on_rh = number(
    "air_on_rh", "Humidity of the air on", "%", humid_air.AIR_RH, "Relative humidity there.", example="100"
)
air_off_c = number("air_off_c", "Air off", "C", humid_air.AIR_C, "As it leaves the top of the grain.", example="16.5")
air_off_rh = number(
    "air_off_rh",
    "Humidity of the air off",
    "%",
    humid_air.AIR_RH,
    "Air leaves wet grain all but saturated.",
    default="100",
)
fresh_air_percent = number(
    "fresh_air_percent",
    "Fresh air",
    "%",
    bed.FRESH_AIR_PERCENT,
    "The rest goes round again. With none the gas rises without end.",
    default="100",
)
fan_pa = number(
    "fan_pa",
    "Fan pressure",
    "Pa",
    humid_air.FAN_PA,
    "Total pressure of the fan. Blank: its warming is left out.",
    example="800",
    optional=True,  # type: ignore[arg-type]
)
fan_efficiency = number(
    "fan_efficiency",
    "Fan efficiency",
    "",
    humid_air.FAN_EFFICIENCY,
    "Fan, drive and motor together.",
    default="0.6",
    source="common practice",
)
fan_place = Choice(
    "fan_place",
    "Where the fan stands",
    (
        Option("before-sprays", "Before the sprays"),
        Option("after-sprays", "After the sprays"),
    ),
    "After the sprays it warms and dries the air that meets the bed.",
    default="before-sprays",
)
altitude_m = number("altitude_m", "Height above the sea", "m", humid_air.ALTITUDE_M, "", default="0")
bed_moisture = number(
    "bed_moisture",
    "Moisture of the bed",
    "%",
    BED_MOISTURE,
    "Only the points lost a day rest on it.",
    default="45",
)
peak_factor = number(
    "peak_factor",
    "Busiest day against the mean",
    "",
    Bounds(1.0, 3.0),
    "1 when you typed the busiest day’s own figure.",
    default=plain_number(max(respiration.DAY_SHARES)),
    source="our assumption, from memory: 1.3 to 1.8",
)


def work(
    *,
    barley_kg: float,
    barley_moisture: float,
    dry_matter_loss_per_day: float,
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
    peak_factor: float,
) -> Outcome:
    """Balance heat and water of the air through the bed."""
    dry_kg = respiration.barley_dry_matter(barley_kg=barley_kg, barley_moisture=barley_moisture)
    respired = respiration.respired_per_day(dry_matter_kg=dry_kg, dry_matter_loss_per_day=dry_matter_loss_per_day)
    heat = respiration.heat_kw(respired_kg_day=respired)
    gas = respiration.co2_kg_h(respired_kg_day=respired)
    pressure = pressure_at(altitude_m=altitude_m)
    sprayed = moist_air(temp_c=air_on_c, relative_humidity=air_on_rh, pressure_pa=pressure)
    off = moist_air(temp_c=air_off_c, relative_humidity=air_off_rh, pressure_pa=pressure)
    warming = 0.0
    if fan_pa is not None:
        warming = fan_warming(sprayed, fan_pa=fan_pa, fan_efficiency=fan_efficiency)
    on = warmed(sprayed, by_k=warming) if fan_place == "after-sprays" else sprayed
    through = _through(on, off, warming if on is not sprayed else 0.0)
    dry_air = bed.dry_air_kg_h(heat_kw=heat, through=through)
    volume = dry_air * sprayed.volume_m3
    water = dry_air * through.water_kg * 24.0
    after = bed.moisture_after_a_day(
        dry_matter_kg=dry_kg,
        bed_moisture=bed_moisture,
        evaporated_kg_day=water,
        respired_kg_day=respired,
    )
    percent = bed.co2_percent(co2_kg_h=gas, dry_air_kg_h=dry_air, fresh_air_percent=fresh_air_percent)
    tonnes = barley_kg / 1000.0
    found = [
        Found(
            "peak_airflow_m3_h",
            volume * peak_factor,
            f"{carried(volume)} m³/h × {plain_number(peak_factor)} = {fixed(volume * peak_factor, 0)} m³/h",
        ),
        Found(
            "airflow_m3_h",
            volume,
            f"{carried(heat)} kW × 3600 / {fixed(through.heat_kj, 3)} kJ/kg = {carried(dry_air)} kg of dry "
            f"air an hour; × {fixed(sprayed.volume_m3, 4)} m³/kg = {fixed(volume, 0)} m³/h",
        ),
        Found(
            "airflow_m3_h_t",
            volume / tonnes,
            f"{carried(volume)} m³/h / {carried(tonnes)} t = {fixed(volume / tonnes, 0)}",
        ),
        Found(
            "heat_kw",
            heat,
            f"{plain_number(barley_kg)} kg × (100 − {plain_number(barley_moisture)})/100 = {carried(dry_kg)} kg "
            f"dry; × {plain_number(dry_matter_loss_per_day)}/100 = {carried(respired)} kg a day; × "
            f"{fixed(respiration.HEAT_MJ_PER_KG, 2)} MJ/kg / 86.4 = {fixed(heat, 2)} kW",
        ),
        Found(
            "peak_heat_kw",
            heat * peak_factor,
            f"{carried(heat)} kW × {plain_number(peak_factor)} = {fixed(heat * peak_factor, 1)} kW",
        ),
        Found(
            "vapour_percent",
            100.0 * (1.0 - through.sensible_share),
            f"all that does not warm the air: 100 × "
            f"({fixed(through.heat_kj, 3)} − {fixed(through.sensible_kj, 3)}) / {fixed(through.heat_kj, 3)} = "
            f"{fixed(100.0 * (1.0 - through.sensible_share), 0)} %",
        ),
        Found(
            "water_lost_kg_day",
            water,
            f"{carried(dry_air)} kg/h × {fixed(1000 * through.water_kg, 3)} g/kg × 24 h / 1000 = {fixed(water, 0)} kg",
        ),
        Found(
            "moisture_lost_points_day",
            bed_moisture - after,
            _dried(dry_kg, bed_moisture, after, water, respired),
        ),
        Found(
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
        found += _fan(fan_pa, fan_efficiency, sprayed, warming, volume)
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
    notes = _notes(percent, lost, alone, volume, fan_pa, lines)
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


def _dried(dry: float, moisture: float, after: float, evaporated: float, respired: float) -> str:
    """The bed's water and dry matter a day later, and the points between the two moistures."""
    water, formed = dry * moisture / (100.0 - moisture), respiration.water_formed_kg_day(respired_kg_day=respired)
    left = water - evaporated + formed
    if left <= 0.0:
        return f"{plain_number(moisture)} % − 0 % = {fixed(moisture, 2)} points, all the water there is"
    return (
        f"{carried(dry)} × {plain_number(moisture)} / (100 − {plain_number(moisture)}) − {carried(evaporated)} + "
        f"{carried(formed)} formed = {carried(left)} kg of water then; {plain_number(moisture)} − 100 × "
        f"{carried(left)} / ({carried(left)} + {carried(dry)} − {carried(respired)}) = "
        f"{fixed(moisture - after, 2)} points"
    )


def _fan(pa: float, efficiency: float, air: MoistAir, warming: float, volume: float) -> list[Found]:
    power = pa * volume / 3600.0 / efficiency / 1000.0
    return [
        Found(
            "fan_warming_k",
            warming,
            f"{plain_number(pa)} Pa × {fixed(air.volume_m3, 4)} m³/kg / (1000 × {fixed(air.heat_kj_k, 3)} "
            f"kJ/kg K × {plain_number(efficiency)}) = {fixed(warming, 2)} K",
        ),
        Found(
            "fan_kw",
            power,
            f"{plain_number(pa)} Pa × {carried(volume)} m³/h / 3600 / {plain_number(efficiency)} / 1000 "
            f"= {fixed(power, 2)} kW",
        ),
    ]


def _notes(
    percent: float, points: float, alone: float, volume: float, fan_pa: float | None, lines: Sequence[Line | None]
) -> tuple[Note, ...]:
    notes = [NO_ENTRY, PROCESS_AIR]
    if percent > _HIGH_CO2:
        worse = "4 % is immediately dangerous to life or health (NIOSH). " if percent >= _IDLH_CO2 else ""
        notes.insert(
            0,
            Note(
                "danger",
                f"The air that leaves this bed carries {fixed(percent, 1)} % carbon dioxide, over the limit of "
                f"0.5 % for the mean of a working day (OSHA, NIOSH). {worse}Keep people away from where it "
                "comes out, and from leaks of its duct.",
            ),
        )
    notes += limit_notes(lines)
    if passed(edges.MOISTURE_LOST, points):
        notes.append(
            Note(
                "notice",
                f"The bed dries by {fixed(points, 1)} points a day. Check the sprays and the humidity of the air on. "
                "[[sheet:sprinkling]] gives the water to put back.",
            )
        )
    notes.append(
        Note(
            "remark",
            f"Most of the heat leaves as vapour. Counted by the air’s warming alone the answer would be "
            f"{fixed(alone, 0)} m³/h, {fixed(alone / volume, 2)} times too much.",
        )
    )
    if fan_pa is None:
        notes.append(Note("remark", "The fan’s own warming is left out. Type its pressure to count it."))
    return tuple(notes)


_HEAT = "burning of starch, 17.29 MJ and 1.629 kg of carbon dioxide for each kilogram respired"
_AIR = "steady balance of heat and water in moist air (ASHRAE formulas by psychrolib)"
_TRUST_AIR = (
    "Half a degree wrong in the rise moves it by a fifth when the rise is 2.5 K. The bed is taken as even "
    "and steady; a bed that is being cooled down needs more."
)
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
        dry_matter_loss_per_day,
        air_on_c,
        air_on_rh,
        air_off_c,
        air_off_rh,
        fresh_air_percent,
        fan_pa,
        fan_efficiency,
        fan_place,
        altitude_m,
        bed_moisture,
        peak_factor,
    ),
    answers=(
        Answer(
            "peak_airflow_m3_h",
            "Air on the busiest day",
            "m3/h",
            0,
            lead=True,
            rests_on=f"{_AIR}, times the factor for the busiest day",
            trust="The factor is an assumption. Watch the rise through the bed on the third day.",
            next="Size the fan for this. Set less on the other days, by the rise through the bed.",
            within=within.between(0.0, 1_000_000.0, "No fan of any works blows more.", "barley_kg", "air_off_c"),
        ),
        Answer(
            "airflow_m3_h",
            "Air on a mean day",
            "m3/h",
            0,
            lead=True,
            rests_on=_AIR,
            trust=_TRUST_AIR,
            next="At the air set. If the rise is larger than planned, give more air or colder air.",
            within=within.between(0.0, 1_000_000.0, "No fan of any works blows more.", "barley_kg", "air_off_c"),
        ),
        Answer(
            "airflow_m3_h_t", "Air for each tonne of barley", "m3/h", 0, rests_on=_AIR, trust=_TRUST_AIR, within=_AIR_T
        ),
        Answer(
            "heat_kw",
            "Heat of the bed, mean day",
            "kW",
            1,
            rests_on=_HEAT,
            trust="As good as the share breathed away, which few works know better than ±30 %.",
            within=within.between(0.0, 20_000.0, "No bed gives more.", "barley_kg", "dry_matter_loss_per_day"),
        ),
        Answer(
            "peak_heat_kw",
            "Heat on the busiest day",
            "kW",
            1,
            rests_on=_HEAT,
            within=within.between(0.0, 20_000.0, "No bed gives more.", "barley_kg", "dry_matter_loss_per_day"),
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
            "Power of the fan, mean day",
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
            trust=f"Under about {plain_number(AIR_ON_RH.accept_low or 0)} % the bed dries.",
            worked="model",
            within=within.part("air_on_rh"),
        ),
    ),
    work=work,
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
