"""How hard a two-handed lift is, and what would make it less so."""

from __future__ import annotations

from typing import Any

from ..asking.declare import Answer, Choice, Found, Heading, Listing, Note, Number, Option, Outcome, Rows, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models.lifting import equation as model
from ..models.lifting import guideline_filter as lift_filter
from ..words import within
from ..words.handling import LIFTING_TASKS, person, who
from ..words.questions.shared import number

load_kg = number(
    "load_kg", "Load", "kg", model.LOAD_KG, "The heaviest you lift, with its box or bag, weighed.", example="12"
)
hands_forward_cm = number(
    "hands_forward_cm",
    "Hands in front",
    "cm",
    model.HANDS_FORWARD_CM,
    "From midway between the ankles to midway between the hands, where it is furthest.",
    example="35",
)
lift_from_cm = number(
    "lift_from_cm", "Hands at the start", "cm", model.HEIGHT_CM, "Knuckles above the floor.", example="20"
)
lift_to_cm = number("lift_to_cm", "Hands at the end", "cm", model.HEIGHT_CM, "Knuckles above the floor.", example="100")
twist_degrees = number(
    "twist_degrees",
    "Twist",
    "degrees",
    model.TWIST_DEGREES,
    "How far to the side the load is, feet still. Straight ahead is 0, over one foot about 45.",
    example="30",
)
lifts_a_minute = number(
    "lifts_a_minute",
    "Lifts a minute",
    "per min",
    model.LIFTS_A_MINUTE,
    "Mean over 15 minutes. One in five minutes is 0.2.",
    example="1",
)
hours = number(
    "hours",
    "Hours of lifting",
    "h",
    model.HOURS,
    "In all, unless light work as long as the lifting comes between.",
    example="1",
)
hands_forward_to_cm = Number(
    "hands_forward_to_cm",
    "Hands in front at the end",
    "cm",
    model.HANDS_FORWARD_CM.low,
    model.HANDS_FORWARD_CM.high,
    "If it differs from the start. Blank: the same.",
    optional=True,
)
grip = Choice(
    "grip",
    "Grip",
    (
        Option("good", "Good: handles or cut-outs, box no bigger than 40 × 30 cm"),
        Option("fair", "Fair: no handles, but fingers bent well under it"),
        Option("poor", "Poor: a sack, bulky, slippery, or no hold"),
    ),
    "In doubt, the poorer one.",
    example="fair",
)
set_down = Choice(
    "set_down",
    "How it is put down",
    (Option("placed", "Placed with care, or held"), Option("dropped", "Let go")),
    default="placed",
)
task = Choice(
    "task", "Kind of task", LIFTING_TASKS, "The sum is for the first one only.", default="plain", in_view=True
)


def work(
    *,
    task: str,  # noqa: ARG001
    load_kg: float,
    hands_forward_cm: float,
    lift_from_cm: float,
    lift_to_cm: float,
    twist_degrees: float,
    lifts_a_minute: float,
    hours: float,
    grip: str,
    person: str,  # noqa: ARG001
    hands_forward_to_cm: float | None,
    set_down: str,
    who: str,
) -> Outcome:
    """Work the equation at both ends and see which change helps most; ``task`` and ``person`` refuse by themselves."""
    lift: dict[str, Any] = {
        "hands_forward_cm": hands_forward_cm,
        "hands_forward_to_cm": hands_forward_to_cm,
        "lift_from_cm": lift_from_cm,
        "lift_to_cm": lift_to_cm,
        "twist_degrees": twist_degrees,
        "lifts_a_minute": lifts_a_minute,
        "hours": hours,
        "grip": grip,
    }
    ends = _ends(lift, set_down)
    rwl = min(ends.values())
    where = min(ends, key=lambda end: ends[end])
    found = [Found("rwl_kg", rwl, _working(lift, where))]
    if rwl > 0:
        index = load_kg / rwl
        found.append(Found("lifting_index", index, f"{plain_number(load_kg)} / {carried(rwl, 4)} = {fixed(index, 2)}"))
    changes = _changes(lift, set_down)
    best = max(changes, key=lambda one: one[2])
    helps = best[0] if best[2] > max(rwl, 1e-9) * 1.001 else "none"
    found.append(Found("helps_most", helps))
    filter_kg, said = _filter(lift, who)
    over = load_kg > filter_kg
    two = 2 * lift_filter.team_share(people=2)
    found += [
        Found("filter_kg", filter_kg, said),
        Found("filter_two_kg", filter_kg * two, f"{carried(filter_kg)} kg × 2 × 2/3 = {fixed(filter_kg * two, 1)} kg"),
        Found("filter_finding", "over" if over else "not-over"),
    ]
    listed: list[list[str | float | None]] = [
        [name, kg, load_kg / kg if kg > 0 else None]
        for _, name, kg in sorted(changes, key=lambda one: -one[2])
        if kg > rwl + 1e-9
    ]
    return Outcome(tuple(found), (Rows("changes", listed),) if listed else (), _notes(rwl, load_kg))


