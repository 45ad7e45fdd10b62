"""Water to dry off green malt, and the heat that its evaporation alone takes."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Belongs, Either, Found, Note, Outcome, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models import bounds as limits
from ..models.bed.latent_heat import TEMPERATURE_C, latent_heat
from ..models.bounds import Bounds
from ..models.nature import KJ_KWH
from ..models.weights.moisture import water_to_remove, weight_after
from ..rules.conventions import DRIES_BELOW_C
from ..rules.limits import kiln_hand_over as edges
from ..rules.lines import passed
from ..words import within
from ..words.limits import limit_notes, span
from ..words.lost import LAW, TRUST, Lost, lost_by
from ..words.questions.grown import bed_temp_c, grown_days
from ..words.questions.shared import barley_kg, barley_moisture, malt_moisture, number

WRONG_KJ_KG = 2257.0
"""The value at 100 C, which many tables print as the heat of evaporation."""
_MOVES_WITH_LOSS = ("water_to_remove_kg", "malt_kg", "latent_heat_kwh")
GAS_KWH_T = 750.0
"""Gas for a tonne of malt in works (Maltsters' Association of Great Britain, read)."""

green_malt_kg = number(
    "green_malt_kg",
    "Green malt",
    "kg",
    limits.WEIGHT_KG,
    "As loaded on the kiln. To plan ahead, give its barley and its days in place of it.",
    example="9000",
)
green_malt_moisture = number(
    "green_malt_moisture",
    "Green malt moisture",
    "%",
    Bounds(20.0, 60.0),
    f"Before loading the quick way, for the books the oven: {span(edges.MOISTURE)} is usual.",
    example="45",
)
drying_temp_c = number(
    "drying_temp_c",
    "Drying temperature",
    "C",
    TEMPERATURE_C,
    "Of the grain while most of the water leaves.",
    default="60",
)


def work(
    *,
    green_malt_kg: float | None,
    barley_kg: float | None,
    barley_moisture: float | None,
    grown_days: float | None,
    bed_temp_c: float | None,
    green_malt_moisture: float,
    malt_moisture: float,
    drying_temp_c: float,
) -> Outcome:
    """Balance the dry matter, weighed or by the one law; take the latent heat at the drying temperature."""
    if malt_moisture >= green_malt_moisture:
        raise AskAgain(
            "malt_moisture",
            f"{plain_number(malt_moisture)} % is not drier than the green malt, {plain_number(green_malt_moisture)} %. "
            f"Type a number below {plain_number(green_malt_moisture)} %.",
        )
    ahead: list[Found] = []
    widths = (1.0, 1.0)
    if green_malt_kg is None:
        assert barley_kg is not None and barley_moisture is not None
        assert grown_days is not None and bed_temp_c is not None
        lost = lost_by(days=grown_days, temp_c=bed_temp_c)
        green_malt_kg, found_first = _green_malt(barley_kg, barley_moisture, green_malt_moisture, lost)
        ahead.append(found_first)
        widths = ((100.0 - lost.high) / (100.0 - lost.percent), (100.0 - lost.low) / (100.0 - lost.percent))
    water = water_to_remove(weight_kg=green_malt_kg, moisture=green_malt_moisture, final_moisture=malt_moisture)
    malt = green_malt_kg - water
    per_tonne = 1000.0 * water / malt
    heat = latent_heat(temperature_c=drying_temp_c)
    kwh = water * heat / KJ_KWH
    kwh_tonne = per_tonne * heat / KJ_KWH
    left, right = f"(100 − {plain_number(green_malt_moisture)})", f"(100 − {plain_number(malt_moisture)})"
    off = 100.0 * (WRONG_KJ_KG / heat - 1.0)
    found: tuple[Found, ...] = (
        Found(
            "water_to_remove_kg",
            water,
            f"{carried(green_malt_kg)} kg × ({plain_number(green_malt_moisture)} − {plain_number(malt_moisture)})"
            f" / {right} = {fixed(water, 0)} kg",
        ),
        Found(
            "malt_kg",
            malt,
            f"{carried(green_malt_kg)} kg × {left} / {right} = {fixed(malt, 0)} kg, rootlets still on",
        ),
        Found("water_per_tonne_kg", per_tonne, f"1000 × {carried(water)} / {carried(malt)} = {fixed(per_tonne, 0)} kg"),
        Found(
            "latent_heat_kj_kg",
            heat,
            f"water at {plain_number(drying_temp_c)} °C, by the published equation: {fixed(heat, 0)} kJ/kg",
        ),
        Found(
            "latent_heat_kwh",
            kwh,
            f"{carried(water)} kg × {fixed(heat, 0)} kJ/kg / 3600 kJ/kWh = {fixed(kwh, 0)} kWh",
        ),
        Found(
            "latent_heat_per_tonne_kwh",
            kwh_tonne,
            f"{carried(per_tonne)} kg × {fixed(heat, 0)} / 3600 = {fixed(kwh_tonne, 0)} kWh a tonne of malt",
        ),
    )
    which = "too little" if off < 0 else "too much"
    wrong = f" Here it would be {fixed(abs(off), 1)} % {which}." if abs(off) >= 0.05 else ""
    cooler = (
        " Green malt dries far below that."
        if drying_temp_c < DRIES_BELOW_C
        else " Green malt gives up most of its water far below that: check the drying temperature."
    )
    notes = [
        *limit_notes([passed(edges.MOISTURE, green_malt_moisture)]),
        Note(
            "remark",
            f"2257 kJ/kg is the heat of water that boils at 100 °C.{cooler}{wrong}",
        ),
        Note(
            "remark",
            "The kiln needs far more than this floor. It also warms air, grain and walls, and the air leaves with heat "
            f"in it. Works use about {GAS_KWH_T:g} kWh of gas for a tonne of malt, by their trade association.",
        ),
    ]
    if ahead:
        found = tuple(
            one._replace(low=one.value * widths[0], high=one.value * widths[1])
            if one.id in _MOVES_WITH_LOSS and isinstance(one.value, float)
            else one
            for one in found
        )
    return Outcome((*found, *ahead), notes=tuple(notes))


def _green_malt(barley_kg: float, barley_moisture: float, moisture: float, lost: Lost) -> tuple[float, Found]:
    """The green malt that a batch will weigh, by what it loses to the kiln's door."""
    low, green, high = (
        weight_after(weight_kg=barley_kg, moisture=barley_moisture, new_moisture=moisture, dry_matter_lost=percent)
        for percent in (lost.high, lost.percent, lost.low)
    )
    working = (
        f"lost: {lost.working}; {plain_number(barley_kg)} kg × (100 − {plain_number(barley_moisture)}) × (1 − "
        f"{carried(lost.percent)}/100) / (100 − {plain_number(moisture)}) = {fixed(green, 0)} kg"
    )
    return green, Found("green_malt_by_law_kg", green, working, low, high)


_BALANCE = "conservation of dry matter; exact arithmetic"

SHEET = Sheet(
    id="kiln-water",
    title="Water to dry off",
    purpose="How much water the kiln must take off, and the least heat that takes.",
    questions=(
        green_malt_kg,
        green_malt_moisture,
        malt_moisture,
        drying_temp_c,
        barley_kg._replace(hint="Of the batch, as it was weighed dry.", example=""),
        barley_moisture._replace(hint="Of that barley, before the steep.", example=""),
        grown_days,
        bed_temp_c,
    ),
    either=(Either((("green_malt_kg",), ("barley_kg", "barley_moisture", "grown_days", "bed_temp_c"))),),
    answers=(
        Answer(
            "water_to_remove_kg",
            "Water to dry off",
            "kg",
            0,
            lead=True,
            rests_on=_BALANCE,
            trust="1 point wrong in the green malt’s moisture moves it about 2.5 % near 45 %.",
            within=within.kilograms("green_malt_kg"),
        ),
        Answer(
            "malt_kg",
            "Malt left",
            "kg",
            0,
            rests_on=_BALANCE,
            trust="Before the rootlets are taken off.",
            within=within.kilograms("green_malt_kg"),
        ),
        Answer(
            "green_malt_by_law_kg",
            "Green malt to expect",
            "kg",
            0,
            rests_on=f"{_BALANCE}; the loss by {LAW}",
            trust=TRUST,
            next="Weigh it when it is loaded, and ask again with the weight.",
            within=within.kilograms("barley_kg"),
        ),
        Answer(
            "water_per_tonne_kg",
            "Water for a tonne of malt",
            "kg",
            0,
            rests_on=_BALANCE,
            within=within.between(0.0, 2000.0, "No green malt holds more.", "green_malt_moisture"),
        ),
        Answer(
            "latent_heat_kwh",
            "Heat to evaporate it, at least",
            "kWh",
            0,
            lead=True,
            rests_on="latent heat of water at the drying temperature, from the saturation line (Wagner and Pruss 2002)",
            trust="A floor. The last water is held by the grain and takes a little more.",
            next="Write it beside the gas meter’s reading: the difference is what the kiln loses.",
            within=within.between(0.0, 1_000_000.0, "No kiln loads so much.", "green_malt_kg"),
        ),
        Answer(
            "latent_heat_per_tonne_kwh",
            "The same for a tonne of malt",
            "kWh",
            0,
            rests_on="the two lines above",
            trust="45 to 4 % at 60 °C is 488 kWh.",
            within=within.between(0.0, 1500.0, "No green malt holds more water.", "green_malt_moisture"),
        ),
        Answer(
            "latent_heat_kj_kg",
            "Latent heat",
            "kJ/kg",
            0,
            rests_on="Clapeyron’s equation with the auxiliary equations of Wagner and Pruss",
            trust="Within 0.3 kJ/kg of the international formulation at 10, 20, 60 and 80 °C.",
            worked="table",
            within=within.between(
                2000.0, 2502.0, "Water takes no more and no less between freezing and 120 °C.", "drying_temp_c"
            ),
        ),
    ),
    work=work,
    belongs=(Belongs("weight_kg", ("barley_kg", "green_malt_kg"), "the green malt", "kg"),),
    sources=("wagner-pruss-2002", "magb-malt-facts", "cereals-processing"),
    story="Batch example-03 of the example maltings, loaded on the kiln: invented numbers.",
)
