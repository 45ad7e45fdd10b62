"""The scene in words: clock, place, what is seen, the drawing, what the page says to do."""

from ..rules.limits import casting, drum_germination, floor_germination, kiln_hand_over, readiness, steeping
from ..words.limits import at_edge, span, taken
from . import tempts
from .due import basket, is_waiting
from .kinds import Offer, Scene
from .offers import offers_of
from .run import CASTS, PLAN_H, Run, clock
from .setting import PAPER_MOISTURE, SEASONS

_PLACES = {
    "dry": "On the platform, the steep empty",
    "water": "On the platform, behind the rail",
    "rest": "On the platform, the water let off",
    "couch": "At the couch",
    "floor": "At the piece",
    "drum": "At the drum’s panel, outside its fence",
    "gone": "At the kiln’s door",
}
_FIRST, *_THEN = (f"{hours:g}" for hours in PLAN_H)
PLAN = ", ".join(
    (f"{_FIRST} h water", *(f"{hours} {'water' if number % 2 else 'rest'}" for number, hours in enumerate(_THEN)))
)
"""The plan in words: water and rest by turns."""
_DRAWINGS = {
    "dry": "filling", "water": "steep-wet", "rest": "steep-rest", "couch": "floor-piece", "floor": "floor-piece",
    "drum": "drum-air", "gone": "the-job",
}  # fmt: skip
_PAGES = {
    "dry": "procedures/filling-the-steep",
    "water": "procedures/steeping",
    "rest": "procedures/steeping",
    "couch": "procedures/casting",
    "floor": "procedures/floor-germination",
    "drum": "procedures/drum-germination",
    "gone": "procedures/kiln-hand-over",
}
_ENDS = {
    "kiln": "The kiln has it. The run is over.",
    "piece": "This part is over.",
    "stopped": "You stopped and told the shift lead. Asking and stopping are never held against anyone.",
    "time": "Thirteen days are over, and nothing was loaded. The run is over.",
}


_LEADS_TO = {
    "fi": "water", "we": "water", "dr": "rest", "cf": "couch", "cw": "couch", "cd": "drum",
    "br": "floor", "tu": "floor",
}  # fmt: skip
_PLANNED = {
    "dr": "drain", "we": "wet it", "cf": "cast", "cd": "cast to the drum", "br": "break the couch", "round": "a round",
}  # fmt: skip


def page_of(run: Run) -> str:
    """Give the page that teaches what is before the learner."""
    if run.event in tempts.BY_NAME:
        return tempts.BY_NAME[run.event].page
    return _PAGES[run.world.where]


def page_at(run: Run, minute: int) -> str:
    """Give the page that teaches what the batch was at, at an earlier minute."""
    where = "dry"
    for at, code, _, _ in run.done:
        if at > minute:
            break
        where = _LEADS_TO.get(code, where)
    return _PAGES[where]


def scene_of(run: Run) -> Scene:
    """Give the scene of a run."""
    event = tempts.BY_NAME.get(run.event)
    last = run.book[-1] if run.book else None
    clocked = clock(run.minute)
    if run.ended == "never" and event:
        return Scene(run.minute, clocked, "The batch has ended", run.said, "", (), last, "never", event.page)
    see = " ".join(part for part in (run.said, event.see if event else _state(run)) if part)
    offers = offers_of(run)
    if run.level == 0 and not run.ended:
        offers = (Offer("nx", "Go on", 0, True),)
    if run.ended:
        see = " ".join(part for part in (run.said, _ENDS[run.ended]) if part)
    prompt = run.thought if run.level == 0 else _prompt(run) if run.level == 1 and not run.ended else ""
    place = _PLACES[run.world.where]
    drawing = _DRAWINGS[run.world.where]
    return Scene(run.minute, clocked, place, see, drawing, offers, last, run.ended, page_of(run), prompt)


