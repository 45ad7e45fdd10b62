"""What comes next for a batch on the floor or in the drum: what is past a stop or overdue first, then the next look."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from ...asking.declare import Note
from ...asking.figures import fixed, plain_number
from ...models.bed import floor
from ...models.living import ready
from ...models.living.bed_days import DAY
from ...models.steep.doubt import BAND_SD
from ...rules import drum as drum_rules
from ...rules.cast import CHITS_OF
from ...rules.conventions import READY_AT_C, READY_DAYS, RECHECK_H, ROUND_EVERY_H
from ...rules.floor import Sight, hours_left, turning_limits, unexplained, until_turning, verdict
from ...rules.limit import Limit
from ...rules.limits import casting, drum_germination, floor_germination, kiln_hand_over, readiness
from ...rules.lines import Line, passed, worst
from ...words.cast import cast_stop
from ...words.cautions import BOX, DRUM, FLOOR_ROOM
from ...words.limits import act_of, at_edge, beside, reading, said, span, told
from ..batch.batch import Batch
from ..batch.bed_read import mean_temps, rounds_of
from ..batch.checks import CHITS_SHORT
from ..batch.lives import chit_line
from ..house.days import ready_at
from ..lines.kinds import LEAVES
from .counted import overshot_line, ready_words
from .lying import Lying, depth_line, drum_sight, lying_of, sight_of
from .open_faults import fan_line
from .planned import taken_words
from .step import Step, Wall

FLOOR_GAS = Note("warning", FLOOR_ROOM.format(""))


def _hours(hours: float) -> str:
    return f"{fixed(hours, 0 if hours >= 10 else 1)} h"


def _told_hours(hours: float, over: float) -> float:
    """Hours [h] with as many decimals as part them from their edge, so that what is past it adds up as it is read."""
    return next((told for decimals in (1, 2) if (told := round(hours, decimals)) != over), hours)


def _late(line: Line, lying: Lying, wall: Wall) -> str:
    """A turning that is overdue: how late, and against which limit."""
    limit, over = line.limit, line.edge
    assert isinstance(limit, Limit) and isinstance(over, (int, float))
    stop, lain = line.mark == "stop", _told_hours(lying.hours, over)
    more = "" if stop else f"; over {at_edge(limit, 'stop_high')} is a stop"
    past = f"{plain_number(round(lain - over, 2))} h past {'the stop' if stop else 'what is accepted'}"
    return (
        f"{'Cast' if lying.never else 'Turned'} {wall.time(lying.turned)}, {plain_number(lain)} h ago: "
        f"{past}, {plain_number(over)} h{beside(line)}{more}."
    )


def _waited(line: Line) -> str:
    """Green malt that is ready and not loaded."""
    assert isinstance(line.value, float) and isinstance(line.edge, (int, float))
    kind = "the stop is" if line.mark == "stop" else "accepted are"
    return f"Ready by the count for {reading(line)}, not loaded: {kind} {plain_number(line.edge)} h{beside(line)}."


_NO_TURNING_ANSWERS = (floor_germination.MOISTURE.id, floor_germination.DEPTH.id, readiness.OVERSHOT.id)


class First(NamedTuple):
    """What has to be said before any plan, and since when it is so."""

    text: str
    at: datetime


def _first(
    lines: list[Line], lying: Lying, wall: Wall, turning: Limit, *, then: str = "", only: str = ""
) -> First | None:
    """Put into words what is past a stop, overdue, or watched; None where there is nothing.

    ``then`` stands in place of what the readings' own limits ask for, where that was done after they were read;
    ``only`` in place of all that would be asked for.
    """
    if not lines:
        return None
    stops = [line for line in lines if line.mark == "stop"]
    late = [line for line in lines if line.rule == turning.id and line.mark == "watch"]
    words, moments, acts = [], [lying.now], []
    for line in [*stops, *late] if stops else lines:
        if line.rule == turning.id:
            words.append(_late(line, lying, wall))
            moments.append(lying.turned + timedelta(hours=float(line.edge or 0)))
            acts.append(turning.act)
        elif line.rule == kiln_hand_over.READY_HOURS.id:
            words.append(_waited(line))
            acts.append(kiln_hand_over.READY_HOURS.act if line.mark == "stop" else "Cool and thin it, and load.")
        elif line.rule == casting.MOISTURE.id:
            words.append(cast_stop(line))
            acts.append(act_of(line))
        elif line.rule in CHITS_OF:
            words.append(said(line))
            acts.append(CHITS_SHORT)
        else:
            assert line.limit is not None
            words.append(said(line))
            act = act_of(line) if line.mark == "stop" or lying.never else "Turn it now."
            acts.append(act if line.rule in _NO_TURNING_ANSWERS or not then else then)
    begin = ["Past a stop."] if stops else ["Overdue."] if late else []
    do = [only] if only else list(dict.fromkeys(acts))
    tell = [told(stops[0]).strip()] if stops else []
    tell = [] if tell and tell[0] in " ".join(do) else tell
    return First(" ".join([*begin, *words, *do, *tell]), min(moments))


def _cast_line(batch: Batch, lying: Lying) -> list[Line]:
    """The stops it was cast past: of its moisture until it is sampled, of its chits until it is turned."""
    moisture = batch.cast_line if lying.moisture is None else None
    chits = chit_line(batch) if lying.never else None
    return [line for line in (moisture, chits) if line and line.mark == "stop"]


def _sampled(batch: Batch, lines: list[Line]) -> tuple[str, ...]:
    """After water was put on a dry bed only a new sample tells."""
    assert batch.cast is not None
    if any(line.rule == casting.MOISTURE.id for line in lines) and any(
        one.utc > batch.cast.utc for one in batch.of("sprinkled")
    ):
        return ("It was sprinkled after the cast: read its moisture the quick way, an hour after the water.",)
    limit = floor_germination.MOISTURE
    dry = [line for line in lines if line.rule == limit.id and line.edge in (limit.stop_low, limit.accept_low)]
    samples, waters = batch.of("moisture"), batch.of("sprinkled")
    if dry and waters and samples and waters[-1].utc > samples[-1].utc:
        return ("It was sprinkled after that sample: read it again the quick way, an hour after the water.",)
    return ()


def _ready_line(batch: Batch, lying: Lying) -> Line | None:
    """Whether a batch has been ready by its count for longer than the kiln's page accepts."""
    found = ready_at(batch)
    if found is None or not found[1] or found[0] > lying.now:
        return None
    hours = (lying.now - found[0]).total_seconds() / 3600
    return passed(kiln_hand_over.READY_HOURS, hours, high_only=True)


