"""The pressure that a box's fan meets in the bed, and what a change of it tells."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Found, Heading, Listing, Note, Option, Outcome, Rows, Sheet
from ..asking.figures import carried, few_digits, fixed, limits_said, plain_number
from ..models.bed import pressure as bed
from ..models.bounds import Bounds
from ..rules.limits import box_germination as edges
from ..rules.lines import passed, worst
from ..words import within
from ..words.cautions import BOX, NO_ENTRY, PROCESS_AIR
from ..words.limits import limit_notes
from ..words.questions.shared import barley_kg, bulk_density, number

_SWELLING = Bounds(0.9, 3.5)
_STEPS = (0.25, 0.5, 0.75, 1.0, 1.25)

floor_m2 = number(
    "floor_m2", "Floor of the box", "m2", Bounds(0.5, 2000.0), "The perforated floor that the bed lies on.",
    example="14",
)  # fmt: skip
depth_m = number("depth_m", "Depth of the bed now", "m", bed.DEPTH_M, "Levelled, in five places.", example="1")
airflow_m3_h = number(
    "airflow_m3_h",
    "Air through the bed",
    "m3/h",
    Bounds(1.0, 1_000_000.0),
    "As set, or as the sheet on air for the bed asks.",
    example="3800",
)
other_pa = number(
    "other_pa",
    "Floor, sprays and ducts with no grain",
    "Pa",
    Bounds(0.0, 5000.0),
    "Read once at this flow with the box empty. Blank: the bed alone.",
    default="0",
)
measured_pa = number(
    "measured_pa", "Pressure under the floor now", "Pa", Bounds(1.0, 10_000.0), "At the gauge by the panel.",
    example="150",
)._replace(optional=True, in_view=True)  # fmt: skip
turned_pa = number(
    "turned_pa",
    "The same after the last turning",
    "Pa",
    Bounds(1.0, 10_000.0),
    "At the same flow, a quarter of an hour after it.",
    example="110",
)._replace(optional=True, in_view=True)


def work(
    *,
    barley_kg: float,
    floor_m2: float,
    depth_m: float,
    airflow_m3_h: float,
    bulk_density: float,
    other_pa: float,
    measured_pa: float | None,
    turned_pa: float | None,
) -> Outcome:
    """Put the standard's curve and Ergun's equation side by side, and hold the gauge against the last turning."""
    speed = airflow_m3_h / floor_m2 / 3600.0
    if not bed.AIR_M_S.low <= speed <= bed.AIR_M_S.high:
        least, most = limits_said(*(edge * floor_m2 * 3600.0 for edge in bed.AIR_M_S))
        raise AskAgain(
            "airflow_m3_h",
            f"that is {few_digits(speed)} m/s over this floor. The curves run from {plain_number(bed.AIR_M_S.low)} to "
            f"{plain_number(bed.AIR_M_S.high)} m/s: type from {least} to {most} m³/h.",
        )
    dry_m = barley_kg / bulk_density / floor_m2
    swelling = depth_m / dry_m
    if not _SWELLING.low <= swelling <= _SWELLING.high:
        shallow, deep = max(bed.DEPTH_M.low, _SWELLING.low * dry_m), min(bed.DEPTH_M.high, _SWELLING.high * dry_m)
        if shallow >= deep:
            raise AskAgain(
                "barley_kg",
                f"on this floor it would lie {few_digits(dry_m)} m deep when dry. Look at kilograms and floor.",
            )
        least, most = limits_said(shallow, deep)
        raise AskAgain(
            "depth_m",
            f"such a bed would have {few_digits(swelling)} times the room of the dry barley. Type from {least} to "
            f"{most} m, or look at the floor and the kilograms.",
        )
    curve = bed.curve_pa_m(air_m_s=speed)
    loose, packed = (bed.ergun_pa_m(air_m_s=speed, porosity=part) for part in (bed.OPEN.high, bed.OPEN.low))
    loading = barley_kg / floor_m2
    rise = None if measured_pa is None or turned_pa is None else _ratio(measured_pa, turned_pa, other_pa)
    lines = worst(
        [
            passed(edges.PRESSURE, rise),
            passed(edges.DEPTH, depth_m),
            passed(edges.LOADING, loading),
        ]
    )
    found = [
        Found(
            "bed_pa",
            curve * depth_m,
            f"{carried(curve)} Pa/m × {plain_number(depth_m)} m = {fixed(curve * depth_m, 0)} Pa",
            bed.WET_SHARE * curve * depth_m,
            bed.PACKED_SHARE * curve * depth_m,
        ),
        Found(
            "air_m_s",
            speed,
            f"{plain_number(airflow_m3_h)} m³/h / {plain_number(floor_m2)} m² / 3600 = {fixed(speed, 3)} m/s",
        ),
        Found(
            "pa_m",
            curve,
            f"{plain_number(bed.CURVE_A)} × {carried(speed)}² / ln (1 + {plain_number(bed.CURVE_B)} × "
            f"{carried(speed)}) "
            f"= {fixed(curve, 0)} Pa/m",
        ),
        Found(
            "ergun_pa",
            0.5 * (loose + packed) * depth_m,
            f"({carried(loose)} Pa/m + {carried(packed)} Pa/m) / 2 × {plain_number(depth_m)} m = "
            f"{fixed(0.5 * (loose + packed) * depth_m, 0)} Pa",
            loose * depth_m,
            packed * depth_m,
        ),
        Found(
            "loading_kg_m2",
            loading,
            f"{plain_number(barley_kg)} kg / {plain_number(floor_m2)} m² = {fixed(loading, 0)} kg/m²",
        ),
        Found(
            "swelling",
            swelling,
            f"{plain_number(depth_m)} m × {plain_number(floor_m2)} m² × {plain_number(bulk_density)} kg/m³ / "
            f"{plain_number(barley_kg)} kg = {fixed(swelling, 2)}",
        ),
    ]
    if rise is not None and measured_pa is not None and turned_pa is not None:
        changed = any(line.limit is edges.PRESSURE for line in lines)
        word = ("matted" if rise > 1.0 else "channel") if changed else "even"
        now, then = (plain_number(value) for value in (measured_pa, turned_pa))
        if other_pa:
            now, then = (f"({value} − {plain_number(other_pa)})" for value in (now, then))
        found.insert(0, Found("verdict", word))
        found.append(
            Found(
                "pressure_times",
                rise,
                f"{now} / {then} = {fixed(rise, 2)}",
            )
        )
    rows = [(part, at, bed.curve_pa_m(air_m_s=at) * depth_m) for part in _STEPS if _runs(at := part * speed)]
    return Outcome(
        tuple(found),
        (Rows("flows", [(100.0 * part, at * floor_m2 * 3600.0, pa) for part, at, pa in rows]),),
        (BOX, NO_ENTRY, PROCESS_AIR, *limit_notes(lines), *_remarks(rise)),
    )


def _runs(speed: float) -> bool:
    return bed.AIR_M_S.low <= speed <= bed.AIR_M_S.high


def _ratio(now: float, turned: float, other: float) -> float:
    for name, value in (("measured_pa", now), ("turned_pa", turned)):
        if value <= other:
            raise AskAgain(
                name,
                f"{plain_number(value)} Pa is no more than the {plain_number(other)} Pa with no grain. Type more, or "
                "read "
                "the empty box again at this flow.",
            )
    return (now - other) / (turned - other)


def _remarks(rise: float | None) -> list[Note]:
    found = [
        Note(
            "remark",
            "No published figure for green malt with roots was found. The two ways differ by a factor of two and more: "
            "take the pressure a quarter of an hour after a turning as your own measure, at one flow, and watch how it "
            "changes.",
        )
    ]
    if rise is None:
        found.append(Note("remark", "Type the gauge now and after the last turning, to see what the change tells."))
    return found


_PA = within.between(0.0, 20_000.0, "No fan of any box blows against more.", "airflow_m3_h", "depth_m")

SHEET = Sheet(
    id="bed-pressure",
    title="Pressure of the bed",
    purpose="What pressure air meets in a box’s bed, and what a change since the last turning tells.",
    questions=(
        barley_kg._replace(hint="Of the batch in the box, as it was weighed dry."),
        floor_m2,
        depth_m,
        airflow_m3_h,
        measured_pa,
        turned_pa,
        other_pa,
        bulk_density._replace(default="618", example=""),
    ),
    answers=(
        Answer(
            "verdict",
            "What the change tells",
            kind="verdict",
            lead=True,
            words=(
                Option("even", "As after the turning: the bed lies open."),
                Option("matted", "Tighter: roots grow together, or the bed has settled. Turn it, with its air on."),
                Option("channel", "Easier: air finds a channel or a bare place. Look from the walkway, then turn."),
            ),
            rests_on="the gauge now over the gauge after the last turning, at one flow",
            trust="Only where the flow is the same. A slower fan shows less pressure too.",
            next="The job: [[page:procedures/box-germination|box germination]].",
        ),
        Answer(
            "bed_pa",
            "Pressure over the bed, dry and loose",
            "Pa",
            0,
            lead=True,
            rests_on="the agricultural standard’s curve for barley; lower end wet and loose, upper end packed",
            trust="The constants are from memory; the ends are those that the standard’s note names for moist and for "
            "packed grain. Roots are in none of it.",
            next="[[sheet:bed-heat]] asks for the fan’s pressure: type bed, floor, sprays and ducts together.",
            within=_PA,
        ),
        Answer(
            "pressure_times",
            "Pressure against that after the last turning",
            "times",
            2,
            lead=True,
            rests_on="both readings, less what the empty box takes",
            within=within.between(0.0, 100_000.0, "No gauge shows more.", "measured_pa"),
        ),
        Answer(
            "ergun_pa",
            "The same by Ergun’s equation",
            "Pa",
            0,
            rests_on=f"balls of {plain_number(bed.LIKE_A_BALL_MM)} mm, with {plain_number(100 * bed.OPEN.low)} to "
            f"{plain_number(100 * bed.OPEN.high)} % of the bed open",
            trust="A bed of balls is no bed of husked corns. It shows how far two published ways may part.",
            within=_PA,
        ),
        Answer(
            "air_m_s",
            "Air over the floor",
            "m/s",
            3,
            rests_on="air over floor",
            trust="One text has 3.7 m a minute, 0.06 m/s, through beds of about a metre (in a copy).",
            within=within.between(bed.AIR_M_S.low, bed.AIR_M_S.high, "The curves run no farther.", "airflow_m3_h"),
        ),
        Answer("pa_m", "For each metre of depth", "Pa/m", 0, rests_on="the standard’s curve", within=_PA),
        Answer(
            "loading_kg_m2",
            "Barley on each square metre",
            "kg/m2",
            0,
            rests_on="barley over floor",
            trust="Published for design: 550 to 600.",
            within=within.between(0.0, 10_000.0, "No floor bears it.", "barley_kg", "floor_m2"),
        ),
        Answer(
            "swelling",
            "Room of the bed against the dry barley",
            "",
            2,
            rests_on="depth times floor, over the room of the dry barley",
            trust="1.3 to 1.45 after the steep, about 2 with roots (from memory).",
            within=within.between(0.5, 4.0, "No bed swells so.", "depth_m"),
        ),
    ),
    listings=(
        Listing(
            "flows",
            "At other flows",
            (
                Heading("share", "Of this flow", "%", within=within.between(0.0, 200.0, "That is all.")),
                Heading("air", "Air", "m3/h", within=within.between(0.0, 1.5e6, "No fan blows more.", "airflow_m3_h")),
                Heading("pa", "Over the bed", "Pa", within=_PA),
            ),
        ),
    ),
    work=work,
    guarded=True,
    sources=("asae-d272", "ergun-1952", "molenda-ergun", "barley-corns-2009", "cereals-processing", "oxford-box"),
    story="A box of another house, invented: 6 tonnes on 14 square metres.",
)
