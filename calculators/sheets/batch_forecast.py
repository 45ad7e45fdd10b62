"""The rest of a batch from what is known of it so far: some hundreds of possible batches, and what its readings say."""

from __future__ import annotations

from datetime import datetime
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from ..asking.declare import AskAgain, Belongs, Found, Note, Outcome, Sheet
from ..asking.figures import fixed, limits_said, plain_number, said_span
from ..models.bed.floor import mean_c
from ..models.bounds import OutOfRange
from ..models.living.breathing import GRAIN_C, GRAIN_REASON
from ..models.living.chitting import Corns
from ..models.living.lot_plan_state import BedSpell, Lot, Plan
from ..models.living.pace import SHOWS_MOISTURE
from ..models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from ..models.steep.course import Stage
from ..models.steep.first_uptake import first_uptake
from ..rules.forecast import COUNTED, Ends, ends_of, hours_in, of_plan, stops_of
from ..words import forecast as words
from ..words import forecast_figures as figures
from ..words.forecast_answers import ANSWERS, LISTINGS
from ..words.forecast_charts import charts_of
from ..words.forecast_figures import Seen
from ..words.questions import forecast as asked
from ..words.questions.life import rest_air_c, suction_m3_h_t
from ..words.questions.shared import barley_moisture, moisture_offset, rate_factor, start, water_temp_c

if TYPE_CHECKING:
    from ..models.living.ensemble import Ensemble

Readings = tuple[Reading, ...]
Given = tuple[tuple[Any, ...], ...] | None


@lru_cache(maxsize=4)
def _forecast(plan: Plan, lot: Lot, readings: Readings) -> Ensemble:
    """The batch with its readings taken in; kept, so that a question beside it does not draw it again."""
    from ..models.living.ensemble import ensemble  # imports numpy

    return ensemble(plan=plan, lot=lot).corrected(readings)


def work(
    *,
    barley_moisture: float,
    water_temp_c: float,
    stages: tuple[tuple[float, float | None], ...],
    vessel: str,
    bed: Given,
    now_h: float | None,
    baskets: Given,
    probes: Given,
    chits: Given,
    ovens: Given,
    bottoms: Given,
    acrospires: Given,
    start: datetime | None,
    grown_percent: float | None,
    water_sensitivity: float | None,
    corn_weight_g: float,
    suction_m3_h_t: float,
    rest_air_c: float | None,
    rest_air_rh: float,
    bed_air_c: float,
    bed_air_rh: float,
    depth_cm: float,
    turned_every_h: float,
    moved: str,
    rate_factor: float,
    moisture_offset: float,
) -> Outcome:
    """Send the possible batches through the plan, take the readings in, and read the rest of the batch off them."""
    plan = Plan(
        tuple(Stage(hours, water_temp_c if temp is None or n % 2 else temp) for n, (hours, temp) in enumerate(stages)),
        tuple(BedSpell(hours, temp, bed_air_c, bed_air_rh, wet or 0.0) for hours, temp, wet in bed or ()),
        suction_m3_h_t,
        rest_air_c,
        rest_air_rh,
        moved == "wet",
    )
    lot = _lot(barley_moisture, grown_percent, water_sensitivity, corn_weight_g, rate_factor, moisture_offset)
    tables = _readings(barley_moisture, baskets, ovens, probes, chits, bottoms, acrospires, bed_air_c)
    read = tuple(one for rows in tables.values() for one in rows)
    ends = ends_of(plan)
    now = _now(now_h, read, ends)
    one = _taken(plan, lot, read, tables)
    _must_live(one, ends, bool(plan.bed))
    places = words.place_notes(vessel, now < ends.cast, bool(bed))
    if one.taken.misfit > _beyond_use():
        return _nothing(one, [*words.stops_first(of_plan(plan), ()), *places])
    seen = Seen(one, plan, ends, now, vessel, turned_every_h, depth_cm / 100.0, start)
    unknown = figures.unknown(seen)
    depth_m = depth_cm / 100.0
    stops = stops_of(one, plan, now, vessel, turned_every_h=turned_every_h, depth_m=depth_m)
    notes = words.stops_first(of_plan(plan), stops)
    steps = figures.steps(seen)
    notes += words.misfit_note(one.taken, _misfit_high())
    notes += words.unknown_note(unknown, bool(read))
    curves = figures.curves(seen)
    return Outcome(
        tuple(figures.found(seen, unknown, steps)),
        (words.reading_rows(steps, start), figures.when_rows(seen), figures.hour_rows(seen, curves)),
        (*notes, *places, *_remarks(seen, stages)),
        charts_of(plan, curves, _dots(read), vessel),
    )


