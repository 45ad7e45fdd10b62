"""What has left the plan and the ways through the rest of a batch, in words: danger and orders to people first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ..asking.declare import Note, Option
from ..asking.figures import fixed, plain_number
from ..rules.limit import SHIFT_LEAD, edge
from ..rules.limits import casting, drum_germination, floor_germination, kiln_hand_over, steeping
from ..rules.replan.faults import FAULTS, MOST_HOURS, Fault, Place
from ..rules.replan.ways import Cost, Move, Way, Word
from .cautions import BOX, DRUM, FAN_STOPPED, FLOOR_ROOM
from .limits import at_edge
from .steep import GAS

LABELS: dict[Fault, str] = {
    "blower": "Blower or fan has stopped",
    "sour": "It smells sour",
    "warm": "It is too warm",
    "turning-missed": "A turning was missed",
    "behind": "Behind the plan",
    "ahead": "Ahead of the plan",
    "kiln-late": "The kiln is late",
    "away": "Somebody is away",
}

FAULT_OPTIONS = tuple(Option(fault, LABELS[fault]) for fault in FAULTS)

HOURS_ASKED: dict[Fault, str] = {
    "blower": "Until it runs again",
    "kiln-late": "The kiln is later by",
    "away": "Nobody is there for",
}
"""What the hours of a fault are."""

WAY_OPTIONS = (
    Option("target", "Keeps the target"),
    Option("clock", "Keeps the plan’s hour"),
    Option("day", "Needs fewest hands at night"),
    Option("other", "Another way"),
)

_SIGNS: dict[Word, str] = {
    "target": "nearest the target",
    "clock": "nearest the plan’s hour",
    "day": "fewest hands at night",
    "other": "one more way",
}


class Orders(NamedTuple):
    """What is done at once: boxes first, then sentences, and links to what teaches it."""

    notes: tuple[Note, ...]
    acts: tuple[str, ...]
    pages: tuple[str, ...]


_TELL = f"Tell {SHIFT_LEAD}."
_ENTRY = "reference/what-goes-wrong#"

ORDERS: dict[Fault, Orders] = {
    "blower": Orders(
        (FAN_STOPPED, GAS, DRUM, BOX),
        (
            "In the steep, under water: drain it by the valve that is worked away from the openings.",
            "In the steep, drained: leave it as it is. Nobody leans over it, smells it or takes a sample.",
            f"In the drum or box: {drum_germination.FAN.act.rsplit('. ', 1)[-1]}",
            "Only competent people start the fan again, by the site’s own plan.",
        ),
        (f"{_ENTRY}blower-off|the blower stops", f"{_ENTRY}fan-stopped|the fan of a drum stops"),
    ),
    "sour": Orders(
        (GAS,),
        (
            f"In the steep: {steeping.SMELL.act} Full suction.",
            "On the floor: turn it at once, spread it thin, sweep out standing water.",
            "In the drum or box: more fresh air, and turn it with the air on. Smell a handful outside, never at the "
            "port.",
            _TELL,
        ),
        (f"{_ENTRY}sour-in-the-steep|sour in the steep", f"{_ENTRY}sour-on-the-floor|sour on the floor"),
    ),
    "warm": Orders(
        (GAS, Note("warning", FLOOR_ROOM.format(" Warm grain makes more of it."))),
        (
            f"In an air rest: {steeping.REST_TEMP.act} No water colder than the grain by more than "
            f"{at_edge(steeping.FILL_AGAINST_GRAIN, 'stop_high')}.",
            f"On the floor: {floor_germination.BOTTOM.act}",
            f"In the drum or box: {drum_germination.BED.act}",
            f"Past a stop: {_TELL.lower()}",
        ),
        (f"{_ENTRY}hot-rest|grain too warm in a rest", f"{_ENTRY}hot-bottom|the floor too warm"),
    ),
    "turning-missed": Orders(
        (Note("warning", FLOOR_ROOM.format("")), DRUM),
        (
            f"On the floor: {floor_germination.TURNING.act} Lumps are broken by hand.",
            f"In the drum or box: {drum_germination.TURNING.act}",
            f"Past the stop: {_TELL.lower()}",
        ),
        (f"{_ENTRY}matted|a matted piece",),
    ),
    "behind": Orders(
        (GAS,),
        (
            "Weigh the basket again, drained. No immersion goes over "
            f"{at_edge(steeping.IMMERSION, 'stop_high')}, whatever the basket reads.",
        ),
        (f"{_ENTRY}basket-behind|a basket behind the plan",),
    ),
    "ahead": Orders(
        (GAS,),
        ("Weigh the basket again, drained. Dripping, it reads too wet.",),
        (f"{_ENTRY}basket-ahead|a basket ahead of the plan",),
    ),
    "kiln-late": Orders(
        (),
        (
            "Ask the kiln’s people for an hour, and have it said back.",
            "On the floor: thin it, cool it, turn it. Never heap it to wait.",
            f"Ready grain waits {at_edge(kiln_hand_over.READY_HOURS, 'accept_high')}; "
            f"{at_edge(kiln_hand_over.READY_HOURS, 'stop_high')} is the stop.",
        ),
        (f"{_ENTRY}kiln-not-free|the kiln is not free",),
    ),
    "away": Orders(
        (),
        (
            "A job beside a vessel, a drum or the kiln that needs two people is not done by one: "
            "[[page:safety/working-alone|working alone]].",
            f"Tell {SHIFT_LEAD} now, not when the hour comes.",
        ),
        ("procedures/hand-over|handing a batch over",),
    ),
}
"""What is done at once when a fault is named, before anything is reckoned: it stands in the page without Python."""

_NOTE_AT: dict[Note, tuple[Place, ...]] = {GAS: ("wet", "rest"), DRUM: ("drum",), BOX: ("drum",)}
_BEGINS_AT: dict[str, tuple[Place, ...]] = {
    "In the steep, under water": ("wet",),
    "In the steep, drained": ("rest",),
    "In the steep": ("wet", "rest"),
    "In an air rest": ("rest",),
    "On the floor": ("floor",),
    "In the drum or box": ("drum",),
}


def place_of_order(order: Note | str) -> tuple[Place, ...]:
    """Where what is told at once holds, by what it begins with; nothing where it holds everywhere."""
    if isinstance(order, Note):
        return _NOTE_AT.get(order, ("floor",) if order.text.startswith(FLOOR_ROOM.format("")) else ())
    return next((places for begins, places in _BEGINS_AT.items() if order.startswith(begins)), ())


_ACTS = {
    "drain": "drain",
    "fill": "water on, at {} °C",
    "cast": "cast",
    "turn": "turn it",
    "sprinkle": "sprinkle: {} L for each tonne of barley is to stay on the grain; turn it in",
    "load": "load it on the kiln",
}


def move_words(move: Move) -> str:
    """One thing to be done, without its hour."""
    return _ACTS[move.act].format(plain_number(round(move.figure, 1)) if move.figure is not None else "")


def sample_words(move: Move) -> str:
    """What goes before water on a bed whose moisture nobody has found; nothing before anything else."""
    if move.act != "sprinkle":
        return ""
    return f"sample first; under {at_edge(floor_germination.MOISTURE, 'accept_low')}, or where roots wither, "


def way_title(way: Way) -> str:
    """What a way puts first: ``Nearest the target and the plan’s hour``."""
    words = ", ".join(_SIGNS[word] for word in way.words)
    return f"{words[:1].upper()}{words[1:]}"


def _off(value: float, unit: str, less: str, more: str, decimals: int = 0) -> str:
    size = fixed(abs(value), decimals)
    if float(size) == 0.0:
        return ""
    return f"{size} {unit} {more if value > 0 else less}"


def cost_words(cost: Cost, place: Place) -> tuple[str, ...]:
    """What a way costs, a sentence each: hours, moisture, chit, growth, hands at night."""
    steeping_now = place in ("wet", "rest")
    said = []
    if cost.later_h is not None:
        hours = _off(cost.later_h, "h", "sooner than the plan", "later than the plan", 1)
        said.append(f"Hours: {hours or 'as planned'}.")
    aim = "the target" if steeping_now else at_edge(floor_germination.MOISTURE, "accept_low")
    off = _off(cost.off_points, "points", f"under {aim}", f"over {aim}", 1)
    said.append(f"Moisture: {fixed(cost.moisture, 1)} % at its end{', ' + off if off else ''}.")
    if steeping_now and -cost.off_points > edge(casting.OFF_TARGET.accept_high):
        said.append("What is short is sprinkled on the floor: [[sheet:sprinkling]].")
    if cost.chit_percent is not None:
        chits = fixed(cost.chit_percent, 0)
        said.append(f"Chit: about {chits} in 100 at its end, by the model. Count before the last water.")
    if cost.growth_off_h is not None:
        than = "the plan" if steeping_now else "just ready"
        growth = _off(cost.growth_off_h, "h at 15 °C", f"less than {than}", f"more than {than}")
        said.append(f"Growth: {growth or ('as planned' if steeping_now else 'just ready when it is loaded')}.")
    hands = cost.night_hands
    times = {0: "nobody is needed", 1: "somebody is needed once"}.get(hands, f"somebody is needed {hands} times")
    said.append(f"At night: {times}.")
    return tuple(said)


def tell_words(way: Way, fault: Fault, place: Place) -> tuple[str, ...]:
    """Who has to be told of a way."""
    told = [SHIFT_LEAD]
    if way.cost.night_hands:
        told.append("whoever has the night")
    moved = way.cost.later_h is not None and abs(way.cost.later_h) >= 1.0
    if place in ("floor", "drum") and (moved or fault == "kiln-late"):
        told.append("the kiln’s people")
    elif moved:
        told.append("whoever casts it")
    if fault == "blower":
        told.append("those who mend it")
    return tuple(told)


def standing_words(fan_off_h: tuple[float, float], place: Place, typed: Sequence[str]) -> str:
    """That grain without air goes to its stop: a warning about the grain, never time given to people.

    ``typed`` is what the book knows of what its sheet asks, which nothing fills in.
    """
    limit = drum_germination.BED if place == "drum" else steeping.REST_TEMP
    slow = " It need not, with grain so cool." if min(fan_off_h) >= MOST_HOURS else ""
    return (
        f"Standing so long the grain itself may pass its stop, over {at_edge(limit, 'stop_high')}, whatever is done "
        f"after.{slow} The one figure to tell the shift lead is that of [[sheet:fan-stopped]]. Nothing is filled in "
        f"there for anybody. Type what this batch has: {'; '.join(typed)}. "
        "It is said of the grain. It gives nobody time beside it."
    )


def off_list(faults: Sequence[Fault]) -> str:
    """What has left the plan, in one line: ``behind the plan, a turning was missed``."""
    return ", ".join(LABELS[fault][:1].lower() + LABELS[fault][1:] for fault in faults)
