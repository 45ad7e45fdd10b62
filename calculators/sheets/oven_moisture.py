"""Moisture from dishes weighed before and after the oven."""

from __future__ import annotations

from ..asking.declare import Answer, Choice, Found, Heading, Listing, Note, Option, Outcome, Rows, Sheet, Table
from ..asking.figures import fixed, plain_number
from ..models.bounds import Bounds
from ..models.weights.oven import (
    DISHES,
    EMPTY_G,
    PREDRY_ABOVE,
    PREDRY_LOSS,
    REPEATABILITY,
    SAMPLE_G,
    OvenMoisture,
    allowed_difference,
    dish_moisture,
    oven_moisture,
)
from ..rules.limit import edge
from ..rules.limits.measuring_moisture import DRY_DISHES, WET_DISHES
from ..words import within
from ..words.oven import METHODS
from ..words.questions.shared import number

_ROUNDING = 1e-9  # points: the limits themselves are accepted
_GROSS_G = Bounds(SAMPLE_G.low, EMPTY_G.high + SAMPLE_G.high)

dishes = Table(
    "dishes",
    "Dishes",
    (
        number("empty_g", "Empty", "g", EMPTY_G, example="20.112"),
        number("wet_g", "With grain, before", "g", _GROSS_G, example="25.130"),
        number("dry_g", "With grain, after", "g", Bounds(0.0, _GROSS_G.high), example="24.531"),
    ),
    min_rows=1,
    max_rows=int(DISHES.high),
    hint="Weigh each dish with its lid, cold from the desiccator. Two dishes at least guard against a slip.",
    example="20.112 25.130 24.531; 19.874 24.902 24.296",
)
material = Choice(
    "material",
    "What was dried",
    (
        Option("dry-barley", "Dry barley, ground"),
        Option("steeped-corn", "Steeped corn, whole"),
        Option("green-malt", "Green malt, whole"),
    ),
    hint="Wet grain is dried whole: it cannot be ground.",
    example="dry-barley",
)
predry_loss_percent = number(
    "predry_loss_percent",
    "Weight lost in a first drying",
    "%",
    PREDRY_LOSS,
    "When wet grain was dried whole first and ground then; 0 when there was no first drying.",
    default="0",
)


def work(
    *,
    dishes: tuple[tuple[float, float, float], ...],
    material: str,
    predry_loss_percent: float,
) -> Outcome:
    """Weigh the water of each dish, average, and hold the difference against the method."""
    found = oven_moisture(dishes=dishes, predry_loss_percent=predry_loss_percent)
    kind = material.replace("-", "_")
    allowed = _allowed(kind, len(dishes), predry_loss_percent)
    empty, wet, dry = dishes[0]
    first = dish_moisture(empty_g=empty, wet_g=wet, dry_g=dry)
    working = (
        f"dish 1: 100 × ({plain_number(wet)} − {plain_number(dry)}) / "
        f"({plain_number(wet)} − {plain_number(empty)}) = {fixed(first, 2)} %"
    )
    if predry_loss_percent:
        lost = plain_number(predry_loss_percent)
        working += f"; both stages: {lost} + (100 − {lost}) × {fixed(first, 2)} / 100"
        working += f" = {fixed(found.dishes[0], 2)} %"
    if len(dishes) > 1:
        each = " + ".join(fixed(one, 3) for one in found.dishes)
        working += f"; mean of all dishes: ({each}) / {len(dishes)} = {fixed(found.moisture, 2)} %"
    answers = [
        # only what was dried as barley is the barley’s own moisture
        Found("moisture", found.moisture, working, gives=None if kind == "dry_barley" else ""),
        Found(
            "moisture_db",
            found.moisture_db,
            f"100 × {fixed(found.moisture, 2)} / (100 − {fixed(found.moisture, 2)}) = {fixed(found.moisture_db, 1)} %",
        ),
    ]
    if len(dishes) > 1:
        answers.append(
            Found(
                "difference",
                found.difference,
                f"{fixed(max(found.dishes), 3)} − {fixed(min(found.dishes), 3)} = {fixed(found.difference, 2)} points",
            )
        )
    rows = [(n, value) for n, value in enumerate(found.dishes, 1)]
    return Outcome(
        tuple(answers),
        (Rows("each", [(float(n), value) for n, value in rows]),),
        tuple(_notes(found, kind, allowed, predry_loss_percent)),
    )