def _lot(own: float, grown: float | None, sensitive: float | None, corn_g: float, rate: float, offset: float) -> Lot:
    corns = Corns()
    if grown is not None:
        corns = corns._replace(grows=grown / 100.0)
    if sensitive is not None:
        if sensitive > 100.0 * corns.grows:
            raise AskAgain(
                "water_sensitivity",
                f"more corns are sensitive to water than grow at all, {fixed(100.0 * corns.grows, 0)} %. Type the "
                "energy in 4 ml less the energy in 8 ml.",
            )
        corns = corns._replace(sensitive=sensitive / 100.0)
    return Lot(
        barley_moisture=own,
        rate_factor=rate,
        first_uptake_db=first_uptake(barley_moisture=own, moisture_offset=offset),
        corns=corns,
        corn_weight_g=corn_g,
    )


def _readings(
    own: float,
    baskets: Given,
    ovens: Given,
    probes: Given,
    chits: Given,
    bottoms: Given,
    acrospires: Given,
    room_c: float,
) -> dict[str, list[Reading]]:
    """The readings by the table that they stand in, row by row."""
    for name, rows in (("baskets", baskets), ("ovens", ovens)):
        for row, (_, moisture) in enumerate(rows or (), 1):
            if moisture < own:
                raise AskAgain(
                    name,
                    f"row {row}: {plain_number(moisture)} % is drier than the barley was filled in, "
                    f"{plain_number(own)} %. Grain takes water up: weigh again, or put the barley’s moisture right.",
                    row,
                )
    most = 0.0
    for row, (_, chitted, corns) in sorted(enumerate(chits or (), 1), key=lambda one: one[1][0]):
        of = corns or float(COUNTED)
        if chitted > of:
            raise AskAgain(
                "chits",
                f"row {row}: {plain_number(chitted)} chitted of {plain_number(of)}. Type how many were counted.",
                row,
            )
        if chitted / of < most - 0.4:
            raise AskAgain(
                "chits", f"row {row}: far fewer than counted before. A chit does not go back: put one right.", row
            )
        most = max(most, chitted / of)
    for row, (_, *counts) in enumerate(acrospires or (), 1):
        if sum(counts) < 1:
            raise AskAgain("acrospires", f"row {row}: no corn was counted. Type at least one.", row)
    return {
        "baskets": [Basket(hour, moisture) for hour, moisture in baskets or ()],
        "ovens": [Oven(hour, moisture) for hour, moisture in ovens or ()],
        "probes": [Probe(hour, temp) for hour, temp in probes or ()],
        "chits": [Chits(hour, int(some), int(of or COUNTED)) for hour, some, of in chits or ()],
        "bottoms": [
            BottomTop(hour, low, top, since, depth / 100.0, room_c) for hour, low, top, since, depth in bottoms or ()
        ],
        "acrospires": [
            AcrospireCount(hour, (int(a), int(b), int(c), int(d), int(e))) for hour, a, b, c, d, e in acrospires or ()
        ],
    }


def _now(now_h: float | None, read: Readings, ends: Ends) -> float:
    latest = max((one.hour for one in read), default=0.0)
    if now_h is None:
        return min(latest, ends.last)
    if now_h < latest:
        raise AskAgain(
            "now_h", f"a reading stands at {plain_number(latest)} h, after it. Type that hour or a later one."
        )
    if now_h > ends.last:
        raise AskAgain(
            "now_h",
            f"the plan ends at {limits_said(0.0, ends.last)[1]} h. Type an hour up to that, or add what is "
            "still to come.",
        )
    return now_h


def _taken(plan: Plan, lot: Lot, read: Readings, tables: dict[str, list[Reading]]) -> Ensemble:
    """The forecast; a reading that cannot be of this plan is asked back where it was typed."""
    try:
        return _forecast(plan, lot, read)
    except OutOfRange as limit:
        if limit.table != "readings" or limit.row is None:
            raise
        row = limit.row
        for name, rows in tables.items():
            if row < len(rows):
                between = said_span(limit.low, limit.high)
                why = (
                    f"the hour must be {between} h of this plan"
                    if limit.parameter == "hour"
                    else f"{limit.parameter.replace('_', ' ')} must be {between}"
                )
                raise AskAgain(name, f"row {row + 1}: {why}. Change it, or the stages and days.", row + 1) from None
            row -= len(rows)
        raise


