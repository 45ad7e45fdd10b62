"""What a plan of the week says beside its tables: what cannot be, what is watched, how sure it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ...asking.declare import Note
from ...asking.figures import clock_words, plain_number
from ...rules.limits.kiln_hand_over import READY_HOURS
from ...rules.limits.steeping import REST, WATER_TEMP
from ...rules.lines import passed
from ...rules.week.house import WEEKS, Batch, Cost, House
from ...rules.week.reasons import Helped, Pair, Slipped
from ...rules.week.result import Result
from ..limits import at_edge, said
from .standing import overdue
from .tables import AT_STEEP, HELP_WORDS, Act, Week, acts
from .typed import Typed

if TYPE_CHECKING:
    from ...rules.week.draws import Drawn

ALONE = Note(
    "remark",
    "A cast or a load at night is planned only where two are there. At a fill, a water or a drain one does it, and a "
    "second is in sight or call besides. Who may do what alone is the site’s own list: "
    "[[page:safety/working-alone|working alone]]. Rounds and turnings, looks at a steep, its basket and the end of a "
    "filling are not in this plan: [[sheet:floor-round]], [[page:procedures/steeping|steeping]].",
)
WHOLE_HOURS = Note(
    "remark",
    "All is planned in whole hours. Growth is planned by its middle, and nothing is loaded before the count says "
    "ready: "
    "[[sheet:readiness]].",
)
PEOPLE_AT_STEEP = 2
_SHOWN = 5.0
"""From so many weeks of a hundred on, a wait past what is accepted is told as the first to give way [%]."""


def at_once_notes(week: Week) -> list[Note]:
    """Hours at which more is to be done than there are people for, casts and loads having theirs already."""
    needed: dict[int, list[Act]] = {}
    for act in acts(week):
        needed.setdefault(act.hour, []).append(act)
    hands = week.house.hands
    over = [(hour, some) for hour, some in needed.items() if sum(act.people for act in some) > max(hands[hour % 24], 1)]
    if not over:
        return []
    hour, some = over[0]
    several = len(over) > 1
    what = ", ".join(f"{act.what} {act.batch}" for act in some)
    return [
        Note(
            "notice",
            f"At {f'{len(over)} hours' if several else 'one hour'} more is to be done than there are people for, "
            f"{'first ' if several else ''}at {clock_words(week.at(hour))}: {what}. {sum(act.people for act in some)} "
            f"are needed, {hands[hour % 24]} there. Let one follow the other, a drain first: grain under water "
            "does not wait.",
        )
    ]


def alone_notes(week: Week) -> list[Note]:
    """The work at a steep that falls where no second person is in the house."""
    hands = week.house.hands
    alone = [act for act in acts(week) if act.what in AT_STEEP and hands[act.hour % 24] < PEOPLE_AT_STEEP]
    if not alone:
        return []
    several = len(alone) > 1
    what = f"{len(alone)} fills, waters and drains fall" if several else f"One {alone[0].what} falls"
    return [
        Note(
            "warning",
            f"{what} where one person or nobody is there, {'first ' if several else ''}at "
            f"{clock_words(week.at(alone[0].hour))}. Alone at an open steep a fall could kill: write beside each who "
            "is in sight or call. [[page:safety/working-alone|Working alone]].",
        )
    ]


def sure(result: Result) -> Note:
    """Whether the plan is proved to be the best, or what no plan can beat."""
    order = "no stop passed, hands when nobody is there, lateness, hours watched, changes to the running plan"
    if result.proved:
        return Note(
            "remark", f"No plan is better by these aims in this order: {order}. That is proved for these hours."
        )
    return Note(
        "remark",
        f"The best plan found. Aims in their order: {order}. It is not proved to be the best of all: no plan can do "
        "better "
        f"than {cost_words(result.least)}.",
    )


def cost_words(cost: Cost) -> str:
    """A cost in words."""
    times = "once" if cost.hands == 1 else f"{cost.hands} times"
    parts = [f"somebody called in {times}", f"{cost.late} h late", f"{cost.watched} h watched"]
    return ", ".join([*parts, *([f"{cost.changed} changed lines"] if cost.changed else [])])


def watched_notes(week: Week) -> list[Note]:
    """What a plan has of hours that are only watched, with the edge."""
    found = []
    for batch in week.batches:
        way, stood = week.plan[batch.id], batch.stood
        if stood.cast is None:
            rests = [w - d for w, d in zip(way.waters[1:], way.drains, strict=False)] + [way.cast - way.drains[-1]]
            line = passed(REST, float(max(rests)), high_only=True)
            if line:
                found.append(
                    Note("notice", f"{batch.id}, drained: {said(line)} Count its chits, and watch its warmth.")
                )
        if stood.load is None:
            line = passed(READY_HOURS, float(way.load - way.ready))
            if line:
                found.append(Note("notice", f"{batch.id}: {said(line)} Cool and thin it."))
    return found


def taken_notes(house: House, batches: Sequence[Batch], happened: Sequence[tuple[Any, ...]]) -> list[Note]:
    """In which steep a batch is taken to lie where nobody said which."""
    if len(house.steeps) < 2:
        return []
    unsaid = {row[0] for row in happened if row[1] == "filled" and row[3] is None}
    lies = [one for one in batches if one.id in unsaid and one.stood.cast is None and one.stood.steep is not None]
    told = ", ".join(f"{one.id} in {house.steeps[one.stood.steep or 0].name}" for one in lies)
    if not told:
        return []
    return [
        Note("remark", f"Which steep was not said. Taken: {told}. Write it under what has happened if it is another.")
    ]


def water_notes(steep_c: float, mains_c: float) -> list[Note]:
    """What is to be said of the water's temperature."""
    notes = []
    line = passed(WATER_TEMP, max(steep_c, mains_c))
    if line and line.mark != "stop":  # a stop is said of the stages
        notes.append(Note("notice", f"{said(line)} By the season’s plan."))
    if mains_c > steep_c:
        notes.append(
            Note(
                "notice",
                f"The water comes at {plain_number(mains_c)} °C, warmer than the {plain_number(steep_c)} °C that are "
                "wanted. "
                "No warm tank helps: cool it, draw it at night, or steep by its own warmth: [[sheet:mixing-waters]].",
            )
        )
    return notes


