"""Exercises on the growing piece on a floor."""

from __future__ import annotations

from random import Random

from ..asking.figures import fixed
from ..rules.limit import edge
from ..rules.limits.floor_germination import BOTTOM, DIFFERENCE, TURNING
from .exercise import Beside, Case, Draw, Exercise, Made, Pick, Slip

CHAPTER = "floor"
_ACTIONS = ("leave", "turn", "turn-now")
_LEAVE, _TURN, _TURN_NOW = range(1, 4)


def _by_points(case: Case) -> float:
    v = case.values
    return v["bed_kg"] * (v["moisture_wanted"] - v["moisture_now"]) / 100


def _wrong_way(case: Case) -> float:
    v = case.values
    pace: float = v["q10"] ** ((v["reference_temp_c"] - v["bed_temp_c"]) / 10)
    return (v["reference_days"] - v["days_done"] * pace) / pace


def _no_pace(case: Case) -> float:
    return case.values["reference_days"] - case.values["days_done"]


def _long_lain(case: Case) -> bool:
    return case.values["hours_since_turning"] > edge(TURNING.accept_high)


def _read_warm(case: Case) -> bool:
    """Whether the thermometers alone ask for a turning."""
    apart = round(case.values["bottom_c"] - case.values["top_c"], 1)
    return case.values["bottom_c"] > edge(BOTTOM.accept_high) or apart >= edge(DIFFERENCE.accept_high)


def _by_the_clock(case: Case) -> float | None:
    hours = case.values["hours_since_turning"]
    if case.words["action"] == "leave":
        return _TURN if hours >= edge(TURNING.accept_high) / 2 else None
    return _LEAVE if hours < edge(TURNING.accept_high) / 2 else None


def _for_nothing(case: Case) -> float | None:
    return _TURN if case.words["action"] == "leave" else None


def _by_the_top(case: Case) -> float | None:
    return _LEAVE if case.words["action"] != "leave" and _read_warm(case) else None


def _hours_forgotten(case: Case) -> float | None:
    return _LEAVE if case.words["action"] == "turn" and _long_lain(case) and not _read_warm(case) else None


def _stop_for_watch(case: Case) -> float | None:
    return {"turn-now": _TURN, "turn": _TURN_NOW}.get(case.words["action"])


def _rounds(random: Random) -> tuple[str, ...]:
    """Three rounds in one turning, two hours apart: the last is now, those before stand in the table."""
    start = random.choice((13.0, 13.5, 14.0, 14.5))
    pace, top_pace = random.choice((0.3, 0.4, 0.5)), random.choice((0.05, 0.1))
    bottoms = [round(start + (pace + top_pace) * hours, 1) for hours in (2, 4, 6)]
    tops = [round(start + top_pace * hours, 1) for hours in (2, 4, 6)]
    earlier = "; ".join(f"{6 - h} {h} {b} {t}" for h, b, t in zip((2, 4), bottoms, tops, strict=False))
    return (earlier, str(bottoms[2]), str(tops[2]))


def _apart(case: Case) -> tuple[float, float, float]:
    """How far bottom and top stood apart four hours ago, how far now, and the limit."""
    _, _, bottom, top = (float(text) for text in case.typed["earlier_rounds"].split(";")[0].split())
    return bottom - top, case.values["bottom_c"] - case.values["top_c"], case.values["difference_limit_c"]


def _straight_on(case: Case) -> tuple[float, str, int, str]:
    first, now, limit = _apart(case)
    gain = (now - first) / 4
    pace, hours = fixed(gain, 2), (limit - now) / gain
    working = (
        f"({fixed(now, 1)} − {fixed(first, 1)}) / 4 = {pace} K an hour; ({fixed(limit, 1)} − {fixed(now, 1)}) / {pace}"
    )
    return hours, "h", 1, f"{working} = {fixed(hours, 1)} h"


def _from_nothing(case: Case) -> float:
    first, now, limit = _apart(case)
    return limit / ((now - first) / 4)


def _by_the_bottom(case: Case) -> float:
    _, _, bottom, _ = (float(text) for text in case.typed["earlier_rounds"].split(";")[0].split())
    _, now, limit = _apart(case)
    return (limit - now) / ((case.values["bottom_c"] - bottom) / 4)