def _must_live(one: Ensemble, ends: Ends, grows: bool) -> None:
    """Ask back for a batch that no grain could be: too dry to grow, or dead of heat."""
    from ..models.living.outlook import furthest

    rests = [hour for begins, end in ends.rests for hour in hours_in(one.hours(), begins, end)]
    if rests and furthest(one, "warmth", rests).middle > GRAIN_C.high - 0.5:
        raise AskAgain(
            "stages",
            f"in these rests the grain would get as warm as {plain_number(GRAIN_C.high)} °C. {GRAIN_REASON} Shorten "
            "the rests, or draw more air.",
        )
    at_cast = one.moisture([ends.cast]).middle[0]
    if grows and at_cast < SHOWS_MOISTURE:
        raise AskAgain(
            "stages",
            f"the grain is cast at about {fixed(at_cast, 0)} %, and under {plain_number(SHOWS_MOISTURE)} % it does not "
            "grow. Add immersions, or leave the days in the bed blank.",
        )


def _misfit_high() -> float:
    from ..models.living.ensemble import MISFIT_HIGH

    return MISFIT_HIGH


def _beyond_use() -> float:
    """Misfit over which no widening helps: bands are widened threefold at most."""
    return 9.0 * _misfit_high()


def _nothing(one: Ensemble, notes: list[Note]) -> Outcome:
    """What is answered where readings are so far off that no band means anything."""
    far = words.misfit_note(one.taken, _misfit_high())
    none = Note("notice", "So far from each other no band means anything: no figure is given.")
    says = Found("says", "nothing", "the readings contradict the model or each other")
    return Outcome((says, figures.members(one)), (), (*notes, *far, none))


def _dots(read: Readings) -> dict[str, list[tuple[float, float]]]:
    """The readings as they stand in the pictures."""
    dots: dict[str, list[tuple[float, float]]] = {"moisture": [], "warmth": [], "chitted": [], "ready": []}
    for one in read:
        if isinstance(one, Basket | Oven):
            dots["moisture"].append((one.hour, one.moisture))
        elif isinstance(one, Probe):
            dots["warmth"].append((one.hour, one.temp_c))
        elif isinstance(one, BottomTop):
            dots["warmth"].append((one.hour, mean_c(bottom_c=one.bottom_c, top_c=one.top_c)))
        elif isinstance(one, Chits):
            dots["chitted"].append((one.hour, 100.0 * one.chitted / one.corns))
        else:
            dots["ready"].append((one.hour, 100.0 * sum(one.counts[-2:]) / sum(one.counts)))
    return dots


def _remarks(seen: Seen, stages: tuple[tuple[float, float | None], ...]) -> list[Note]:
    notes = [words.members_note(seen.one.members, seen.one.taken)]
    if any(temp is not None for _, temp in stages[1::2]):
        notes.append(
            Note(
                "remark",
                "The temperature of a rest follows from the water, the breathing and the suction: what stands beside a "
                "rest is not used. What you read in a rest belongs under the thermometer.",
            )
        )
    if seen.plan.bed:
        notes.append(
            Note(
                "remark",
                "The bed is taken to be kept at the temperatures typed, to within a degree or so. What holds it there, "
                "turning or air, is worked out by [[sheet:floor-round]] and [[sheet:bed-heat]].",
            )
        )
    return notes


SHEET = Sheet(
    id="batch-forecast",
    title="Batch forecast",
    purpose="The rest of a batch by the hour, from what was read so far, and which reading to take next.",
    questions=(
        barley_moisture._replace(example="12.5"),
        water_temp_c,
        asked.stages,
        asked.vessel,
        asked.bed,
        asked.now_h,
        asked.baskets,
        asked.probes,
        asked.chits,
        asked.ovens,
        asked.bottoms,
        asked.acrospires,
        start,
        asked.grown_percent,
        asked.water_sensitivity,
        asked.corn_weight_g,
        suction_m3_h_t,
        rest_air_c,
        asked.rest_air_rh,
        asked.bed_air_c,
        asked.bed_air_rh,
        asked.depth_cm,
        asked.turned_every_h,
        asked.moved,
        rate_factor,
        moisture_offset,
    ),
    answers=ANSWERS,
    listings=LISTINGS,
    work=work,
    belongs=(Belongs("hour", ("bed", "stages"), "the hour looked at", "h"),),
    needs=("numpy", "psychrolib"),
    sources=(
        "del-moral-2006",
        "zhou-hybrid-mcmc",
        "kitagawa-1996",
        "strong-2015",
        "jackson-2019",
        "haley-1987",
        "onofri-2018",
    ),
    story="A batch of the example maltings at its second drain: two baskets and one thermometer. Invented numbers.",
)
