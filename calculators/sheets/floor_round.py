"""A round of the floor: two thermometers, and what to do about them."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise

from ..asking.declare import Answer, AskAgain, Chart, Found, Heading, Listing, Option, Outcome, Rows, Sheet
from ..asking.figures import fixed, limits_said, plain_number
from ..models.bed import floor
from ..models.bed.floor import Guess, Round, band, expected_heat, fit, learnt
from ..models.living.bed_days import BED_PERCENT, middle_of
from ..rules.conventions import RECHECK_H, ROUND_EVERY_H, SOON_H
from ..rules.floor import (
    Sight,
    Until,
    Verdict,
    cooler_unexplained,
    hours_left,
    turning_limits,
    unexplained,
    until_turning,
    verdict,
)
from ..rules.limit import edge
from ..rules.limits.floor_germination import TURNING
from ..words import within
from ..words.floor import LABEL, LABELS, because, reason
from ..words.floor_chart import chart_of, notes_of
from ..words.limits import at_edge, book_of
from ..words.questions import floor as ask

_OWN = 0.35  # of the doubt about the heat taken away: from here on the readings speak
_FALL_K = 1.0
_BY_THE_HOURS = "By the hours, before the thermometers."


def work(
    *,
    depth_cm: float,
    bottom_c: float,
    top_c: float,
    room_c: float,
    hours_since_turning: float,
    day: float,
    difference_limit_c: float,
    earlier_rounds: tuple[tuple[float | None, ...], ...] | None,
    roots: str | None,
    smell: str | None,
    mould: str | None,
    acrospire: str | None,
    moisture: float | None,
    lies_as: str | None,
    outside_c: float | None,
    coolest_c: float,
    warmest_c: float,
    probe_cm: float,
    heat_factor: float,
    read_at: datetime | None,
) -> Outcome:
    """Say the stops first; else fit the piece to its readings, look ahead, and say what is due."""
    sight = Sight(
        bottom_c,
        top_c,
        hours_since_turning,
        day,
        difference_limit_k=difference_limit_c,
        coolest_c=coolest_c,
        warmest_c=warmest_c,
        couch=lies_as == "couch" or (lies_as is None and day == 1),
        room_c=room_c,
        depth_cm=depth_cm,
        outside_c=outside_c,
        roots=roots,
        acrospire=acrospire,
        smell=smell,
        mould=mould,
        moisture=moisture,
    )
    found = verdict(sight)
    if found.stops:
        # No forecast beside a stop: what is read now is enough, and nothing else may hold it up.
        again = Found("look_again_h", RECHECK_H, "an hour after what is done about a stop")
        return _outcome(sight, found, (again,))
    if unexplained(sight):
        return _outcome(sight, found, _by_the_clock(sight, read_at))
    _check_now(depth_cm, probe_cm, coolest_c, warmest_c)
    now = Round(hours_since_turning, depth_cm / 100, bottom_c, top_c, room_c, 0.0, probe_cm / 100)
    rounds = [now, *_earlier(earlier_rounds or (), now)]
    _check_cooling(rounds)
    law = {"day": middle_of(day), "heat_factor": heat_factor, "moisture": BED_PERCENT if moisture is None else moisture}
    guesses = fit(rounds=rounds, **law)
    weights = [guess.weight for guess in guesses]
    twice = any(len(group) > 1 for group in floor.turnings(rounds))
    own = twice and learnt(guesses) >= _OWN
    until = until_turning(
        guesses, hours_since_turning=hours_since_turning, difference_limit_k=difference_limit_c, couch=sight.couch
    )
    sight = sight._replace(hours_to_limit=until.hours.middle, own_readings=own)
    found = verdict(sight)
    heat = band([g.heat_kw_t for g in guesses], weights)
    surface = band([g.surface_w_m2_k for g in guesses], weights)
    figures = (
        *_when(until, guesses, weights, sight, read_at),
        Found("look_again_h", *_look(found, until, own)),
        Found(
            "rests_on_what",
            "readings" if own else "typical",
            f"the readings took away {fixed(100 * learnt(guesses), 0)} % of the doubt about the heat; from "
            f"{fixed(100 * _OWN, 0)} % on, and with two rounds in one turning, they count as the floor’s own",
        ),
        Found(
            "heat_kw_t",
            heat.middle,
            f"by the one law on day {plain_number(day)} at {fixed(sight.mean_c, 1)} °C{_times(heat_factor)}: "
            f"{fixed(expected_heat(now=now, **law), 2)} kW/t to a factor of two, then fitted to "
            f"{len(rounds)} round{'s' if len(rounds) > 1 else ''}",
            heat.low,
            heat.high,
        ),
        Found(
            "surface_w_m2_k",
            surface.middle,
            f"typical {plain_number(floor.TYPICAL_SURFACE_W_M2_K)} to a factor of two, then fitted with the heat",
            surface.low,
            surface.high,
        ),
    )
    return _outcome(sight, found, figures, until, chart_of(guesses, rounds, difference_limit_c))


def _outcome(
    sight: Sight, found: Verdict, figures: tuple[Found, ...], until: Until | None = None, chart: Chart | None = None
) -> Outcome:
    """The verdict with its lines, the figures, and what goes with them."""
    bottom, top = plain_number(sight.bottom_c), plain_number(sight.top_c)
    return Outcome(
        (
            Found("action", found.word, because(found.due[0], sight), next=reason(found, sight)),
            *figures,
            Found(
                "difference_k",
                sight.bottom_c - sight.top_c,
                f"{bottom} − {top} = {fixed(sight.bottom_c - sight.top_c, 1)} K",
            ),
            Found("mean_c", sight.mean_c, f"({bottom} + {top}) / 2 = {fixed(sight.mean_c, 1)} °C"),
        ),
        (Rows("actions", [(LABEL[action.word], because(action, sight)) for action in found.due]),),
        notes_of(sight, found, until),
        (chart,) if chart else (),
    )


def _by_the_clock(sight: Sight, read_at: datetime | None) -> tuple[Found, ...]:
    """What can be said while the thermometers are not understood: the hours, and nothing of the heat."""
    left = hours_left(sight.hours_since_turning, couch=sight.couch)
    accepted = plain_number(turning_limits(sight.couch)[1].accept_high or 0)
    beside = book_of(turning_limits(sight.couch)[1], "accept_high")
    over = sight.hours_since_turning >= (turning_limits(sight.couch)[1].accept_high or 0)
    working = (
        f"the {accepted} h accepted are over{beside}"
        if over
        else f"{accepted} h accepted − {plain_number(sight.hours_since_turning)} h = {fixed(left, 1)} h, "
        f"and nothing is "
        "foretold of the heat"
    )
    found = (
        Found("hours_to_limit", left, working, worked="rule" if over else "sum"),
        Found("look_again_h", RECHECK_H, "an hour after the thermometers were checked"),
    )
    at = (
        ()
        if read_at is None
        else (Found("limit_at", read_at + timedelta(hours=left), f"time of this round + {fixed(left, 2)} h"),)
    )
    return (*found, *at)


def _look(found: Verdict, until: Until, own: bool) -> tuple[float, str]:
    """When to read again, and why then [h]."""
    if found.word == "turn":
        return RECHECK_H, "an hour after the turning that is due"
    soonest = until.hours.low if own else until.hours.low / 2
    hours = min(max(soonest, SOON_H), RECHECK_H if "watch" in found.words else ROUND_EVERY_H)
    return hours, "the earliest that a limit may come, half an hour to four"


def _times(factor: float) -> str:
    return "" if factor == 1.0 else f" × {plain_number(factor)} of this house"


def _check_now(depth: float, probe: float, coolest: float, warmest: float) -> None:
    if probe > depth / 2:
        raise AskAgain(
            "probe_cm",
            f"{plain_number(probe)} cm is below the middle of a piece of {plain_number(depth)} cm. "
            f"Type a number from 0 to {limits_said(0.0, depth / 2)[1]} cm.",
        )
    if warmest <= coolest:
        raise AskAgain(
            "warmest_c",
            f"{plain_number(warmest)} °C is not above the coolest, {plain_number(coolest)} °C. "
            f"Type a number over {plain_number(coolest)} °C.",
        )


def _earlier(rows: tuple[tuple[float | None, ...], ...], now: Round) -> list[Round]:
    rounds = []
    for place, (ago, since, bottom, top, room, depth) in enumerate(rows, 1):
        assert ago is not None and since is not None and bottom is not None and top is not None
        if cooler_unexplained(bottom, top, now.room_c if room is None else room):
            raise AskAgain(
                "earlier_rounds",
                f"row {place}: the bottom, {plain_number(bottom)} °C, is under the top, {plain_number(top)} °C, and "
                "the room was cooler. Are the two swapped? If not, leave this round out.",
                place,
            )
        depth_m = now.depth_m if depth is None else depth / 100
        rounds.append(
            Round(
                since,
                depth_m,
                bottom,
                top,
                now.room_c if room is None else room,
                ago,
                min(now.probe_m, depth_m / 2),
            )
        )
    return rounds


def _check_cooling(rounds: list[Round]) -> None:
    for group in floor.turnings(rounds):
        for before, after in pairwise(group):
            if after.bottom_c < before.bottom_c - _FALL_K:
                where = rounds.index(after)
                raise AskAgain(
                    "earlier_rounds" if where else "bottom_c",
                    f"the bottom fell from {plain_number(before.bottom_c)} to {plain_number(after.bottom_c)} °C "
                    f"between two rounds after one turning. A growing piece warms; {plain_number(_FALL_K)} K is "
                    "the most that counts as a slip of reading. Was it turned in between? Then give the hours "
                    "since that turning. If it does cool, there is nothing to turn for: lay it thicker and "
                    "close up.",
                    where or None,
                )


def _when(
    until: Until, guesses: list[Guess], weights: list[float], sight: Sight, read_at: datetime | None
) -> list[Found]:
    """Hours to the first limit, its clock time, and the bottom then."""
    bottom, hours = turning_limits(sight.couch)
    edge = f"{at_edge(bottom, 'accept_high')} at the bottom"
    apart = "" if sight.couch else f"{fixed(sight.difference_limit_k, 1)} K apart, "
    rests = "own readings" if sight.own_readings else "the usual heat of its day for the most part"
    at = until.hours.middle
    found = [
        Found(
            "hours_to_limit",
            at,
            f"first of {apart}{edge}, {at_edge(hours, 'accept_high')} unturned: "
            f"{until.limit.quantity.lower()}; by {rests}, {len(guesses)} pieces weighed",
            until.hours.low,
            until.hours.high,
            next=_BY_THE_HOURS if until.limit.unit == "h" and at > 0 else "",
        )
    ]
    place = min(range(len(floor.TIMES)), key=lambda n: abs(floor.TIMES[n] - at))
    then = band([g.bottoms[place] for g in guesses], weights)
    found.append(Found("bottom_then_c", then.middle, "the bottom’s own course at that hour", then.low, then.high))
    if read_at is not None:
        found.append(Found("limit_at", read_at + timedelta(hours=at), f"time of this round + {fixed(at, 2)} h"))
    return found


_MODEL = (
    "heat conducted in a layer that warms from within, with the heat and the loss at the surface fitted to the readings"
)
_RULES = "the table of limits and common practice, by this house’s own limits where it has some"
_PIECE_C = within.between(0.0, 60.0, "No piece that anybody turns gets so warm or so cold.", "bottom_c", "top_c")

SHEET = Sheet(
    id="floor-round",
    title="Round of the floor",
    purpose="When the piece must be turned, and what else it needs, from its own thermometers.",
    questions=(
        ask.depth_cm,
        ask.bottom_c,
        ask.top_c,
        ask.room_c,
        ask.hours_since_turning,
        ask.day,
        ask.difference_limit_c,
        ask.earlier_rounds,
        ask.roots,
        ask.smell,
        ask.mould,
        ask.acrospire,
        ask.moisture,
        ask.lies_as,
        ask.outside_c,
        ask.coolest_c,
        ask.warmest_c,
        ask.probe_cm,
        ask.heat_factor,
        ask.read_at,
    ),
    answers=(
        Answer(
            "action",
            "What to do",
            kind="verdict",
            words=LABELS,
            lead=True,
            rests_on=_RULES,
            trust="Your eyes, nose and hand come first.",
        ),
        Answer(
            "hours_to_limit",
            "Until the first limit",
            "h",
            1,
            lead=True,
            rests_on=_MODEL,
            trust="Not yet tried on a measured floor. Conduction and heat capacity are assumptions.",
            next="Turn by the thermometers, at this hour at the latest.",
            worked="model",
            within=within.between(0.0, edge(TURNING.highest), "A piece is turned before that.", "bottom_c"),
        ),
        Answer("limit_at", "The first limit is reached about", kind="clock", rests_on=_MODEL),
        Answer(
            "look_again_h",
            "Read again in",
            "h",
            1,
            lead=True,
            rests_on="the earliest that a limit may come",
            worked="rule",
            within=within.between(0.0, edge(TURNING.highest), "A piece is looked at before that.", "bottom_c"),
        ),
        Answer(
            "rests_on_what",
            "The hours rest on",
            kind="verdict",
            words=(
                Option("readings", "this floor’s own readings"),
                Option("typical", "the usual heat of its day, until there are more readings"),
            ),
            rests_on="how far the readings narrow the heat",
        ),
        Answer(
            "difference_k",
            "Bottom minus top now",
            "K",
            1,
            rests_on="the two thermometers",
            within=within.between(-40.0, 40.0, "No thermometers in one piece lie farther apart.", "bottom_c", "top_c"),
        ),
        Answer(
            "mean_c",
            "The piece on the whole",
            "C",
            1,
            rests_on="midway between bottom and top: the mean of the layer lies there to half a kelvin (computed)",
            within=_PIECE_C,
        ),
        Answer("bottom_then_c", "Bottom at that hour", "C", 1, rests_on=_MODEL, worked="model", within=_PIECE_C),
        Answer(
            "heat_kw_t",
            "Heat of the piece",
            "kW/t",
            2,
            rests_on=_MODEL,
            trust=f"A tonne of barley as weighed dry. Rests on {plain_number(floor.BARLEY_KG_M3)} kg of it in a cubic "
            "metre of piece.",
            worked="model",
            within=within.between(0.0, 10.0, "No barley breathes faster.", "bottom_c"),
        ),
        Answer(
            "surface_w_m2_k",
            "Loss at the surface",
            "W/m2 K",
            0,
            rests_on=_MODEL,
            worked="model",
            within=within.between(
                0.0,
                100.0,
                "No surface in a closed room loses more.",
                "room_c",
                "earlier_rounds",
                instead="Check the readings of this round and of the earlier ones.",
            ),
        ),
    ),
    listings=(
        Listing(
            "actions",
            "What is due, the first thing first",
            (Heading("action", "Do", kind="text"), Heading("because", "Because", kind="text")),
        ),
    ),
    work=work,
    sources=(
        "slab-heat",
        "balling",
        "black-treatise",
        "companion-floor-malting",
        "thomson-1824",
        "evans-2024",
        "mueller-2014",
    ),
    story="Piece of batch example-02 on the floor of the example maltings: invented readings.",
)
