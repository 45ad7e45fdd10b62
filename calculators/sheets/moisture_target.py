"""What the batch weighs when it has taken up enough water."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Either, Found, Note, Number, Outcome, Sheet
from ..asking.figures import carried, fixed, limits_said, plain_number
from ..models import bounds as limits
from ..models.weights.batch import moisture_at_weight, steeped_dry_matter, target_weight, water_taken_up, weight_gain
from ..words import within
from ..words.malts import taken
from ..words.questions.malts import malt as asked_malt
from ..words.questions.shared import barley_kg, barley_moisture, dry_matter_lost, number, target_moisture
from ..words.target import past_moisture, past_target

BASKET_G = 100.0

skimmings_percent = number(
    "skimmings_percent",
    "Skimmings",
    "%",
    limits.SKIMMINGS_PERCENT,
    "Grain floated off and taken away. It changes the weight, not the moisture.",
    default="0",
)
current_kg = Number(
    "current_kg",
    "Weight now",
    "kg",
    limits.WEIGHT_KG.low,
    limits.WEIGHT_KG.high,
    "Of the whole batch, drained, if you can weigh it.",
    example="10400",
    optional=True,
)


def work(
    *,
    barley_kg: float,
    barley_moisture: float,
    target_moisture: float | None,
    malt: str | None,
    dry_matter_lost: float,
    skimmings_percent: float,
    current_kg: float | None,
) -> Outcome:
    """Balance the dry matter of the batch."""
    from_table: list[Note] = []
    if target_moisture is None:
        assert malt is not None
        target_moisture, note = taken(malt, "cast", "%", "Target moisture")
        from_table.append(note)
    batch = {
        "barley_kg": barley_kg,
        "barley_moisture": barley_moisture,
        "dry_matter_lost": dry_matter_lost,
        "skimmings_percent": skimmings_percent,
    }
    dry_kg = steeped_dry_matter(**batch)
    target_kg = target_weight(target_moisture=target_moisture, **batch)
    water_kg = water_taken_up(target_moisture=target_moisture, **batch)
    gain = weight_gain(
        barley_moisture=barley_moisture,
        target_moisture=target_moisture,
        dry_matter_lost=dry_matter_lost,
    )
    basket_g = (
        target_weight(
            barley_kg=BASKET_G / 1000,
            barley_moisture=barley_moisture,
            target_moisture=target_moisture,
            dry_matter_lost=dry_matter_lost,
        )
        * 1000
    )
    dry = _dry_working(barley_kg, barley_moisture, dry_matter_lost, skimmings_percent, dry_kg)
    left = f"(100 − {plain_number(target_moisture)})"
    skimmed = f" × (1 − {plain_number(skimmings_percent)}/100)" if skimmings_percent else ""
    brought = target_kg - dry_kg - water_kg
    found = [
        Found(
            "target_kg",
            target_kg,
            f"{dry}; {carried(dry_kg)} kg × 100 / {left} = {fixed(target_kg, 0)} kg",
        ),
        Found(
            "water_taken_up_kg",
            water_kg,
            f"water the corns brought: {plain_number(barley_kg)} kg × {plain_number(barley_moisture)}/100{skimmed} = "
            f"{carried(brought)} kg; water at target less that: {carried(target_kg)} − {carried(dry_kg)} − "
            f"{carried(brought)} = {fixed(water_kg, 0)} kg",
        ),
        Found(
            "weight_gain_percent",
            gain,
            f"(100 − {plain_number(barley_moisture)}) × (1 − {plain_number(dry_matter_lost)}/100) "
            f"/ {left} = {carried(1 + gain / 100)} times the weight it had; 100 × ({carried(1 + gain / 100)} − 1) = "
            f"{fixed(gain, 1)} %",
        ),
        Found(
            "basket_100_g",
            basket_g,
            f"100 g × {carried(1 + gain / 100)} = {fixed(basket_g, 1)} g of grain, without the basket",
        ),
    ]
    notes = [
        *past_target(target_moisture),
        *from_table,
        Note(
            "remark",
            "Few works can weigh a whole steep. A basket of weighed barley in the same water "
            "says the same: [[sheet:sample-basket|the steep basket]].",
        ),
    ]
    if current_kg is not None:
        found += _now(current_kg, batch, dry_kg, target_kg, notes)
    return Outcome(tuple(found), notes=tuple(notes))


def _dry_working(kg: float, moisture: float, lost: float, skimmed: float, dry_kg: float) -> str:
    factors = f"{plain_number(kg)} kg × (100 − {plain_number(moisture)})/100"
    if skimmed:
        factors += f" × (1 − {plain_number(skimmed)}/100)"
    if lost:
        factors += f" × (1 − {plain_number(lost)}/100)"
    return f"dry matter: {factors} = {carried(dry_kg)} kg"


def _now(current_kg: float, batch: dict[str, float], dry_kg: float, target_kg: float, notes: list[Note]) -> list[Found]:
    wettest = limits.STEEPED_MOISTURE.high
    least, most = (100.0 * dry_kg / (100.0 - at) for at in (batch["barley_moisture"], wettest))
    if not least <= current_kg <= most:
        low, high = limits_said(least, most)
        raise AskAgain(
            "current_kg",
            f"{plain_number(current_kg)} kg does not fit this batch. At {low} kg it would be as dry as it came, at "
            f"{high} kg it would hold {plain_number(wettest)} %. Type a number from {low} to {high} kg, or leave it "
            "blank.",
        )
    now = moisture_at_weight(current_kg=current_kg, **batch)
    notes[:0] = past_moisture(now)
    to_go = target_kg - current_kg
    if to_go < 0:
        notes.append(
            Note(
                "notice",
                f"The batch weighs {fixed(-to_go, 0)} kg more than at target. If the weight is right "
                "and the grain is drained, it has taken up more water than you wanted: "
                "see [[page:procedures/steeping|steeping]].",
            )
        )
    return [
        Found(
            "current_moisture",
            now,
            f"100 × (1 − {carried(dry_kg)} / {plain_number(current_kg)}) = {fixed(now, 1)} %",
        ),
        Found(
            "kg_to_go",
            to_go,
            f"{fixed(target_kg, 0)} − {plain_number(current_kg)} = {fixed(to_go, 0)} kg",
        ),
    ]


_BALANCE = "conservation of dry matter; exact arithmetic"

SHEET = Sheet(
    id="moisture-target",
    title="Target weight",
    purpose="What a batch weighs when it has taken up enough water.",
    questions=(
        barley_kg,
        barley_moisture,
        target_moisture,
        asked_malt._replace(optional=False),
        current_kg,
        dry_matter_lost,
        skimmings_percent,
    ),
    either=(Either((("target_moisture",), ("malt",))),),
    answers=(
        Answer(
            "target_kg",
            "Weight at target",
            "kg",
            0,
            lead=True,
            rests_on=_BALANCE,
            trust="As good as what goes in: 0.5 points wrong in the barley’s moisture moves it 0.6 %, "
            "1 % of dry matter lost moves it 1 %.",
            next="Drain when the grain weighs this, drained until it stops dripping.",
            within=within.kilograms("barley_kg", most=2.2 * limits.WEIGHT_KG.high),
        ),
        Answer(
            "water_taken_up_kg",
            "Water taken up",
            "kg",
            0,
            rests_on=_BALANCE,
            trust="More than the gain in weight, because some dry matter leaches away. "
            "Figures near 0.94 m³ a tonne, printed for 12 to 45 %, contradict the balance (0.60).",
            within=within.kilograms("target_moisture", most=1.2 * limits.WEIGHT_KG.high),
        ),
        Answer(
            "weight_gain_percent",
            "Gain in weight",
            "%",
            1,
            rests_on=_BALANCE,
            trust="The same for a basket as for the batch.",
            within=within.between(-5.0, 115.0, "Barley gains no more up to the wettest target.", "target_moisture"),
        ),
        Answer(
            "basket_100_g",
            "100 g of barley in a basket would weigh",
            "g",
            1,
            lead=True,
            rests_on=_BALANCE,
            trust="1 g of clinging water reads about a third of a point too wet.",
            next="Add the weight of the wet basket.",
            within=within.between(
                95.0, 215.0, "100 g of barley weigh no more at the wettest target.", "target_moisture"
            ),
        ),
        Answer(
            "current_moisture",
            "Moisture now",
            "%",
            1,
            lead=True,
            rests_on=_BALANCE,
            trust="1 % of clinging water reads 0.55 points high near 45 %.",
            within=within.moisture("current_kg"),
        ),
        Answer(
            "kg_to_go",
            "Weight still to gain",
            "kg",
            0,
            rests_on=_BALANCE,
            within=within.kilograms("current_kg", low=-2.2 * limits.WEIGHT_KG.high, most=2.2 * limits.WEIGHT_KG.high),
        ),
    ),
    work=work,
    sources=("magb-malt-facts", "irri-drying", "ure"),
    story="Batch example-01 of the example maltings: invented numbers.",
)