def _allowed(kind: str, dishes: int, predry_loss_percent: float) -> float | None:
    """How far the dishes may differ: as the method has it, in the measure in which this house has moved its edge."""
    points = allowed_difference(material=kind, dishes=dishes, predry_loss_percent=predry_loss_percent)
    of = "dry_barley" if predry_loss_percent else kind
    row = DRY_DISHES if of == "dry_barley" else WET_DISHES
    return None if points is None else points * edge(row.accept_high) / REPEATABILITY[of]


def _notes(found: OvenMoisture, kind: str, allowed: float | None, predry_loss_percent: float) -> list[Note]:
    method = METHODS["dry_barley" if predry_loss_percent else kind]
    notes = []
    if allowed is None:
        notes.append(Note("remark", "One dish cannot show a slip. Dry two dishes of the same sample."))
    elif found.difference > allowed + _ROUNDING:
        notes.append(
            Note(
                "notice",
                f"The dishes differ by {fixed(found.difference, 2)} points. This method "
                f"({method.how}) supports {fixed(allowed, 2)} between {len(found.dishes)} dishes. "
                f"Do the test again. The limit: {method.rests_on}.",
            )
        )
    else:
        notes.append(
            Note(
                "remark",
                f"The dishes agree: {fixed(found.difference, 2)} points apart, where this method "
                f"({method.how}) supports {fixed(allowed, 2)}. The limit: {method.rests_on}.",
            )
        )
    if kind == "dry_barley" and not predry_loss_percent and found.moisture > PREDRY_ABOVE + _ROUNDING:
        notes.append(
            Note(
                "notice",
                f"Above {plain_number(PREDRY_ABOVE)} % barley loses water in the mill. Dry it whole "
                "first, weigh the loss, then grind and dry the rest.",
            )
        )
    if kind != "dry_barley" and not predry_loss_percent:
        notes.append(
            Note(
                "remark",
                "Blot steeped corn or say how long it drained: the film on the corns counts as "
                "water here. Dishes of 100 g scatter less than small ones.",
            )
        )
    return notes


_MOISTURE = within.moisture("dishes")

SHEET = Sheet(
    id="oven-moisture",
    title="Oven moisture",
    purpose="Moisture of dry barley, steeped corn or green malt from dishes weighed before and after.",
    questions=(dishes, material, predry_loss_percent),
    answers=(
        Answer(
            "moisture",
            "Moisture",
            "%",
            1,
            lead=True,
            rests_on="what the oven drives off is water",
            trust="To about the difference that the method supports between two dishes of one sample; "
            "how fairly the sample was taken adds to that.",
            next="Use it for [[sheet:moisture-target|target weight]] and the [[sheet:sample-basket|steep basket]].",
            gives="barley_moisture",
            within=_MOISTURE,
        ),
        Answer(
            "moisture_db",
            "On the dry matter",
            "%",
            1,
            rests_on="the same water, as a share of what stayed",
            within=within.between(0.0, 400.0, "That would be nearly all water.", "dishes"),
        ),
        Answer(
            "difference",
            "Difference between dishes",
            "points",
            2,
            rests_on="greatest less smallest",
            trust="The figure each method supports stands in the note above, with its source.",
            within=within.points("dishes"),
        ),
    ),
    listings=(
        Listing(
            "each",
            "Each dish",
            (
                Heading("dish", "Dish", within=within.count(DISHES.high)),
                Heading("moisture", "Moisture", "%", 2, within=_MOISTURE),
            ),
        ),
    ),
    work=work,
    sources=("eu-1272-2009", "iso-712", "mebak-barley-moisture", "asae-s352", "iso-5725-6"),
    story="Barley of the example maltings at intake: invented numbers.",
)