def _one_end(lift: dict[str, Any], at_end: bool) -> model.Multipliers:
    forward = lift["hands_forward_cm"]
    if at_end and lift["hands_forward_to_cm"] is not None:
        forward = lift["hands_forward_to_cm"]
    return model.multipliers(
        hands_forward_cm=forward,
        height_cm=lift["lift_to_cm"] if at_end else lift["lift_from_cm"],
        from_cm=lift["lift_from_cm"],
        travel_cm=abs(lift["lift_to_cm"] - lift["lift_from_cm"]),
        twist_degrees=lift["twist_degrees"],
        lifts_a_minute=lift["lifts_a_minute"],
        hours=lift["hours"],
        grip=lift["grip"],
    )


def _ends(lift: dict[str, Any], set_down: str) -> dict[str, float]:
    ends = {"start": model.recommended_weight_kg(_one_end(lift, False))}
    if set_down == "placed":
        ends["end"] = model.recommended_weight_kg(_one_end(lift, True))
    return ends


def _working(lift: dict[str, Any], where: str) -> str:
    one = _one_end(lift, where == "end")
    return (
        f"at the {where}: 23 kg × {carried(one.forward, 4)} in front × {carried(one.height, 4)} height × "
        f"{carried(one.travel, 4)} way × {carried(one.twist, 4)} twist × {carried(one.frequency, 4)} pace × "
        f"{carried(one.grip, 4)} grip = {fixed(model.recommended_weight_kg(one), 1)} kg"
    )


def _changes(lift: dict[str, Any], set_down: str) -> list[tuple[str, str, float]]:
    """Each single change with the weight limit it would give: word, sentence, kg."""
    low, high = sorted((lift["lift_from_cm"], lift["lift_to_cm"]))
    rises = lift["lift_to_cm"] >= lift["lift_from_cm"]
    bench = max(low, min(model.BEST_HEIGHT_CM, high))
    from_there = {"lift_from_cm": bench} if rises else {"lift_to_cm": bench}
    less = max(model.SLOWEST_A_MINUTE, lift["lifts_a_minute"] / 2)
    tries: list[tuple[str, str, dict[str, Any]]] = [
        ("nearer", "Nearer: hands 25 cm in front", {"hands_forward_cm": 25.0, "hands_forward_to_cm": 25.0}),
        ("higher", f"Higher: the low end at {plain_number(bench)} cm, on a bench", from_there),
        ("lower", "Lower: put it at knuckle height, 75 cm", {"lift_to_cm": max(low, 75.0)} if rises else {}),
        ("straight", "Straight: no twist, move the feet", {"twist_degrees": 0.0}),
        ("fewer", f"Fewer: {plain_number(less)} lifts a minute", {"lifts_a_minute": less}),
        ("shorter", "Shorter: an hour at a time, with as much light work after it", {"hours": min(1.0, lift["hours"])}),
        ("better-grip", "A box with handles", {"grip": "good"}),
    ]
    return [(word, sentence, min(_ends({**lift, **change}, set_down).values())) for word, sentence, change in tries]


def _filter(lift: dict[str, Any], who: str) -> tuple[float, str]:
    low, high = sorted((lift["lift_from_cm"], lift["lift_to_cm"]))
    forward = max(lift["hands_forward_cm"], lift["hands_forward_to_cm"] or 0.0)
    zone, kg = lift_filter.zone_weight_kg(low_cm=low, high_cm=high, hands_forward_cm=forward, who=who)
    reach = "arms out" if lift_filter.arms_out(hands_forward_cm=forward) else "close in"
    pace = lift_filter.pace_share(lifts_a_minute=lift["lifts_a_minute"])
    twist = lift_filter.twist_share(twist_degrees=lift["twist_degrees"])
    result = kg * pace * twist
    return result, (
        f"smallest zone the hands enter, {zone}, {reach}: {plain_number(kg)} kg × {plain_number(pace)} for pace × "
        f"{plain_number(twist)} for twist = {fixed(result, 1)} kg"
    )


_NO_PROMISE = Note(
    "caution",
    "An index under 1 is no promise. It is a figure for most healthy adults, and some are hurt below it. Pain, "
    "tingling or a load that shifts could mean injury: put it down and say so.",
)


