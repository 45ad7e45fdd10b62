"""How much oxygen steep water brings, how soon half of it could be gone, and the process air a steep needs at least."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Found, Heading, Listing, Note, Outcome, Rows, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models.bounds import WEIGHT_KG
from ..models.steep import oxygen as model
from ..models.steep.oxygen import UPTAKE
from ..words import within
from ..words.cautions import PROCESS_AIR
from ..words.gas import STEEP_DISAGREES
from ..words.questions.shared import number, water_temp_c
from ..words.steep import GAS

altitude_m = number("altitude_m", "Height above the sea", "m", model.ALTITUDE_M, "", default="0")
grain_kg = number("grain_kg", "Barley in the steep", "kg", WEIGHT_KG, "As weighed dry.", example="6000")
water_m3 = number("water_m3", "Water in one fill", "m3", model.WATER_M3, "Between the corns too.", example="8")
uptake_mg_kg_h = number(
    "uptake_mg_kg_h",
    "Oxygen the grain takes",
    "mg/kg h",
    model.UPTAKE,
    "About 1 in the first immersion, 3 in the second, 10 in the third; may be more.",
    default=f"{model.UPTAKE_FIRST:g}",
    source="a textbook that cannot be cited, for the first and third; the second between them is ours",
)._replace(in_view=True)

_MOST_M3_T = 50
"""Water on a tonne of grain that no steep comes near [m3/t]: 1 to 2 is usual (common practice)."""
_IMMERSIONS = ("first", "second", "third and later")


def work(*, water_temp_c: float, grain_kg: float, water_m3: float, uptake_mg_kg_h: float, altitude_m: float) -> Outcome:
    """Take the saturation of the water, and divide it by what the grain takes."""
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

    minutes = half(uptake_mg_kg_h)
    air, suction = model.AIR_M3_T_H * tonnes, model.SUCTION_M3_T_H * tonnes
    rows = []
    for immersion, name in enumerate(_IMMERSIONS, 1):
        uptake = model.uptake_of_immersion(immersion=immersion)
        rows.append((name, uptake, half(uptake)))
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
                f"({plain_number(grain_kg)} kg × {plain_number(uptake_mg_kg_h)} mg/kg h) × 60 = "
                f"{fixed(minutes, 0)} min",
            ),
            Found("air_m3_h", air, f"{fixed(model.AIR_M3_T_H, 2)} m³/t h × {carried(tonnes)} t = {fixed(air, 0)} m³/h"),
            Found(
                "suction_m3_h",
                suction,
                f"{fixed(model.SUCTION_M3_T_H, 2)} m³/t h × {carried(tonnes)} t = {fixed(suction, 0)} m³/h",
            ),
        ),
        (Rows("immersions", rows),),
        (_STILL, PROCESS_AIR, GAS, Note("remark", STEEP_DISAGREES)),
    )


_STILL = Note(
    "notice",
    "The minutes are for water that is stirred all the time. Under still water the corns use up what touches them at "
    "once. Germs were found short of oxygen under every steeping condition tried: give air from the first minute.",
)
_MINUTES = within.between(
    0.1,
    1440.0,
    "A steep has about a tonne of water to a tonne of barley, and its oxygen is gone within hours.",
    "water_m3",
    "grain_kg",
    instead="Check both weights and their units.",
)

SHEET = Sheet(
    id="steep-oxygen",
    title="Steep oxygen",
    purpose="What oxygen the water brings, how soon it is half gone, and the least process air.",
    questions=(water_temp_c, grain_kg, water_m3, uptake_mg_kg_h, altitude_m),
    answers=(
        Answer(
            "minutes_to_half",
            "In stirred water half is gone after at most",
            "min",
            0,
            lead=True,
            rests_on="oxygen in the water over what the grain takes; saturated at the start, stirred, no air given",
            trust="The longest it could be. Well and tank water often start with less, and the grain may take more "
            "than that figure, which cannot be cited.",
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
            next="When grain warms more than 1 °C an hour: [[page:procedures/steeping|steeping]].",
            within=within.between(0.0, 100_000.0, "No works draws more from one steep.", "grain_kg"),
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
                Heading(
                    "uptake",
                    "The grain takes",
                    "mg/kg h",
                    1,
                    within=within.between(0.0, UPTAKE.high, "No barley takes more."),
                ),
                Heading("minutes", "Stirred, half gone after at most", "min", 0, within=_MINUTES),
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
    story="First immersion of batch example-01 in the example maltings: invented numbers.",
)