def gives_way(drawn: Mapping[str, Drawn]) -> tuple[str, float] | None:
    """What gives way first in the drawn weeks: in words, and in how many of a hundred; None where nothing does."""
    stop, most = at_edge(READY_HOURS, "stop_high"), at_edge(READY_HOURS, "accept_high")
    rest_stop, rest_most = at_edge(REST, "stop_high"), at_edge(REST, "accept_high")
    some = [
        (share, name, what)
        for name, one in drawn.items()
        for share, what in (
            (3.0 * one.waits_stopped, f"waits for the kiln past its stop, {stop}"),
            (one.waits_watched, f"waits for the kiln for over {most}"),
            (3.0 * one.rests_stopped, f"lies drained before the cast past the stop, {rest_stop}"),
            (one.rests_watched, f"lies drained before the cast for over {rest_most}"),
            (one.late / 3.0, "is late"),
        )
    ]
    if not some:
        return None
    share, name, what = max(some)
    times = 3.0 if "stop" in what else 1.0 / 3.0 if what == "is late" else 1.0
    return (f"{name} {what}", share / times) if share / times >= _SHOWN or ("stop" in what and share > 0) else None


def drawn_note() -> Note:
    """How the drawn weeks are made."""
    return Note(
        "remark",
        f"The shares are of {WEEKS} drawn weeks. In them the growth of each batch, the pace for 10 K, each cast and "
        "each kiln "
        "take as long as they happen to. Who holds a place before whom stays as planned.",
    )


def slip_notes(week: Week, found: Slipped, name: str, hours: int) -> list[Note]:
    """What a late batch does to the week, and the repair."""
    seen = clock_words(week.at(found.seen))
    if found.result.plan is None:
        return [
            Note(
                "notice",
                f"If {name} is ready {hours} h later, known {seen}, no plan is left that passes no stop. "
                f"{_against(found)}Ask for "
                "another kiln, or more hours with people, before it comes to that.",
            )
        ]
    cost = found.result.cost
    many = (
        "no line of the plan is"
        if not cost.changed
        else "one line is"
        if cost.changed == 1
        else f"{cost.changed} lines are"
    )
    return [
        Note(
            "remark",
            f"If {name} is ready {hours} h later, known {seen}: {many} written anew in the repair that changes least; "
            f"{cost_words(cost._replace(changed=0))}.",
        )
    ]


def _against(found: Slipped) -> str:
    pair = found.pair
    if pair is None or pair.one == pair.other:
        return ""
    return f"{pair.one} and {pair.other} stand against each other: keep one of them cooler, so that it is ready later. "