def _notes(rwl: float, load: float) -> tuple[Note, ...]:
    notes: list[Note] = []
    if rwl <= 0:
        notes.append(
            Note(
                "warning",
                "By the equation nothing should be lifted like this: it is too far out, too high, too far round or "
                "too often, and could harm a back for life. Change the job.",
            )
        )
    elif load > 3 * rwl:
        notes.append(
            Note(
                "warning",
                "Over 3: nearly everyone who lifts this could be hurt, some of them for life. Do not lift it by hand. "
                "Use a hoist, a truck or a smaller load.",
            )
        )
    elif load > rwl:
        notes.append(
            Note(
                "caution",
                "Over 1: some of those who lift this could hurt their backs. Change the job, beginning with the first "
                "line of the table.",
            )
        )
    else:
        notes.append(_NO_PROMISE)
    notes.append(
        Note(
            "remark",
            "If lighter work after the lifting is shorter than the lifting itself (or than 0.3 of it, when you lift "
            "up to two hours), add the times together and type the sum as hours.",
        )
    )
    return tuple(notes)


_EQUATION = "revised NIOSH lifting equation, 94-110 (tables second-hand, transcribed twice)"

SHEET = Sheet(
    id="lifting-index",
    title="Lifting index",
    purpose="How hard a two-handed lift is for a back, and which change helps most.",
    questions=(
        person,
        task,
        load_kg,
        hands_forward_cm,
        lift_from_cm,
        lift_to_cm,
        twist_degrees,
        lifts_a_minute,
        hours,
        grip,
        hands_forward_to_cm,
        set_down,
        who,
    ),
    answers=(
        Answer(
            "lifting_index",
            "Lifting index",
            "",
            1,
            lead=True,
            rests_on=_EQUATION,
            trust="Not fully validated, says its own manual. Over 1 some backs suffer, over 3 nearly all. "
            "Under 1 is no promise.",
            within=within.between(0.0, 1000.0, "Nobody lifts such a load.", "load_kg"),
        ),
        Answer(
            "rwl_kg",
            "Recommended weight limit for this lift",
            "kg",
            1,
            lead=True,
            rests_on=_EQUATION,
            trust="For most healthy adults. It is no legal limit.",
            within=within.between(
                0.0, model.LOAD_CONSTANT_KG, "The equation begins with that load and only takes off.", "load_kg"
            ),
        ),
        Answer(
            "helps_most",
            "What would help most",
            kind="verdict",
            lead=True,
            words=(
                Option("nearer", "Nearer: bring the load close to the body."),
                Option("higher", "Higher: raise the low end to a bench."),
                Option("lower", "Lower: do not lift so high."),
                Option("straight", "Straight: turn with the feet, not the back."),
                Option("fewer", "Fewer: lift less often."),
                Option("shorter", "Shorter: lift for an hour, then do light work as long."),
                Option("better-grip", "A better grip: a box with handles."),
                Option("none", "No single change does. Change the job: a hoist, a truck, a smaller load."),
            ),
            rests_on="the equation worked again with one thing changed at a time",
        ),
        Answer(
            "filter_kg",
            "British guideline filter for this lift",
            "kg",
            1,
            rests_on="HSE L23, reduced for pace (read) and for twist (second-hand); weights second-hand",
            trust="It sets no safe limit. Zone heights are those of a person of middle height (from memory). Close in "
            f"ends {plain_number(lift_filter.ARMS_LENGTH_CM)} cm in front (our reading of its drawing). Within "
            f"{plain_number(lift_filter.ZONE_MARGIN_CM)} cm of an edge the smaller weight counts.",
            within=within.between(0.0, 50.0, "The guideline has no more for anybody.", "load_kg"),
        ),
        Answer(
            "filter_two_kg",
            "The same filter for two people",
            "kg",
            1,
            rests_on="HSE L23, paragraph 120: two people bear two thirds of what both could bear one by one, added up",
            trust="It sets no safe limit. The equation above knows nothing of two people.",
            within=within.between(0.0, 50.0, "The guideline has no more for two.", "load_kg"),
        ),
        Answer(
            "filter_finding",
            "Against the filter",
            kind="verdict",
            words=(
                Option("over", "Over it: a competent person makes a full assessment before anyone lifts this."),
                Option("not-over", "Not over it. It sets no safe limit, and the index above counts too."),
            ),
            rests_on="load against the filter",
        ),
    ),
    listings=(
        Listing(
            "changes",
            "One change at a time, by the lifting equation",
            (
                Heading("change", "Change", kind="text"),
                Heading(
                    "rwl_kg",
                    "Limit then",
                    "kg",
                    1,
                    within=within.between(
                        0.0,
                        model.LOAD_CONSTANT_KG,
                        "The equation begins with that load and only takes off.",
                        "load_kg",
                    ),
                ),
                Heading(
                    "index",
                    "Index then",
                    "",
                    1,
                    within=within.between(0.0, 1000.0, "Nobody lifts such a load.", "load_kg"),
                ),
            ),
        ),
    ),
    work=work,
    guarded=True,
    sources=("niosh-94-110", "hse-l23", "hse-filter", "hse-indg143"),
    story="A box of samples at the example maltings, from the floor to a bench: invented numbers.",
)
