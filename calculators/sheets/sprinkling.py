"""Water to put back on a bed that has dried."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Belongs, Either, Found, Note, Outcome, Refusal, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models import bounds as limits
from ..models.weights import sprinkling
from ..models.weights.basket import FILM_DB, FILM_DB_LIMITS
from ..models.weights.moisture import weight_after
from ..rules.limits import floor_germination as edges
from ..rules.lines import passed
from ..words import within
from ..words.floor import NO_WATER_LATE
from ..words.limits import at_edge, limit_notes, span
from ..words.lost import lost_by
from ..words.questions.grown import bed_temp_c, grown_days
from ..words.questions.shared import barley_kg, barley_moisture, number

bed_kg = number("bed_kg", "Bed as it lies", "kg", limits.WEIGHT_KG, "Wet weight now, if you know it.", example="9000")
moisture_now = number(
    "moisture_now", "Moisture now", "%", limits.BED_MOISTURE, "Of a sample, read the quick way.", example="43"
)
moisture_wanted = number(
    "moisture_wanted",
    "Moisture wanted",
    "%",
    limits.Bounds(limits.BED_MOISTURE.low, edges.MOISTURE.stop_high or limits.BED_MOISTURE.high),
    f"{span(edges.MOISTURE)} by practice.",
    example="44.5",
    reason=f"Over {at_edge(edges.MOISTURE, 'stop_high')} is a stop: it heats and grows unevenly.",
)
water_kept = number(
    "water_kept",
    "Water the grain keeps",
    "%",
    sprinkling.WATER_KEPT,
    "100 when nothing runs off. Weigh a sample an hour later to learn your own.",
    default="100",
)
dry_matter_lost_so_far = number(
    "dry_matter_lost_so_far",
    "Dry matter lost so far",
    "%",
    limits.DRY_MATTER_LOST_MALTING,
    "Leached and breathed away, if you know it. Counts only with the barley weight.",
)
rounds = number(
    "rounds",
    "Rounds of sprinkling and turning",
    "",
    limits.Bounds(*sprinkling.ROUNDS),
    "Blank: as many as keep each round to what clings.",
)._replace(optional=True, whole=True)


def work(
    *,
    bed_kg: float | None,
    barley_kg: float | None,
    barley_moisture: float | None,
    moisture_now: float,
    moisture_wanted: float,
    water_kept: float,
    dry_matter_lost_so_far: float | None,
    grown_days: float | None,
    bed_temp_c: float | None,
    rounds: float | None,
) -> Outcome | Refusal:
    """Balance the water of the bed and share it out; none where it is as wet as the stop."""
    wettest = edges.MOISTURE.stop_high or limits.BED_MOISTURE.high
    if moisture_now >= wettest:
        return Refusal(
            f"No water: the bed holds {plain_number(moisture_now)} %, and {plain_number(wettest)} % is the most that "
            f"may be wanted. {edges.MOISTURE.act} Tell {edges.MOISTURE.tell}."
        )
    if moisture_wanted <= moisture_now:
        raise AskAgain(
            "moisture_wanted",
            f"{plain_number(moisture_wanted)} % is not above the bed’s own {plain_number(moisture_now)} %: "
            f"there is nothing to sprinkle. Type a number over {plain_number(moisture_now)}, up to "
            f"{plain_number(wettest)} %.",
        )
    lost, how_lost = dry_matter_lost_so_far or 0.0, ""
    if grown_days is not None and bed_temp_c is not None:
        by_law = lost_by(days=grown_days, temp_c=bed_temp_c)
        lost, how_lost = by_law.percent, f"lost: {by_law.working}; "
    bed, how = _bed(bed_kg, barley_kg, barley_moisture, moisture_now, lost, how_lost)
    water = sprinkling.water_needed(
        bed_kg=bed, moisture_now=moisture_now, moisture_wanted=moisture_wanted, water_kept=water_kept
    )
    kept = water * water_kept / 100.0
    clings = sprinkling.clings_l(bed_kg=bed, moisture_now=moisture_now)
    count = int(rounds) if rounds else sprinkling.rounds_needed(water_l=water, one_round_l=clings)
    found = (
        Found(
            "water_l",
            water,
            f"{how}{carried(bed)} kg × ({plain_number(moisture_wanted)} − {plain_number(moisture_now)}) / "
            f"(100 − {plain_number(moisture_wanted)}) = {carried(kept)} L kept; × 100 / "
            f"{plain_number(water_kept)} = {fixed(water, 0)} L",
        ),
        Found("rounds", float(count), _rounds_working(rounds, water, clings), worked="given" if rounds else "rule"),
        Found("water_per_round_l", water / count, f"{carried(water)} L / {count} = {fixed(water / count, 0)} L"),
        Found(
            "water_l_t",
            water / bed * 1000.0,
            f"{carried(water)} L / {carried(bed / 1000)} t = {fixed(water / bed * 1000.0, 0)} L",
        ),
        Found("runs_off_l", water - kept, f"{carried(water)} − {carried(kept)} = {fixed(water - kept, 0)} L"),
        Found("bed_after_kg", bed + kept, f"{carried(bed)} + {carried(kept)} = {fixed(bed + kept, 0)} kg"),
    )
    most = sprinkling.clings_l(bed_kg=bed, moisture_now=moisture_now, film_db=FILM_DB_LIMITS.high)
    return Outcome(found, notes=_notes(water / count, most, moisture_now, moisture_wanted))


def _bed(
    bed_kg: float | None,
    barley_kg: float | None,
    barley_moisture: float | None,
    moisture_now: float,
    lost: float,
    how_lost: str,
) -> tuple[float, str]:
    if bed_kg is not None:
        return bed_kg, ""
    assert barley_kg is not None and barley_moisture is not None
    dry, bed = (
        weight_after(weight_kg=barley_kg, moisture=barley_moisture, new_moisture=new, dry_matter_lost=lost)
        for new in (0.0, moisture_now)
    )
    text = f"{how_lost}dry matter: {plain_number(barley_kg)} kg × (100 − {plain_number(barley_moisture)})/100"
    if lost:
        text += f" × (1 − {carried(lost)}/100)"
    return bed, (
        f"{text} = {carried(dry)} kg; the bed: {carried(dry)} × 100 / (100 − {plain_number(moisture_now)}) = "
        f"{carried(bed)} kg; "
    )


def _rounds_working(given: float | None, water: float, clings: float) -> str:
    if given:
        return "as you typed"
    return (
        f"{fixed(water, 0)} L, in goes of at most {fixed(clings, 0)} L, which is {FILM_DB} kg of film on each "
        "kilogram of dry matter"
    )


def _notes(per_round: float, most: float, now: float, wanted: float) -> tuple[Note, ...]:
    dry = passed(edges.MOISTURE, now)
    notes = [
        *limit_notes([dry] if dry and dry.mark == "stop" else []),
        Note(
            "caution",
            "Wet floors throw people, most of all beside a piece that has just been watered. Sweep the gangway "
            "dry, and keep hoses out of it.",
        ),
    ]
    notes.append(
        Note(
            "warning",
            "Water that stood at 20 to 45 °C breeds Legionella, and spray carries it into the lungs: it could "
            "kill. Use fresh cold water, flush the hose first with its end in the drain, and drip rather than mist.",
        )
    )
    if per_round > most:
        notes.append(
            Note(
                "notice",
                f"{fixed(per_round, 0)} L in one round is more than can cling ({fixed(most, 0)} L at most). It "
                "runs through, stands at the floor and sours the bottom. Take more rounds.",
            )
        )
    if wanted - now > sprinkling.SENSIBLE_POINTS:
        notes.append(
            Note(
                "notice",
                f"{fixed(wanted - now, 1)} points are past a sensible dose; "
                f"{plain_number(sprinkling.SENSIBLE_POINTS)} is a great deal. Check the sample first. If it is "
                "right, the steep was short: [[page:procedures/steeping|steeping]].",
            )
        )
    notes += [note._replace(level="notice") for note in limit_notes([passed(edges.MOISTURE, wanted)])]
    notes.append(Note("remark", NO_WATER_LATE))
    notes.append(
        Note(
            "remark",
            "Sprinkle evenly, turn, wait an hour, sample, then the next round.",
        )
    )
    return tuple(notes)


_BALANCE = "conservation of dry matter; exact arithmetic"
_ROUNDS = within.between(
    sprinkling.ROUNDS.low,
    sprinkling.ROUNDS.high,
    "A bed is not turned more often for one watering.",
    "moisture_wanted",
    instead="Take a lower moisture, or find out why so much runs off.",
)

SHEET = Sheet(
    id="sprinkling",
    title="Sprinkling",
    purpose="How much water brings the bed back to its moisture.",
    questions=(
        moisture_now,
        moisture_wanted,
        bed_kg,
        barley_kg._replace(hint="Of the batch, as it was weighed dry.", example=""),
        barley_moisture._replace(hint="Of that barley, before the steep.", example=""),
        water_kept._replace(example="90"),
        rounds,
        dry_matter_lost_so_far,
        grown_days._replace(hint="Since the cast: the one law tells the loss. Counts only with the barley weight."),
        bed_temp_c,
    ),
    either=(
        Either((("bed_kg",), ("barley_kg", "barley_moisture"))),
        Either((("dry_matter_lost_so_far",), ("grown_days", "bed_temp_c")), required=False),
    ),
    answers=(
        Answer(
            "water_l",
            "Water to sprinkle",
            "L",
            0,
            lead=True,
            rests_on=_BALANCE,
            trust="Half a point wrong in either moisture moves it by 9 L for each tonne of bed.",
            next="Measure it in, by meter or by the can. In a drum or a box through its own sprays, from the panel: "
            "[[page:procedures/drum-germination#water|drum]], [[page:procedures/box-germination#water|box]].",
            within=within.litres("bed_kg", "barley_kg"),
        ),
        Answer(
            "rounds",
            "In how many rounds",
            "",
            0,
            lead=True,
            rests_on=f"what can cling to drained corns at one time: {plain_number(FILM_DB)} kg a kilogram of dry "
            "matter, tuned to practice",
            trust="0 to 0.12 is possible. If water stands at the floor, take more rounds.",
            within=_ROUNDS,
        ),
        Answer(
            "water_per_round_l",
            "Water each round",
            "L",
            0,
            lead=True,
            rests_on=_BALANCE,
            within=within.litres("bed_kg", "barley_kg"),
        ),
        Answer(
            "water_l_t",
            "For each tonne of bed",
            "L",
            0,
            rests_on=_BALANCE,
            within=within.between(
                0.0,
                1000.0,
                "That is as much water as grain.",
                "water_kept",
                "moisture_wanted",
                instead="Where so much runs off, find out why before you sprinkle.",
            ),
        ),
        Answer(
            "runs_off_l",
            "Of it runs off or dries",
            "L",
            0,
            rests_on="the share kept, as you typed",
            within=within.litres("water_kept"),
        ),
        Answer(
            "bed_after_kg",
            "Bed afterwards",
            "kg",
            0,
            rests_on=_BALANCE,
            within=within.kilograms("bed_kg", "barley_kg", most=2.0 * limits.WEIGHT_KG.high),
        ),
    ),
    work=work,
    belongs=(Belongs("weight_kg", ("barley_kg", "bed_kg"), "the bed with its water", "kg"),),
    sources=("coppinger-1815", "black-treatise", "evans-2024", "cnam-germination"),
    story="Piece of batch example-02 on the floor of the example maltings: invented numbers.",
)