def cannot(seen: Typed, batches: Sequence[Batch], result: Result, pair: Pair | None) -> list[Note]:
    """Why there is no plan, stops that are passed already first."""
    house = seen.house
    past = [text for batch in batches if (text := overdue(house, batch))]
    notes = [Note("notice", f"Past a stop. {text}") for text in past]
    if past:
        return notes
    stuck = [one for one in batches if one.id in result.stuck]
    for lies in (False, True):
        some = [one for one in stuck if (one.stood.cast is not None) is lies]
        if some:
            notes.append(Note("notice", _stuck(seen, some)))
    if not notes and pair is not None:
        notes.append(Note("notice", _both(seen, pair, "cannot both be kept")))
    if not notes:
        notes.append(
            Note(
                "notice",
                "No plan was found that keeps every stop. Any two of the batches go together; all of them do not. "
                "Leave the "
                "one out that is wanted last, or give it another week.",
            )
        )
    return notes


def _stuck(seen: Typed, batches: Sequence[Batch]) -> str:
    """Why batches have no way even alone; all of them to be cast, or all of them cast."""
    house: House = seen.house
    names, many = ", ".join(one.id for one in batches), len(batches) > 1
    why = (
        "the hours of a cast and of the kiln never fall where people enough are there"
        if batches[0].stood.cast is None
        else "the wait for the kiln would pass its stop before people or a kiln are there"
    )
    shut = [
        f"{one.place} is closed until {clock_words(seen.at(one.end))}" for one in house.closed if one.end > house.now
    ]
    closed = f", or a place is closed too long: {'; '.join(shut)}" if shut else ""
    return (
        f"{names} {'have' if many else 'has'} no way through the house, even alone: {why}{closed}. More hours with "
        f"{house.cast_hands} or more{', or a place not closed,' if shut else ''} make it possible."
    )


def _both(seen: Typed, pair: Pair, what: str) -> str:
    def wish(name: str) -> str:
        batch = next(one for one in seen.batches if one.id == name)
        by = f" off the kiln by {clock_words(seen.at(batch.due))}" if batch.due is not None else ""
        return f"{name}{by}"

    if pair.one == pair.other:
        return f"{wish(pair.one)}: that alone asks for more hours than there are."
    return f"Two wishes {what}: {wish(pair.one)}, and {wish(pair.other)}."


def late_notes(seen: Typed, pair: Pair | None, late: Sequence[str], scarcest: str) -> list[Note]:
    """Why malt is late: two wishes that cannot both be kept, or all of them together."""
    if pair is not None and pair.one == pair.other:
        return [
            Note(
                "notice", f"Late. {_both(seen, pair, '')} Steep, growth and kiln take longer than that, by themselves."
            )
        ]
    if pair is not None:
        return [
            Note(
                "notice",
                f"Late. {_both(seen, pair, 'cannot both be kept')} Choose which one gives way, or see what more "
                "would do.",
            )
        ]
    return [
        Note(
            "notice",
            f"Late: {', '.join(late)}. No two of the wishes stand against each other by themselves; all of them "
            "together do. "
            f"{scarcest} is the fullest place.",
        )
    ]


def more_note(found: Sequence[Helped], cost: Cost) -> list[Note]:
    """What would make more possible, in one sentence."""
    good = [one for one in found if one.plan is not None and one.cost[:3] < cost[:3]]
    if not good:
        return []
    best = min(good, key=lambda one: one.cost)
    return [Note("remark", f"{HELP_WORDS[best.word]} would change most: {cost_words(best.cost)}.")]


def possible_note(found: Sequence[Helped]) -> list[Note]:
    """What would make a plan possible where there is none."""
    good = [HELP_WORDS[one.word].lower() for one in found if one.plan is not None]
    if good:
        return [Note("remark", f"What would make it possible, each by itself: {'; '.join(good)}.")]
    return [
        Note("remark", "Neither one more of a place nor people at every hour makes it possible. Ask for fewer batches.")
    ]


def mark_note(mark: str, wall: str | None, typed: bool) -> Note:
    """By which mark the paper is known, and against which one changes are counted; it may have been typed."""
    if wall is None:
        return Note("remark", f"Plan {mark}. Planned again, the changes are counted against it.")
    return Note(
        "remark",
        f"Plan {mark}, in place of plan {wall}. If another mark stands on the wall, "
        + (
            "its lines are not those typed as the plan on the wall."
            if typed
            else "the numbers above are not those of that plan: put them as they were."
        ),
    )