def _state(run: Run) -> str:
    world = run.world
    parts = []
    if run.event == "shift":
        parts.append("Your shift is over. The next one does what you hand over, and no more.")
    elif world.where == "gone":
        parts.append("The last of it is on the kiln.")
    elif world.where == "dry" and run.minute:
        parts.append("The barley waits above the steep, dry.")
    elif run.minute == 0:
        lot = f"A lot of barley, {PAPER_MOISTURE:g} % by its paper"
        season = f", in {SEASONS[run.setting.season]}" if run.setting.season else ""
        if run.setting.water_c:
            season += f", in water of about {run.setting.water_c:g} °C"
        wish = f" Wanted at the cast: {run.setting.target:g} %."
        to = " Then the drum." if run.setting.vessel == "drum" else ""
        parts.append(f"{lot}{season}, and a plan: {PLAN}.{to}{wish}")
    if world.where == "water":
        began = run.last_done("fi", "we") or 0
        air = ("off", "in bursts", "on")[world.air] if world.immersions else ""
        parts.append(f"Under water for {_hours(run.minute - began)}, the {_nth(world.immersions)} time. Air {air}.")
    elif world.where == "rest":
        began = run.last_done("dr") or 0
        suction = ("off", "low", "full")[world.suction]
        parts.append(f"Air rest {world.immersions}, {_hours(run.minute - began)} since the drain. Suction {suction}.")
    elif world.where == "couch":
        parts.append(f"Cast {_hours(run.minute - (run.last_done(*CASTS) or 0))} ago.")
    elif world.where == "floor":
        day = (run.minute - (run.last_done(*CASTS) or 0)) // 1440 + 1
        windows = " Windows open." if world.windows else ""
        parts.append(f"Day {day} on the floor, turned {_hours(run.minute - world.turned)} ago.{windows}")
    elif world.where == "drum":
        day = (run.minute - (run.last_done(*CASTS) or 0)) // 1440 + 1
        fan = ("stands", "low", "full")[world.suction]
        locks = {"ki": "isolated", "kl": "locked and blocked", "kt": "tried"}
        held = f" The drum is {', '.join(locks[code] for code in run.locks)}." if run.locks else ""
        parts.append(f"Day {day} in the drum, turned {_hours(run.minute - world.turned)} ago. Fan {fan}.{held}")
    planned = run.planned()
    if planned and run.event != "shift":
        parts.append(f"Plan: {_PLANNED[planned[1]]} at {clock(planned[0])}.")
    return " ".join(parts)


def _nth(number: int) -> str:
    return {1: "first", 2: "second", 3: "third"}.get(number, f"{number}th")


def _hours(minutes: int) -> str:
    return f"{minutes} min" if minutes < 90 else f"{minutes / 60:.1f} h"


def _prompt(run: Run) -> str:
    """Give what the page says to look at now, with its edges from the table of limits."""
    world = run.world
    if run.event in tempts.BY_NAME:
        return "Nobody is quick here. What does the page say?"
    if world.where == "water":
        return _prompt_under_water(run)
    if world.where == "rest":
        if not world.suction and world.immersions < 3:
            return "The water is off: start the suction now. Write down when you drained."
        top = steeping.REST_TEMP
        said = f"Probes: up to {at_edge(top, 'accept_high')}, a stop over {at_edge(top, 'stop_high')}."
        if world.immersions < 3:
            least = at_edge(steeping.CHIT_LAST_DIP, "accept_low")
            said += f" Before the last of the three waters, count: {least} chitted."
        return said
    if world.where == "couch":
        bottom, hours = casting.COUCH_BOTTOM, casting.COUCH_HOURS
        return f"Read bottom and top. Break it by {at_edge(bottom, 'accept_high')} or {at_edge(hours, 'accept_high')}."
    if world.where == "floor":
        warmest = floor_germination.BOTTOM
        apart = taken(run.setting.difference_k, floor_germination.DIFFERENCE, "accept_high")
        ready = at_edge(readiness.READY, "accept_low")
        return (
            f"Turn at {apart} between bottom and top, or over {at_edge(warmest, 'accept_high')} below. "
            f"Ready: {ready} at three quarters."
        )
    if world.where == "drum":
        rise, hours = drum_germination.RISE, drum_germination.TURNING
        return (
            f"Air off {span(rise)} over air on; turned every {span(hours)}. Samples only at the port: isolate, "
            "lock, block, try."
        )
    if world.where == "gone":
        return f"The piece goes over at {at_edge(kiln_hand_over.PIECE, 'accept_high')} at most."
    return "Take the plan, zero and tare, then fill."


def _prompt_under_water(run: Run) -> str:
    last = run.world.immersions >= 3
    near = at_edge(casting.OFF_TARGET, "accept_high")
    aim = f"within {near} of {run.setting.target:g} %"
    limit = steeping.FIRST_DRAIN if run.world.immersions == 1 else steeping.SECOND_DRAIN
    weighed = basket(run)
    if weighed is None:
        return (
            f"Weigh the basket near the end: {aim}." if last else f"Weigh the basket before you drain: {span(limit)}."
        )
    read = f"The basket says {weighed.value:.1f} %"
    then = "count the chits before the cast" if last else "start the suction"
    if weighed.value < weighed.low:
        return f"{read}, and {aim if last else span(limit)} is wanted: leave the water on, with air, and weigh again."
    if weighed.value > weighed.high:
        over = f"more than {near} over {run.setting.target:g} %" if last else f"over {span(limit)}"
        return f"{read}, {over}: drain now, and {then}."
    planned = run.planned()
    when = f"by {clock(planned[0])}" if planned and is_waiting(run) else "now"
    return f"{read}, {aim if last else f'within {span(limit)}'}: drain {when}, and {then}."
