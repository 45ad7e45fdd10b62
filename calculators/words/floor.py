"""What is due on the floor, in words: the label of each action, and why it is due."""

from __future__ import annotations

from ..asking.declare import Option
from ..asking.figures import fixed, plain_number
from ..rules import floor
from ..rules.conventions import SOON_H
from ..rules.floor import Action, Sight, Verdict
from ..rules.limit import Signs
from ..rules.limits import floor_germination as limits
from ..rules.limits import kiln_hand_over
from ..rules.lines import Line
from .limits import act_of, at_edge, reading, said, told

LABELS = (
    Option("lift-out", "Stop: mask on, lift the mould out damp, tell the shift lead"),
    Option("look-for-mould", "Stop: mask on, look for mould, tell the shift lead"),
    Option("turn-now", "Stop: turn it now, tell the shift lead"),
    Option("break-couch", "Stop: break the couch now, lay it thin, tell the shift lead"),
    Option("thin-now", "Stop: lay it thinner, tell the shift lead"),
    Option("tell", "Stop: tell the shift lead"),
    Option("turn", "Turn it now"),
    Option("count", "Count corns: is it ready?"),
    Option("sprinkle", "Sprinkle it"),
    Option("plough", "Plough it"),
    Option("thin", "Spread it thinner"),
    Option("thicken", "Lay it thicker"),
    Option("check", "Check the two thermometers"),
    Option("open", "Open the windows"),
    Option("close", "Close the windows"),
    Option("watch", "Look at it again soon"),
    Option("leave", "Leave it"),
)
"""What each action is called, in the order of the rules."""

LABEL = {option.word: option.label for option in LABELS}
NO_WATER_LATE = (
    f"No water in the last {at_edge(kiln_hand_over.LAST_WATER, 'accept_low')} before the kiln; under "
    f"{at_edge(kiln_hand_over.LAST_WATER, 'stop_low')} is a stop there."
)
_THEN = {
    "count": "Split and count them today: [[sheet:readiness]]. If it has to wait and a sample is dry, "
    f"[[sheet:sprinkling]]. {NO_WATER_LATE}",
    "sprinkle": f"Weigh a sample, then sprinkle and turn: [[sheet:sprinkling]]. {NO_WATER_LATE}",
    "plough": "Ploughing parts the roots. It does not replace a turning.",
    "thin": "Thinner it cools and dries.",
    "thicken": "Thicker it keeps its heat.",
    "check": "Growing grain is warmest at the floor, unless the floor draws its heat away or the room is warmer. Hold "
    "both in one pail of water; if they are swapped, read again.",
    "watch": "Nothing is due by it yet.",
}


_SOON = "half an hour" if SOON_H == 0.5 else f"{plain_number(SOON_H)} h"


def _c(value: object) -> str:
    return f"{fixed(value, 1)} °C" if isinstance(value, (int, float)) else str(value)


def _house(line: Line, sight: Sight) -> str:
    """A limit of the house's own that was reached."""
    assert isinstance(line.value, float) and isinstance(line.edge, (int, float))
    if line.rule == limits.PIECE.id:
        side = "over" if line.value > line.edge else "under"
        return f"The piece is {_c(line.value)} on the whole, {side} {_c(line.edge)}."
    warm, cool = ("top", "bottom") if sight.top_c > sight.bottom_c else ("bottom", "top")
    over = f"The {warm} is {fixed(line.value, 1)} K over the {cool}"
    if line.mark == "accept":
        return f"{over}, under the limit of {fixed(line.edge, 1)} K."
    return f"{over}; this house allows {fixed(line.edge, 1)}."


def _line(line: Line, sight: Sight) -> str:
    if line.mark == "stop":
        return said(line)
    if line.rule == floor.FORECAST and floor.hours_left(sight.hours_since_turning, couch=sight.couch) <= SOON_H:
        return f"The hours accepted between turnings are over within {_SOON}."
    if line.rule == floor.FORECAST:
        by = "By this floor’s own readings a" if sight.own_readings else "By typical values a"
        return f"{by} limit comes within {_SOON}."
    if line.rule == floor.OLD_PIECE:
        day, first = plain_number(float(line.value or 0)), plain_number(float(line.edge or 0))
        return f"It is day {day}: from day {first} on roots wither because the piece is ripe."
    if line.rule == floor.RIPE:
        return "The acrospire is at three quarters or past it."
    if line.rule == floor.COOLER_BOTTOM:
        return (
            f"The bottom, {_c(line.value)}, is cooler than the top, {_c(line.edge)}, and the room does not explain it."
        )
    if line.rule == floor.APART_SO_SOON:
        return (
            f"It was turned {plain_number(float(line.value or 0))} h ago. Bottom and top are alike then, and part by "
            "about a degree an hour: was it turned to the floor here, and are both read right?"
        )
    if line.rule == floor.OUTSIDE:
        return f"Outside it is {_c(line.value)}, in the room {_c(line.edge)}."
    if line.rule in (limits.DIFFERENCE.id, limits.PIECE.id):
        return _house(line, sight)
    if line.rule == limits.ROOTS.id:
        return f"The roots are {reading(line)}."
    return said(line)


def because(action: Action, sight: Sight) -> str:
    """Why an action is due, with what to do at a stop and whom to tell.

    Parameters
    ----------
    action : Action
        Of the verdict.
    sight : Sight
        What the round found.
    """
    words = [_line(line, sight) for line in action.lines]
    stops = [line for line in action.lines if line.mark == "stop"]
    done = action.word in ("tell", "thin-now")
    acts = [
        _act(line, sight)
        for n, line in enumerate(stops)
        if line.limit and (not n or done or isinstance(line.limit, Signs))
    ]
    words += dict.fromkeys(acts)
    if stops:
        words.append(told(stops[0]).strip())
    then = _THEN.get(action.word, "")
    return " ".join(part for part in (*words, then) if part)


_THINNER = ", lay it thin"
_ALL_DONE = (
    "It lies as thin as a piece is laid. Turn it, and open what is cooler than the room. If that is open already, "
    "nothing is left to thin or to open: cast no more onto this floor."
)


def _act(line: Line, sight: Sight) -> str:
    """What to do at a stop; a piece that lies as thin as one is laid is not ordered to be laid thinner."""
    if line.rule == limits.SUMMER_BOTTOM.id:
        return _ALL_DONE
    act = act_of(line)
    return act.replace(_THINNER, "") if sight.thin_already and not sight.couch else act


def reason(verdict: Verdict, sight: Sight) -> str:
    """Why the first thing is due, and what else is."""
    also = ", ".join(LABEL[word].lower() for word in verdict.words[1:])
    first = because(verdict.due[0], sight)
    return first + (f" Also due: {also}; why stands in the table." if also else "")