def on_floor(batch: Batch, wall: Wall, ready_days: float = READY_DAYS, heat_factor: float = 1.0) -> Step:
    """What comes next on the floor.

    Parameters
    ----------
    batch : Batch
        A batch that was cast and has not left.
    wall : Wall
        The time now.
    ready_days, heat_factor : float, optional
        Of the house, as for ``next_step``.

    Returns
    -------
    Step
        What is past a stop first, then what is overdue, then the next look; its moment is never past what the table
        of limits accepts between two turnings, unless the text says that first.
    """
    lying = lying_of(batch, wall)
    hours = turning_limits(lying.never)[1]
    sight = sight_of(batch, lying)
    if sight is None:
        only = [passed(hours, lying.hours, high_only=True), passed(floor_germination.MOISTURE, lying.moisture)]
        found = [line for line in only if line and (line.rule == hours.id or line.mark == "stop")]
        watched = [line for line in only if line and line not in found]
    else:
        due = verdict(sight).due
        found = [line for one in due for line in one.lines if line.mark == "stop" or one.word == "turn"]
        found = [line for line in found if line.rule != floor_germination.DEPTH.id]
        watched = _watched([line for one in due for line in one.lines if line not in found], lying)
        if not lying.read_since:  # the turning has answered what was only to be watched
            found = [line for line in found if line.mark == "stop" or line.rule == hours.id]
    deep = depth_line(batch, lying)
    found += [deep] if deep and deep.mark == "stop" else []
    lines = worst([*_cast_line(batch, lying), *found, overshot_line(batch), _ready_line(batch, lying)])
    stopped = {line.rule for line in lines if line.mark == "stop"}
    watched = [line for line in watched if line.rule not in stopped]
    test, counting = _testing(batch, wall, ready_days)
    likely = ("bed", "readiness", "turned") if counting else ("bed", "turned", "sprinkled")
    more = (
        *_told(watched),
        *(["What else is due: [[sheet:floor-round]]."] if sight else []),
        *_sampled(batch, [*lines, *watched]),
        *test,
    )
    again = lying.turned + timedelta(hours=RECHECK_H)
    turned = f"It was turned {wall.time(lying.turned)}: read it again {_by(again, wall)}."
    first = _first(lines, lying, wall, hours, then="" if lying.read_since else turned)
    planned = taken_words(batch, wall)
    if first:
        offered = ("turned", "bed", "readiness" if counting else "sprinkled")
        return Step(first.text, first.at, (*planned, *more), (FLOOR_GAS,), offered)
    text, at = _next_look(batch, lying, wall, heat_factor, sight)
    text = " ".join([text, *planned])
    ready = ready_words(batch, wall)
    if ready:
        return Step(f"{ready} Until it is loaded: {text}", at, more, (FLOOR_GAS,), (LEAVES, *likely))
    return Step(text, at, more, (FLOOR_GAS,), likely)


