"""What is said of the warmth of an air rest: its stops first, then what its suction can and cannot do."""

from __future__ import annotations

from ..asking.declare import Axis, Band, Chart, Line, Mark, Note, Option
from ..asking.figures import fixed, plain_number
from ..models.living.breathing import GRAIN_C
from ..models.living.resting import Balance, Resting, ended
from ..models.living.warmth import SUCTION, Rest
from ..models.steep.oxygen import SUCTION_M3_T_H
from ..rules.limit import edge
from ..rules.limits.casting import GRAIN_TEMP
from ..rules.limits.steeping import FILL_AGAINST_GRAIN, REST_COLD, REST_TEMP, WATER_TEMP
from ..rules.rest import RestVerdict
from .limits import at_edge, limit_notes, said, stop_said

ACCEPT_C, STOP_C = edge(REST_TEMP.accept_high), edge(REST_TEMP.stop_high)

_COOLER = f"with water up to {at_edge(FILL_AGAINST_GRAIN, 'stop_high')} cooler than the grain"
_WET_SOONER = f"Wet it sooner, {_COOLER}: more of this air does not cool it."

ORDERS = (
    Option("stop", f"Past a stop. {REST_TEMP.act}"),
    Option("may-stop", f"It may pass a stop. Be ready for this: {REST_TEMP.act[:1].lower()}{REST_TEMP.act[1:]}"),
    Option("stop-warm-air", f"Past a stop. {_WET_SOONER}"),
    Option("may-stop-warm-air", f"It may pass a stop. {_WET_SOONER}"),
    Option("stop-cold", f"Past a stop: too cold. {REST_COLD.act}"),
    Option("may-stop-cold", f"It may get too cold, past a stop. {REST_COLD.act}"),
    Option("watch", "To be watched: read the probes every hour, and give more suction as it warms."),
    Option("watch-cold", "To be watched: read the probes every hour, and give less suction as it cools."),
    Option("hold", "No limit is passed by this reckoning. The probes decide."),
)


def because(found: RestVerdict) -> str:
    """The lines that decided, in a sentence each."""
    if found.lines or found.fast or found.slow:
        lines = [said(line) for line in found.lines]
        lines += [f"if it breathes fast, {said(line)[:1].lower()}{said(line)[1:]}" for line in found.fast]
        lines += [f"if it breathes slowly, {said(line)[:1].lower()}{said(line)[1:]}" for line in found.slow]
        return " ".join(lines)
    return f"warmest grain and fastest hour against the limits: {at_edge(REST_TEMP, 'accept_high')} is not passed"


def order_notes(found: RestVerdict) -> list[Note]:
    """The stops with what to do and whom to tell, then what is watched."""
    notes = list(limit_notes(found.lines))
    stops = [line for line in found.fast if line.mark == "stop"]
    if stops:
        words = " ".join(stop_said(line) for line in stops)
        place = sum(note.level == "notice" for note in notes)
        notes.insert(place, Note("notice", f"Past a stop, if this batch breathes fast. {words}"))
    for line in found.slow:
        if line.mark == "stop":
            words = f"Past a stop, if this batch breathes slowly. {stop_said(line)}"
            notes.insert(sum(note.level == "notice" for note in notes), Note("notice", words))
        else:
            notes.append(Note("remark", f"If it breathes slowly: {said(line)[:1].lower()}{said(line)[1:]}"))
    return notes


def cold_note(found: RestVerdict) -> Note | None:
    """What grain that gets too cold meets next, and what to do where it began too warm."""
    cold = [line for line in (*found.lines, *found.slow) if line.rule == REST_COLD.id]
    if not cold:
        return None
    then = (
        f"Cold grain: water may be {at_edge(FILL_AGAINST_GRAIN, 'stop_high')} from it at most, and water under "
        f"{at_edge(WATER_TEMP, 'stop_low')} is a stop; so is a cast of grain under {at_edge(GRAIN_TEMP, 'stop_low')}. "
        "Let it warm by its own breath first. The least of "
        f"{fixed(SUCTION_M3_T_H, 1)} m³/h for each tonne stays on, for the gas; the table shows how cold it gets by it."
    )
    if any(line.rule == REST_TEMP.id for line in found.lines):
        then += f" It begins warm: suction until it is at {at_edge(REST_TEMP, 'accept_high')}, and less from then on."
    return Note("notice", then)


