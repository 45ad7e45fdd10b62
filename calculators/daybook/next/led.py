"""A next step led by the faults that stand open: the stop that the table of limits has for one, or the way to choose.

A fan that stands in a drum or box is among its readings; in the steep, where none is read, it leads from here.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...rules.drum import STOPPED
from ...rules.limits import casting, drum_germination, floor_germination, steeping
from ...rules.lines import passed
from ...rules.replan.faults import Fault, Place
from ...words.cautions import FAN_STOPPED
from ...words.limits import act_of, at_edge, said, told
from ...words.replan import LABELS, ORDERS, off_list, place_of_order
from ..batch.batch import Batch
from ..batch.missing import missing
from ..lines.kinds import KIND, TURNINGS
from .lying import lying_of
from .open_faults import Opened, fan_stands, open_faults, place_of
from .step import PAST_A_STOP, Step, Wall

_SMELLS = {
    "wet": steeping.SMELL, "rest": steeping.SMELL, "floor": floor_germination.SMELL, "drum": drum_germination.SMELL,
}  # fmt: skip
NO_WATER = "Nothing is wetted and nothing is cast before the fan runs again."


def led_by_faults(batch: Batch, wall: Wall, step: Step) -> Step:
    """Give the next step with what its open faults ask for in front.

    Parameters
    ----------
    batch : Batch
        The batch.
    wall : Wall
        The time now.
    step : Step
        What comes next of itself.

    Returns
    -------
    Step
        The same where no fault stands open.
    """
    place, found = place_of(batch), open_faults(batch)
    if place is None or not found:
        return step
    first, *others = found
    more = [f"Open as well: {off_list([one.fault for one in others])}."] if others else []
    more.append(_until_written(first.fault))
    if first.fault == "blower":
        if place == "drum":
            return step._replace(more=(*more, *step.more), notes=(FAN_STOPPED, *step.notes))
        return _fan_in_steep(batch, first, place, wall, step, more)
    if first.fault == "sour":
        return _sour(batch, first, place, wall, step, more)
    lead = _way_to_choose(batch, first, place, wall, step)
    words = f"{step.text} {lead}" if step.is_stop else f"{lead} {step.text}"
    return step._replace(text=words, more=(*more, *step.more))


def _written(one: Opened, wall: Wall) -> str:
    return f"Written {wall.time(one.lines[0].utc)}."


def _until_written(fault: Fault) -> str:
    """Which line ends it."""
    over = f"“{KIND['fault'].label}” with “{LABELS[fault]}” and “It is over”"
    if fault == "blower":
        return f"It counts as stopped until a line says that it runs: “{KIND['air'].label}”, or {over}."
    if fault == "sour":
        return f"It counts as sour until a line says that it smells fresh: {over}."
    return f"No longer so? Write {over}."


def _order(fault: Fault, place: Place) -> str:
    """What is done at once at a place, without the name of the place."""
    acts = ORDERS[fault].acts
    own = next((act for act in acts if place in place_of_order(act)), None)
    text = own.split(": ", 1)[1] if own else acts[0]
    return f"{text[:1].upper()}{text[1:]}"


def _fan_in_steep(batch: Batch, one: Opened, place: Place, wall: Wall, step: Step, more: list[str]) -> Step:
    line = passed(drum_germination.FAN, STOPPED)
    assert line is not None
    at_once = drum_germination.FAN.act.rsplit(". ", 1)[0]  # what follows is of a turning
    words = [f"{PAST_A_STOP}. {said(line)} {_written(one, wall)} {at_once}.", _order("blower", place)]
    if place == "wet":
        limit = steeping.IMMERSION
        words.append(f"{limit.quantity}: the stop is over {at_edge(limit, 'stop_high')}, {limit.stop}.")
        likely = ("stage-ended", "fault", "air")
        at = one.lines[0].utc  # since then it is to be drained
    else:
        words.append(NO_WATER)
        likely = ("air", "fault", "plan")
        more = [f"Once it runs again: {step.text}", *more]
        at = wall.now or batch.standing[-1].utc
    return Step(" ".join(words), at, (*more, *_ways()), (FAN_STOPPED, *step.notes), likely)


def _ways() -> tuple[str, ...]:
    return ("The ways on stand under “What now?”.",)


def _sour(batch: Batch, one: Opened, place: Place, wall: Wall, step: Step, more: list[str]) -> Step:
    limit = _SMELLS[place]
    line = passed(limit, "sour")
    assert line is not None
    lead = f"{PAST_A_STOP}. {said(line)} {_written(one, wall)}"
    now = wall.now or batch.standing[-1].utc
    if place == "wet":
        text = f"{lead} {act_of(line)}{told(line)}"
        return Step(text, one.lines[0].utc, (*more, *_ways()), step.notes, ("stage-ended", "fault", "plan"))
    if place == "rest":
        text = f"{lead} Full suction. {act_of(line).split('. ', 1)[1]}{told(line)}"
        then = f"Once it smells fresh: {step.text}"
        return Step(text, now, (then, *more, *_ways()), step.notes, ("fault", "plan", *step.likely))
    turned = _turned(batch, one, wall)
    smell = "Smell a handful outside, never at the port." if place == "drum" else "Smell a handful again."
    act = f"{turned} {smell}" if turned else act_of(line)
    text = f"{lead} {act}{told(line)}"
    at = step.at if turned else now
    if step.is_stop:
        return step._replace(text=f"{text} {step.text}", at=at, more=(*more, *step.more))
    return step._replace(text=text, at=at, more=(step.text, *more, *step.more))


def _turned(batch: Batch, one: Opened, wall: Wall) -> str:
    """That a bed was turned since a fault was written; nothing where it was not."""
    turns = [turn.utc for turn in batch.of(*TURNINGS) if turn.utc >= one.lines[0].utc]
    return f"It was turned {wall.time(turns[-1])}." if turns else ""


def _way_to_choose(batch: Batch, one: Opened, place: Place, wall: Wall, step: Step) -> str:
    act = _order(one.fault, place)
    if place in ("floor", "drum"):
        turned = _turned(batch, one, wall)
        if one.fault == "warm" and turned:
            act = f"{turned} Read it again."
        if one.fault == "turning-missed":
            act = drum_germination.TURNING.act if place == "drum" else _turning(batch, wall)
    kept = "" if act in step.text else f" {act}"
    written = f"{LABELS[one.fault]}, written {wall.time(one.lines[0].utc)}."
    return f"{written}{kept} Choose the way on under “What now?”, and write it."


def _turning(batch: Batch, wall: Wall) -> str:
    limit = casting.COUCH_HOURS if lying_of(batch, wall).never else floor_germination.TURNING
    return limit.act


def lacking(batch: Batch) -> Sequence[str]:
    """What nobody has read or written; nothing of a bed whose fan stands, which nobody reads or samples."""
    return () if batch.cast is not None and fan_stands(batch) else missing(batch)