def _watched(lines: list[Line], lying: Lying) -> list[Line]:
    """What is watched of a floor and asks for no turning; of what was read before one only what no turning changes."""
    kept = [line for line in lines if line.mark == "watch" and isinstance(line.limit, Limit)]
    if not lying.read_since:
        kept = [line for line in kept if line.rule == floor_germination.MOISTURE.id]
    return list({line.rule: line for line in kept if line.rule != floor_germination.DEPTH.id}.values())


def _told(watched: list[Line]) -> list[str]:
    """What is watched, in a sentence each; of a piece that dries, what is done."""
    words = [said(line) for line in watched]
    limit = floor_germination.MOISTURE
    if any(line.rule == limit.id and line.edge == limit.accept_low for line in watched):
        words.append(
            f"Under {at_edge(limit, 'accept_low')} it is sprinkled, unless it is all but ready: [[sheet:sprinkling]]."
        )
    return words


def _by(moment: datetime, wall: Wall) -> str:
    return "now" if wall.late(moment) else f"by {wall.time(moment)}"


def _next_look(batch: Batch, lying: Lying, wall: Wall, heat_factor: float, sight: Sight | None) -> tuple[str, datetime]:
    """The next look at a floor with nothing overdue: by its own readings where they are of this turning."""
    clock = lying.turned + timedelta(hours=lying.hours + hours_left(lying.hours, couch=lying.never))
    accepted = at_edge(turning_limits(lying.never)[1], "accept_high")
    do = "Break the couch" if lying.never else "Turn it"
    latest = f" {do} by {wall.time(clock)} at the latest: {accepted} are accepted."
    read = max(lying.turned, lying.bed.utc) if lying.bed else lying.turned
    at = min(read + timedelta(hours=ROUND_EVERY_H), clock)
    if sight and lying.read_since and unexplained(sight):
        at = min(read + timedelta(hours=RECHECK_H), clock)
        return f"Check the two thermometers: the bottom is cooler than the top. Read again {_by(at, wall)}.{latest}", at
    fitted = rounds_of(batch, lying.bed.utc) if lying.bed and lying.read_since else None
    last = min(fitted[0], key=lambda one: one.hours_ago) if fitted else None
    read_at = lying.bed.utc - timedelta(hours=last.hours_ago) if lying.bed and last else None
    if fitted is None or last is None or lying.bed is None or read_at is None or read_at < lying.turned:
        late = f"{_hours((lying.now - at).total_seconds() / 3600)} overdue: read" if wall.late(at) else "Read"
        text = (
            f"{late} bottom and top {_by(at, wall)}: {plain_number(ROUND_EVERY_H)} h after the last (trade judgement)."
        )
        return text + latest, at
    rounds, day = fitted
    guesses = floor.fit(rounds=rounds, day=min(day, DAY.high), heat_factor=heat_factor)
    allowed = floor_germination.DIFFERENCE.accept_high or 0.0
    until = until_turning(
        guesses,
        hours_since_turning=last.hours_since_turning,
        difference_limit_k=allowed,
        couch=lying.never,
    )
    at, early = (min(read_at + timedelta(hours=hours), clock) for hours in (until.hours.middle, until.hours.low))
    what = {
        floor_germination.DIFFERENCE.id: (
            f"Bottom and top may part by {at_edge(floor_germination.DIFFERENCE, 'accept_high')}"
            " (your house names its own)"
        ),
        turning_limits(lying.never)[0].id: (
            f"The bottom may reach {at_edge(turning_limits(lying.never)[0], 'accept_high')}"
        ),
    }.get(until.limit.id)
    if what is None:
        look = lying.bed.utc + timedelta(hours=ROUND_EVERY_H)
        return f"Read bottom and top again {_by(min(look, clock), wall)}.{latest}", min(look, clock)
    if wall.late(at):
        return f"{what} since {wall.time(at)}. Read now, and turn by the thermometers.{latest}", at
    return f"{what} about {wall.time(at)}, at the earliest {wall.time(early)}. Read before.{latest}", at


