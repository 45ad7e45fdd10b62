"""What to do on a round of the floor, from what was read and seen; a closed list of actions."""

from typing import NamedTuple

ACTIONS = ("turn", "thin", "thicken", "plough", "sprinkle", "open", "close", "leave")
"""In the order in which they come first when several are due."""

ROOTS = ("fresh", "withering", "knotted")
THINNEST_CM = 8.0
"""A piece of this depth is not spread thinner (common practice)."""

THICKEST_CM = 40.0
"""A growing piece is not laid thicker than this (common practice)."""

SOON_H = 0.5
"""A limit that comes within this time counts as reached, by the floor's own readings [h]."""

NOTICEABLE_K = 1.0
"""Outside and room count as different from here on [K]."""


class Sight(NamedTuple):
    """What one round found."""

    difference_k: float
    limit_k: float
    hours_to_limit: float
    own_readings: bool  # whether the hours rest on this floor's readings
    bottom_c: float
    mean_c: float
    coolest_c: float
    warmest_c: float
    depth_cm: float
    room_c: float
    outside_c: float | None = None
    roots: str | None = None


class Action(NamedTuple):
    """One thing to do, and why."""

    word: str
    because: str


def _k(value: float) -> str:
    return f"{value:.1f}"


def _windows(sight: Sight) -> list[Action]:
    outside, room = sight.outside_c, sight.room_c
    if outside is None:
        return []
    warm, cold = sight.mean_c > sight.warmest_c, sight.mean_c < sight.coolest_c
    cooler = outside <= room - NOTICEABLE_K
    if warm and cooler:
        return [Action("open", f"The piece is too warm, and it is cooler outside ({_k(outside)} °C) than in the room.")]
    if warm and outside >= room + NOTICEABLE_K:
        return [Action("close", f"Outside it is {_k(outside)} °C, warmer than the room. Keep the cool in.")]
    if cold and cooler:
        return [Action("close", f"The piece is too cool, and it is {_k(outside)} °C outside.")]
    return []


def actions(sight: Sight) -> list[Action]:
    """Give everything that is due, the first thing first; "leave" when nothing is.

    Parameters
    ----------
    sight : Sight
        Temperatures [C], differences [K], depth [cm], hours [h], and the roots as seen.

    Returns
    -------
    list of Action
        In the order of :data:`ACTIONS`.

    Notes
    -----
    A turning is asked for when the thermometers read the limit now, or when the floor's own
    readings bring it within half an hour.  Typical values never ask for one.  The rules are
    common practice; the limits are the house's own.
    """
    due: list[Action] = []
    over = sight.difference_k >= sight.limit_k
    soon = sight.own_readings and sight.hours_to_limit <= SOON_H
    if over:
        due.append(
            Action(
                "turn",
                f"The bottom is {_k(sight.difference_k)} K over the top; this house allows {_k(sight.limit_k)}.",
            )
        )
    elif soon:
        due.append(
            Action(
                "turn", f"By this floor’s own readings the limit of {_k(sight.limit_k)} K comes within half an hour."
            )
        )
    if sight.mean_c > sight.warmest_c and sight.depth_cm > THINNEST_CM:
        due.append(
            Action(
                "thin",
                f"The piece is {_k(sight.mean_c)} °C on the whole, over {_k(sight.warmest_c)}. Thinner it cools.",
            )
        )
    if sight.mean_c < sight.coolest_c and sight.depth_cm < THICKEST_CM:
        due.append(
            Action(
                "thicken",
                f"The piece is {_k(sight.mean_c)} °C on the whole, under {_k(sight.coolest_c)}. "
                "Thicker it keeps its heat.",
            )
        )
    if not (over or soon):
        if sight.roots == "knotted":
            due.append(Action("plough", "The roots knit together. Ploughing parts them; a turning can wait."))
        elif sight.bottom_c > sight.warmest_c >= sight.mean_c:
            due.append(
                Action(
                    "plough",
                    f"The bottom is {_k(sight.bottom_c)} °C, over {_k(sight.warmest_c)}, and the turning can wait. "
                    "Ploughing lets heat and gas out.",
                )
            )
    if sight.roots == "withering":
        due.append(
            Action("sprinkle", "Roots that wither early are short of water. Weigh a sample, then sprinkle and turn.")
        )
    due += _windows(sight)
    if not due:
        due.append(
            Action(
                "leave",
                f"The bottom is {_k(sight.difference_k)} K over the top, under the limit of {_k(sight.limit_k)}.",
            )
        )
    return sorted(due, key=lambda action: ACTIONS.index(action.word))