def suction_note(limit_c: float, start_c: float, typical: float | None, fast: float | None) -> Note | None:
    """What no suction can do, where there is such a thing."""
    aim = plain_number(limit_c)
    if start_c > limit_c:
        return Note(
            "notice",
            f"The grain is over {aim} °C already. No suction is named that holds it there. Draw all that the fan "
            f"gives, if its air is cooler; if it still rises, wet it early, {_COOLER}.",
        )
    if fast is None:
        told = "this batch" if typical is None else "this batch, should it breathe fast,"
        return Note(
            "notice",
            f"No suction up to {plain_number(SUCTION.high)} m³/h for each tonne holds {told} at {aim} °C: this air is "
            f"too warm or too damp. Draw cooler air, by night say, or wet it sooner, {_COOLER}.",
        )
    return None


def warm_air_note(found: RestVerdict) -> Note | None:
    """That more of an air which does not cool is no remedy, whatever the table says of full suction."""
    if not found.word.endswith("warm-air"):
        return None
    return Note(
        "notice",
        "Full suction is no remedy with this air: it is too warm and damp, and more of it does not cool the grain. "
        "Wet it sooner, or draw cooler air. The least of "
        f"{fixed(SUCTION_M3_T_H, 1)} m³/h for each tonne stays on, for the gas.",
    )


def broke_off_note(rest: Rest, ran: Resting) -> Note | None:
    """That the grain gets too warm to follow, so that no figure for the end of the rest says how warm."""
    if ended(rest, ran.fast):
        return None
    who = "If it breathes fast, the grain" if ended(rest, ran.typical) else "The grain"
    most = plain_number(GRAIN_C.high)
    return Note(
        "notice",
        f"{who} comes to {most} °C before the end of the rest. Hotter grain is not followed: {most} °C as the end "
        f"means {most} or more, and in the tables a blank stands for it.",
    )


def least_note(least: Balance, fast_kw: float) -> Note:
    """What the published least suction does for the grain's warmth at the end of this rest, and what it does not."""
    watts = 1000.0 * least.carried_kw
    does = (
        f"carries off {fixed(watts, 0)} W a tonne"
        if watts >= 0.5
        else f"warms the grain by {fixed(-watts, 0)} W a tonne, since its air is warmer"
        if watts <= -0.5
        else "carries off no heat"
    )
    return Note(
        "remark",
        f"The published least, {fixed(SUCTION_M3_T_H, 1)} m³/h for each tonne, is given to draw gas out of the grain. "
        f"It is no cooling: at the end of this rest it {does}, where the grain makes "
        f"{fixed(1000 * least.made_kw, 0)} W, or {fixed(1000 * fast_kw, 0)} if it breathes fast.",
    )


def warmth_chart(ran: Resting, still_c: list[float], limit_c: float, hours: float) -> Chart:
    """Grain temperature over the hours of the rest, with its doubt."""
    many = range(0, len(ran.typical.hours), max(1, len(ran.typical.hours) // 48))
    last = min(len(course.hours) for course in ran)
    at = [n for n in many if n < last]
    if at[-1] != last - 1:
        at.append(last - 1)
    xs = [ran.typical.hours[n] for n in at]
    typical, fast, slow = ([course.temps_c[n] for n in at] for course in ran)
    marks = [Mark(f"stop: over {plain_number(STOP_C)} °C", STOP_C)]
    if limit_c != STOP_C:
        marks.append(Mark(f"to hold: {plain_number(limit_c)} °C", limit_c))
    broken = fast[-1] >= GRAIN_C.high
    fast_end = f"over {plain_number(GRAIN_C.high)}" if broken else fixed(fast[-1], 1)
    still_c = [min(temp, GRAIN_C.high) for temp in still_c]
    ends = [typical[-1], fast[-1], slow[-1], *still_c, STOP_C, limit_c]
    begun = typical[0]
    past = " Past a stop." if max(fast) > STOP_C or min(slow) < edge(REST_COLD.stop_low) else ""
    return Chart(
        "warmth",
        "Grain in the rest",
        f"From {plain_number(begun)} °C the grain comes to {fixed(typical[-1], 1)} °C in {plain_number(xs[-1])} h, "
        f"and to {fast_end} °C if it breathes fast.{past}",
        Axis("Time since it was drained", "h", 0.0, hours, 1),
        Axis("Grain temperature", "C", min(begun, *ends) - 1.0, max(begun, *ends) + 1.0, 1),
        lines=(
            Line("typical", xs, typical),
            Line("if it breathes fast", xs, fast),
            Line("typical, with no suction", [ran.typical.hours[n] for n in at if n < len(still_c)],
                 [still_c[n] for n in at if n < len(still_c)]),
        ),
        bands=(Band("doubt of the law", xs, slow, fast),),
        marks=tuple(marks),
    )  # fmt: skip