def in_drum(batch: Batch, wall: Wall, ready_days: float = READY_DAYS) -> Step:
    """What comes next in the drum, told as for the floor.

    Parameters
    ----------
    batch : Batch
        A batch that was cast and has not left.
    wall : Wall
        The time now.
    ready_days : float, optional
        Of the house, as for ``next_step``.

    Returns
    -------
    Step
        What is past a stop first, then what is overdue, then the next turning.
    """
    lying = lying_of(batch, wall)
    limits = drum_germination
    lines = drum_rules.lines(drum_sight(batch, lying))
    stopped = any(line.rule == limits.FAN.id for line in lines)
    told_first = [line for line in lines if line.mark == "stop" or line.rule == limits.TURNING.id]
    cast = _cast_line(batch, lying)
    watched = tuple(said(line) for line in lines if line not in told_first)
    test, counting = _testing(batch, wall, ready_days)
    likely: tuple[str, ...] = ("drum", "readiness" if counting else "bed", "air", "moisture")
    more = (*([" ".join(watched)] if watched else []), *_sampled(batch, [*cast, *lines]), *test)
    if stopped:  # nobody turns, samples or counts beside a fan that stands
        likely, more = ("air", "fault", "plan"), more[: bool(watched)]
    first = _first(
        worst([*told_first, *cast, overshot_line(batch), _ready_line(batch, lying)]),
        lying,
        wall,
        limits.TURNING,
        only=limits.FAN.act if stopped else "",
    )
    soonest, latest = limits.TURNING.accept_low or 0.0, limits.TURNING.accept_high or 0.0
    begin, end = (lying.turned + timedelta(hours=hours) for hours in (soonest, latest))
    text = (
        f"Turn {'the bed' if batch.in_box else 'the drum'} between {wall.time(begin)} and {wall.time(end)}: every "
        f"{span(limits.TURNING)} (trade judgement). Keep its air on."
    )
    planned = taken_words(batch, wall)
    ready, notes = ready_words(batch, wall), (BOX if batch.in_box else DRUM,)
    if first:
        turning = () if stopped or any(line.rule == limits.TURNING.id for line in lines) else (text,)
        told_more = (*turning, *planned, *more)
        return Step(f"{first.text}{_read_at(batch, lying, lines, wall)}", first.at, told_more, notes, likely)
    text = " ".join([text, *planned])
    if ready:
        return Step(f"{ready} Until it is loaded: {text}", begin, more, notes, (LEAVES, *likely))
    return Step(text, begin, more, notes, likely)


_READ_BY = {
    **{limit.id: "air" for limit in (drum_germination.AIR_ON, drum_germination.AIR_ON_RH, drum_germination.RISE)},
    **{limit.id: "bed" for limit in (drum_germination.BED, drum_germination.PROBES)},
    drum_germination.FAN.id: "fan",
}


def _read_at(batch: Batch, lying: Lying, lines: list[Line], wall: Wall) -> str:
    """When that was read which passes a limit: a stop stands until the next reading of the same thing."""
    airs = [one for one in batch.of("air") if batch.cast is not None and one.utc >= batch.cast.utc]
    fan = fan_line(batch)
    read = {
        "air": airs[-1].utc if airs else None,
        "bed": lying.bed.utc if lying.bed else None,
        "fan": fan.utc if fan else None,
    }
    told = dict.fromkeys(_READ_BY[line.rule] for line in lines if line.mark == "stop" and line.rule in _READ_BY)
    times = [f"{what} {wall.time(moment)}" for what in told if (moment := read[what]) is not None]
    return f" Read: {', '.join(times)}." if times else ""


def _testing(batch: Batch, wall: Wall, ready_days: float) -> tuple[tuple[str, ...], bool]:
    """When to begin counting, by the days at their temperatures; and whether that is now."""
    assert batch.cast is not None
    now = wall.now or batch.standing[-1].utc
    temps = mean_temps(batch, now)
    if not temps or not all(ready.BED_C.low <= temp <= ready.BED_C.high for temp in temps):
        return (), bool(batch.of("readiness"))
    house = {"reference_temp_c": READY_AT_C, "reference_days": ready_days}
    elapsed = max((now - batch.cast.utc).total_seconds() / 86_400, 0.0)
    whole = [temps[min(n, len(temps) - 1)] for n in range(int(elapsed))]
    done = ready.share_done(temps_by_day=whole, **house) if whole else 0.0
    here = ready.pace(temp_c=temps[-1], reference_temp_c=READY_AT_C) / ready_days
    done += (elapsed - int(elapsed)) * here
    left = max(0.0, (1.0 - done) / here)
    early = left - (BAND_SD * ready.OWN_DAYS_DOUBT * ready_days + 1.0)
    if early <= 0:
        return ("Count corns every day from now on: [[sheet:readiness]]. The grain decides, not the clock.",), True
    moment = now + timedelta(days=early)
    return (f"Begin counting corns {wall.time(moment)}, a day before it can be ready by its temperatures.",), False
