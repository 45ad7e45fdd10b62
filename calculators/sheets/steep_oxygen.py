"""How much oxygen steep water brings, how soon half of it could be gone, and the process air a steep needs at least."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Choice, Found, Heading, Listing, Note, Option, Outcome, Rows, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models.bed.respiration import HEAT_MJ_PER_KG, O2_PER_KG
from ..models.bounds import WEIGHT_KG, Bounds
from ..models.living.breathing import GUARDED_FACTOR
from ..models.living.by_day import breath_of_immersion
from ..models.steep import oxygen as model
from ..rules.limits.steeping import REST_RISE
from ..words import within
from ..words.cautions import PROCESS_AIR
from ..words.gas import STEEP_BREATH
from ..words.limits import at_edge
from ..words.questions.shared import number, water_temp_c
from ..words.steep import GAS

altitude_m = number("altitude_m", "Height above the sea", "m", model.ALTITUDE_M, "", default="0")
grain_kg = number("grain_kg", "Barley in the steep", "kg", WEIGHT_KG, "As weighed dry.", example="6000")
water_m3 = number("water_m3", "Water in one fill", "m3", model.WATER_M3, "Between the corns too.", example="8")
immersion = Choice(
    "immersion",
    "Immersion",
    (
        Option("first", "first"),
        Option("second", "second"),
        Option("third", "third or later"),
    ),
    "The later, the more the grain breathes.",
    default="third",
    in_view=True,
)
uptake_mg_kg_h = number(
    "uptake_mg_kg_h",
    "Oxygen the grain takes, if measured",
    "mg/kg h",
    Bounds(model.UPTAKE.low, 1000.0),
    "A kilogram of barley. Blank: by the law of breathing.",
)._replace(optional=True, in_view=True)

_MOST_M3_T = 50
"""Water on a tonne of grain that no steep comes near [m3/t]: 1 to 2 is usual (common practice)."""
_IMMERSIONS = immersion.options
_KW_T_PER_MG = HEAT_MJ_PER_KG / O2_PER_KG / 3600.0
_TAKEN = (model.TAKEN_FIRST, None, model.TAKEN_THIRD)


def work(
    *,
    water_temp_c: float,
    grain_kg: float,
    water_m3: float,
    immersion: str,
    uptake_mg_kg_h: float | None,
    altitude_m: float,
) -> Outcome:
    """Take the saturation of the water, and divide it by what the grain would use."""
    tonnes = grain_kg / 1000.0
    if water_m3 > _MOST_M3_T * tonnes:
        raise AskAgain(
            "water_m3",
            f"{plain_number(water_m3)} m³ of water on {plain_number(grain_kg)} kg of grain is no steep: type at most "
            f"{_MOST_M3_T} m³ for each tonne, such as 1.5 m³ for 1000 kg. Check both units.",
        )
    oxygen = model.oxygen_saturation(water_temp_c=water_temp_c, altitude_m=altitude_m)

    def half(uptake: float) -> float:
        return model.minutes_to_half(oxygen_mg_l=oxygen, water_m3=water_m3, grain_kg=grain_kg, uptake_mg_kg_h=uptake)

    rows, wanted = [], {}
    for number_of, option in enumerate(_IMMERSIONS, 1):
        usual, most = (1000.0 * end.o2_kg_h for end in breath_of_immersion(immersion=number_of, temp_c=water_temp_c))
        wanted[option.word] = (usual, most)
        rows.append((option.label, usual, most, half(most), _TAKEN[number_of - 1]))
    usual, most = wanted[immersion]
    if uptake_mg_kg_h is not None:
        usual, most = uptake_mg_kg_h, max(uptake_mg_kg_h, most)
    minutes = half(most)
    air, suction = model.AIR_M3_T_H * tonnes, model.SUCTION_M3_T_H * tonnes
    return Outcome(
        (
            Found(
                "oxygen_mg_l",
                oxygen,
                f"equation of the American standard methods at {plain_number(water_temp_c)} °C and "
                f"{fixed(101.325 * model.pressure_at(altitude_m=altitude_m), 1)} kPa",
            ),
            Found(
                "minutes_to_half",
                minutes,
                f"0.5 × {fixed(oxygen, 2)} mg/L × {plain_number(water_m3)} m³ × 1000 / "
                f"({plain_number(grain_kg)} kg × {carried(most)} mg/kg h) × 60 = "
                f"{fixed(minutes, 0)} min",
                minutes,
                half(usual),
            ),
            Found(
                "uptake_used_mg_kg_h",
                usual,
                "your own figure"
                if uptake_mg_kg_h is not None
                else f"the law of breathing at {plain_number(water_temp_c)} °C, end of that immersion",
                usual,
                most,
                worked="given" if uptake_mg_kg_h is not None else "model",
            ),
            Found(
                "heat_kw_t",
                usual * _KW_T_PER_MG,
                f"{carried(usual)} mg/kg h × {carried(HEAT_MJ_PER_KG / O2_PER_KG)} MJ for each kg of oxygen / 3600 = "
                f"{fixed(usual * _KW_T_PER_MG, 2)} kW/t",
                usual * _KW_T_PER_MG,
                most * _KW_T_PER_MG,
            ),
            Found("air_m3_h", air, f"{fixed(model.AIR_M3_T_H, 2)} m³/t h × {carried(tonnes)} t = {fixed(air, 0)} m³/h"),
            Found(
                "suction_m3_h",
                suction,
                f"{fixed(model.SUCTION_M3_T_H, 2)} m³/t h × {carried(tonnes)} t = {fixed(suction, 0)} m³/h",
            ),
        ),
        (Rows("immersions", rows),),
        (_STILL, PROCESS_AIR, GAS, Note("remark", STEEP_BREATH)),
    )


_STILL = Note(
    "notice",
    "The minutes are for water that is stirred all the time. Under still water the corns use up what touches them at "
    "once. Germs were found short of oxygen under every steeping condition tried: give air from the first minute.",
)
_MINUTES = within.between(
    0.0,
    1440.0,
    "A steep has about a tonne of water to a tonne of barley, and its oxygen is gone within hours.",
    "water_m3",
    "grain_kg",
    instead="Check both weights and their units.",
)

_UPTAKE = within.between(0.0, model.UPTAKE.high, "No barley takes more.", "uptake_mg_kg_h", "water_temp_c")

SHEET = Sheet(
    id="steep-oxygen",
    title="Steep oxygen",
    purpose="What oxygen the water brings, how soon it is half gone, and the least process air.",
    questions=(water_temp_c, grain_kg, water_m3, immersion, uptake_mg_kg_h, altitude_m),
    answers=(
        Answer(
            "minutes_to_half",
            "Soonest: half of the oxygen is gone, in stirred water",
            "min",
            0,
            lead=True,
            rests_on="oxygen in the water over the most that the grain may use; saturated at the start, stirred, no "
            "air given",
            trust="At the corns it is gone sooner: still water brings them hardly any, and well or tank water often "
            "starts with less.",
            next="Give air from the first minute. This is no time to leave it off.",
            within=_MINUTES,
        ),
        Answer(
            "air_m3_h",
            "Process air while wet, at least",
            "m3/h",
            0,
            lead=True,
            rests_on="one plant study: 25 ft³/min for 1,000 bushels, converted with 48 lb a bushel",
            trust="A minimum. Many houses give far more (common practice).",
            within=within.between(0.0, 100_000.0, "No works blows more into one steep.", "grain_kg"),
        ),
        Answer(
            "suction_m3_h",
            "Suction while dry, at least",
            "m3/h",
            0,
            lead=True,
            rests_on="the same study: 100 ft³/min for 1,000 bushels",
            trust="A minimum. Go by the grain’s temperature and smell.",
            next=f"When grain warms more than {at_edge(REST_RISE, 'stop_high')} an hour: "
            "[[page:procedures/steeping|steeping]].",
            within=within.between(0.0, 100_000.0, "No works draws more from one steep.", "grain_kg"),
        ),
        Answer(
            "uptake_used_mg_kg_h",
            "Oxygen the grain would use",
            "mg/kg h",
            0,
            rests_on="the one law of breathing, from which heat and gas follow too: "
            "[[page:reference/living-batch|the living batch]]",
            trust=f"At the most: {plain_number(GUARDED_FACTOR)} times the law; in a third immersion for grain half "
            "a day further on than is thought. What water brings may be a tenth.",
            within=_UPTAKE,
        ),
        Answer(
            "heat_kw_t",
            "Heat that goes with it",
            "kW/t",
            2,
            rests_on="2,803 kJ for 6 mol of oxygen",
            trust="The same rate that [[sheet:gas-build-up|gas in a shut vessel]] takes for grain in the steep.",
            within=within.between(0.0, 100.0, "No barley breathes faster.", "uptake_mg_kg_h", "water_temp_c"),
        ),
        Answer(
            "oxygen_mg_l",
            "Oxygen in the water at the start, at most",
            "mg/L",
            1,
            rests_on="saturation in moist air at that height; warm water holds less",
            trust="Within 0.15 mg/L of a printed table.",
            worked="table",
            within=within.between(0.0, 20.0, "Water under air holds no more.", "water_temp_c"),
        ),
    ),
    listings=(
        Listing(
            "immersions",
            "By immersion, this water and this barley",
            (
                Heading("immersion", "Immersion", kind="text"),
                Heading("uptake", "The grain would use", "mg/kg h", 0, within=_UPTAKE),
                Heading("most", "At the most", "mg/kg h", 0, within=_UPTAKE),
                Heading("minutes", "Stirred, soonest half gone", "min", 0, within=_MINUTES),
                Heading("taken", "A textbook saw taken", "mg/kg h", 0, within=_UPTAKE),
            ),
        ),
    ),
    work=work,
    sources=(
        "apha-oxygen",
        "en-25814",
        "oxygen-pressure-table",
        "barometric-formula",
        "oxygen-uptake-textbook",
        "haley-1987",
        "wilhelmson-2006",
    ),
    story="Third immersion of batch example-01 in the example maltings: invented numbers.",
)