EXERCISES = (
    Exercise(
        "sprinkle",
        CHAPTER,
        "sprinkling",
        (
            Draw("bed_kg", 3000, 9000, 500),
            Draw("moisture_now", 41, 43.5, 0.5),
            Draw("moisture_wanted", 44, 45.5, 0.5),
            Pick("water_kept", ("80", "85", "90")),
        ),
        "water_l",
        "A bed of {bed_kg} has dried to {moisture_now} and should hold {moisture_wanted}. The grain keeps "
        "{water_kept} of the water sprinkled. How many litres must be sprinkled?",
        6.0,
        (
            Slip(
                "points-for-percent",
                "The points of moisture are not per cent of the bed’s weight, and some water runs off. "
                "The dry matter stays: divide by what is not water, then by the share kept.",
                formula=_by_points,
            ),
            Slip(
                "forgot-runoff",
                "That would do if the grain kept all of it. Divide by the share it keeps.",
                changed=(("water_kept", "100"),),
            ),
        ),
        "procedures/floor-germination",
    ),
    Exercise(
        "days-to-go",
        CHAPTER,
        "days-to-ready",
        (
            Draw("bed_temp_c", 11, 18, 1),
            Pick("reference_temp_c", ("14", "15")),
            Pick("reference_days", ("5", "6")),
            Draw("days_done", 1, 3, 0.5),
            Pick("q10", ("2.25",)),
        ),
        "days_to_ready",
        "At {reference_temp_c} this house’s barley is ready after {reference_days}. Ten degrees more make growth "
        "{q10} times as fast. A piece has lain at {bed_temp_c} for {days_done}. How many days more does it need there?",
        0.1,
        (
            Slip(
                "wrong-way",
                "You turned the pace round. Warmer grows faster, so a warm piece needs fewer days.",
                formula=_wrong_way,
            ),
            Slip(
                "forgot-days-done",
                "That is from the beginning. Take off what has been done.",
                changed=(("days_done", "0"),),
            ),
            Slip(
                "no-pace",
                "You counted each day as one. A day at another temperature counts for more or less than a day.",
                formula=_no_pace,
            ),
        ),
        "calculators/days-to-ready",
        (0.3, 12.0),
    ),
    Exercise(
        "most-heat-that-day",
        CHAPTER,
        "growth-by-day",
        (Draw("day", 2, 6, 1), Draw("bed_temp_c", 12, 20, 1), Pick("moisture", ("42", "44", "45"))),
        "heat_kw",
        "A floor’s windows have to carry off the heat of a piece on its worst day. It grows at {bed_temp_c} and "
        "{moisture}; it is {day} since the cast. Put it into growth, day by day. How much heat may a tonne of barley "
        "make at the most, in kilowatts?",
        0.06,
        (
            Slip(
                "typical-for-most",
                "That is the likely figure. Batches differ: for what has to be carried off, read the upper end.",
                instead="heat_kw",
            ),
        ),
        "calculators/growth-by-day",
        edge="high",
    ),
    Exercise(
        "turn-or-leave",
        CHAPTER,
        "floor-round",
        (
            Draw("depth_cm", 10, 18, 1),
            Draw("bottom_c", 14, 23, 0.1),
            Draw("top_c", 13, 17, 0.1),
            Draw("room_c", 9, 13, 1),
            Draw("hours_since_turning", 3, 13, 1),
            Pick("day", ("2", "3", "4")),
            Beside("piece", 40, 90, 5, "a piece of {} m²"),
            Beside("barley", 3000, 6000, 500, "{} kg of barley"),
        ),
        "action",
        "A round: {piece} of {barley}, day {day}, {depth_cm} deep, bottom {bottom_c}, top {top_c}, room "
        "{room_c}, {hours_since_turning} since turning. The house allows the handbook’s difference. Choose the "
        "sheet yourself; not "
        "every number is needed. What is done first?",
        0.4,
        (
            Slip(
                "by-the-clock", "You went by the hours. The thermometers decide.", formula=_by_the_clock, always=False
            ),
            Slip("by-the-top", "You trusted the top. The bottom decides.", formula=_by_the_top, always=False),
            Slip(
                "hours-forgotten",
                "The thermometers are in order, and it has lain for longer than is accepted.",
                formula=_hours_forgotten,
                always=False,
            ),
            Slip(
                "turned-for-nothing",
                "Nothing is past what is accepted. A turning for nothing breaks roots.",
                formula=_for_nothing,
                always=False,
            ),
            Slip(
                "stop-for-watch",
                "Over what is accepted it is turned; over the stop it is turned now and the shift lead is told.",
                formula=_stop_for_watch,
                always=False,
            ),
        ),
        "procedures/floor-germination",
        among=_ACTIONS,
    ),
    Exercise(
        "trend-of-a-piece",
        CHAPTER,
        "floor-round",
        (
            Made(("earlier_rounds", "bottom_c", "top_c"), _rounds),
            Pick("depth_cm", ("14", "15", "16")),
            Pick("room_c", ("10", "11")),
            Pick("hours_since_turning", ("6",)),
            Pick("day", ("3",)),
            Pick("difference_limit_c", ("3.5", "4", "4.5")),
        ),
        "difference_k",
        "Two rounds before this one, in one turning (hours ago, since turning, bottom and top in °C): "
        "{earlier_rounds}. Now, {hours_since_turning} since turning: bottom {bottom_c}, top {top_c}. The house’s "
        "limit between them is "
        "{difference_limit_c}. If it goes straight on as since the first of the three, in how many hours from now is "
        "the limit there?",
        0.4,
        (
            Slip("from-nothing", "That is from the turning. How far apart are they already?", formula=_from_nothing),
            Slip(
                "bottom-alone",
                "You took the pace of the bottom alone. The top warms as well: take the pace of the difference.",
                formula=_by_the_bottom,
                always=False,
            ),
        ),
        "procedures/floor-germination",
        sum=_straight_on,
    ),
)
