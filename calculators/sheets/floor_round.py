"""A round of the floor: two thermometers, and what to do about them."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise
from math import inf

from ..declare import (
    Answer,
    AskAgain,
    Choice,
    Clock,
    Found,
    Heading,
    Listing,
    Number,
    Option,
    Outcome,
    Rows,
    Sheet,
    Table,
)
from ..figures import fixed, plain_number
from ..floor_view import chart_of, notes_of, reason_of
from ..models import floor
from ..models.floor import Guess, Round, band, fit, hours_until, learnt
from ..models.floor_actions import Sight, actions
from ..models.limits import Limits
from ..questions import number

_OWN = 0.35  # of the doubt about the heat taken away: from here on the readings speak
_BOTTOM_UNDER_TOP_K = 0.5
_FALL_K = 1.0
_LOOK = Limits(0.5, 4.0)

depth_cm = number(
    "depth_cm", "Depth of the piece", "cm", floor.DEPTH_CM, "Measured with a rule, in the middle.", example="15"
)
bottom_c = number("bottom_c", "Bottom", "C", floor.PIECE_C, "Thermometer right down on the floor.", example="17.8")
top_c = number("top_c", "Top", "C", floor.PIECE_C, "A few centimetres under the surface.", example="15.2")
room_c = number("room_c", "Room", "C", floor.ROOM_C, "At the height of the piece.", example="11")
hours_since_turning = number(
    "hours_since_turning", "Since turning", "h", floor.HOURS, "Hours since it was last turned.", example="6"
)
day = Number("day", "Day on the floor", "", 1, 30, "1 is the day of the cast.", example="3", whole=True)
difference_limit_c = number(
    "difference_limit_c",
    "Most that bottom may exceed top",
    "K",
    Limits(0.5, 15.0),
    "Your house’s own limit. 3 to 5 by common practice.",
    example="4",
)
earlier_rounds = Table(
    "earlier_rounds",
    "Earlier rounds",
    (
        Number("hours_ago", "Hours ago", "h", 0.25, 36, example="4"),
        number("since", "Since turning", "h", floor.HOURS, example="2"),
        number("bottom", "Bottom", "C", floor.PIECE_C, example="16.3"),
        number("top", "Top", "C", floor.PIECE_C, example="14.8"),
        number("room", "Room", "C", floor.ROOM_C)._replace(optional=True),
        number("depth", "Depth", "cm", floor.DEPTH_CM)._replace(optional=True),
    ),
    min_rows=0,
    max_rows=12,
    hint="Of this piece today; two in one turning tell most. Room and depth may stay blank.",
    example="4 2 16.4 14.9; 7 7 17.6 14.8",
    optional=True,
    in_view=True,
)
roots = Choice(
    "roots",
    "Roots",
    (
        Option("fresh", "White and fresh"),
        Option("withering", "Brown at the tips, withering"),
        Option("knotted", "Knotted together"),
    ),
    "As you see them in a handful.",
    optional=True,
)
outside_c = number("outside_c", "Outside", "C", Limits(-30.0, 45.0), "For the windows.")._replace(optional=True)
coolest_c = number(
    "coolest_c", "Coolest the piece should be", "C", Limits(2.0, 25.0), "", default="10", source="common practice"
)
warmest_c = number(
    "warmest_c", "Warmest the piece should be", "C", Limits(5.0, 30.0), "", default="18", source="common practice"
)
probe_cm = number("probe_cm", "Top thermometer under the surface", "cm", Limits(0.0, 10.0), "", default="3")
heat_factor = number(
    "heat_factor",
    "Heat against the typical",
    "",
    floor.HEAT_FACTOR,
    "Of your pieces, from your own day-book; 1 when unknown.",
    default="1",
)
read_at = Clock("read_at", "Time of this round", "Then the next turning is given as a clock time.", optional=True)


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
    outside_c: float | None,
    coolest_c: float,
    warmest_c: float,
    probe_cm: float,
    heat_factor: float,
    read_at: datetime | None,
) -> Outcome:
    """Fit the piece to its readings, look ahead, and say what is due."""
    _check_now(bottom_c, top_c, depth_cm, probe_cm, coolest_c, warmest_c)
    now = Round(hours_since_turning, depth_cm / 100, bottom_c, top_c, room_c, 0.0, probe_cm / 100)
    rounds = [now, *_earlier(earlier_rounds or (), now)]
    _check_cooling(rounds)
    guesses = fit(rounds=rounds, day=day, heat_factor=heat_factor)
    weights = [guess.weight for guess in guesses]
    own = learnt(guesses) >= _OWN
    until = band([hours_until(g.differences, difference_limit_c) for g in guesses], weights)
    difference = bottom_c - top_c
    mean = (2 * bottom_c + top_c) / 3
    due = actions(
        Sight(
            difference,
            difference_limit_c,
            until.middle,
            own,
            bottom_c,
            mean,
            coolest_c,
            warmest_c,
            depth_cm,
            room_c,
            outside_c,
            roots,
        )
    )
    heat = band([g.heat_kw_t for g in guesses], weights)
    surface = band([g.surface_w_m2_k for g in guesses], weights)
    look = min(max(until.low if own else until.low / 2, _LOOK.low), _LOOK.high)
    rests = "own readings" if own else "typical heat for the most part"
    found = [
        Found("action", due[0].word, due[0].because, next=reason_of(due)),
        *_when(until, guesses, weights, difference, difference_limit_c, rests, read_at),
        Found("look_again_h", look, "when the limit may come at the earliest, from half an hour to four hours"),
        Found(
            "rests_on_what",
            "readings" if own else "typical",
            f"the readings took away {fixed(100 * learnt(guesses), 0)} % of the doubt about the heat; from "
            f"{fixed(100 * _OWN, 0)} % on they count as the floor’s own",
        ),
        Found("difference_k", difference, f"{plain_number(bottom_c)} − {plain_number(top_c)}"),
        Found("mean_c", mean, f"(2 × {plain_number(bottom_c)} + {plain_number(top_c)}) / 3"),
        Found(
            "heat_kw_t",
            heat.middle,
            f"typical for day {plain_number(day)}{_times(heat_factor)}: "
            f"{fixed(heat_factor * floor.typical_heat(day=day), 2)} kW/t to a factor of two, then fitted to "
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
    ]
    return Outcome(
        tuple(found),
        (Rows("actions", [(action.word, action.because) for action in due]),),
        notes_of(own, until, bottom_c, due),
        (chart_of(guesses, rounds, difference_limit_c),),
    )


def _times(factor: float) -> str:
    return "" if factor == 1.0 else f" × {plain_number(factor)} of this house"


def _check_now(bottom: float, top: float, depth: float, probe: float, coolest: float, warmest: float) -> None:
    if bottom < top - _BOTTOM_UNDER_TOP_K:
        raise AskAgain(
            "bottom_c",
            f"{plain_number(bottom)} °C is under the top’s {plain_number(top)} °C. A piece that warms by its "
            "own breathing is warmest at the floor. Are the two swapped? If the floor really draws the heat "
            f"away, this sheet does not fit: lay the piece thicker. Type a number from "
            f"{plain_number(top - _BOTTOM_UNDER_TOP_K)} to {plain_number(floor.PIECE_C.high)} °C.",
        )
    if probe > depth / 2:
        raise AskAgain(
            "probe_cm",
            f"{plain_number(probe)} cm is below the middle of a piece of {plain_number(depth)} cm. "
            f"Type a number from 0 to {plain_number(depth / 2)} cm.",
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
        if bottom < top - _BOTTOM_UNDER_TOP_K:
            raise AskAgain(
                "earlier_rounds",
                f"row {place}: the bottom, {plain_number(bottom)} °C, is under the top, "
                f"{plain_number(top)} °C. Are the two swapped?",
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
    until: floor.Band,
    guesses: list[Guess],
    weights: list[float],
    difference: float,
    limit: float,
    rests: str,
    read_at: datetime | None,
) -> list[Found]:
    """Hours to the limit, its clock time, and the bottom then; nothing when it is out of sight."""
    if until.middle == inf:
        return []
    found = [
        Found(
            "hours_to_limit",
            until.middle,
            f"{fixed(difference, 1)} K now grows to {fixed(limit, 1)} K; by {rests}, "
            f"{len(guesses)} possible pieces weighed",
            until.low,
            min(until.high, floor.LONGEST_H),
        )
    ]
    place = min(range(len(floor.TIMES)), key=lambda n: abs(floor.TIMES[n] - until.middle))
    bottom = band([g.bottoms[place] for g in guesses], weights)
    found.append(Found("bottom_then_c", bottom.middle, "the bottom’s own course at that hour", bottom.low, bottom.high))
    if read_at is not None:
        found.append(Found("limit_at", read_at + timedelta(hours=until.middle), "time of this round + hours"))
    return found


_MODEL = (
    "heat conducted in a layer that warms from within, with the heat and the loss at the surface fitted to the readings"
)
_RULES = "common practice, by this house’s own limits"

SHEET = Sheet(
    id="floor-round",
    title="Round of the floor",
    purpose="When the piece must be turned, and what else it needs, from its own thermometers.",
    questions=(
        depth_cm,
        bottom_c,
        top_c,
        room_c,
        hours_since_turning,
        day,
        difference_limit_c,
        earlier_rounds,
        roots,
        outside_c,
        coolest_c,
        warmest_c,
        probe_cm,
        heat_factor,
        read_at,
    ),
    answers=(
        Answer(
            "action",
            "What to do",
            kind="verdict",
            words=(
                Option("turn", "Turn it now"),
                Option("thin", "Spread it thinner"),
                Option("thicken", "Lay it thicker"),
                Option("plough", "Plough it"),
                Option("sprinkle", "Sprinkle it"),
                Option("open", "Open the windows"),
                Option("close", "Close the windows"),
                Option("leave", "Leave it"),
            ),
            lead=True,
            rests_on=_RULES,
            trust="Your eyes, nose and hand come first.",
        ),
        Answer(
            "hours_to_limit",
            "Until the limit is reached",
            "h",
            1,
            lead=True,
            rests_on=_MODEL,
            trust="Not yet tried on a measured floor. Conduction and heat capacity are assumptions.",
            next="Turn by the thermometers, not by this hour.",
        ),
        Answer("limit_at", "The limit is reached about", kind="clock", rests_on=_MODEL),
        Answer("look_again_h", "Read again in", "h", 1, lead=True, rests_on="the earliest that the limit may come"),
        Answer(
            "rests_on_what",
            "The hours rest on",
            kind="verdict",
            words=(
                Option("readings", "this floor’s own readings"),
                Option("typical", "typical heat, until there are more readings"),
            ),
            rests_on="how far the readings narrow the heat",
        ),
        Answer("difference_k", "Bottom minus top now", "K", 1, rests_on="the two thermometers"),
        Answer(
            "mean_c",
            "The piece on the whole",
            "C",
            1,
            rests_on="two parts bottom and one part top, as in a layer warmed from within",
        ),
        Answer("bottom_then_c", "Bottom at the limit", "C", 1, rests_on=_MODEL),
        Answer(
            "heat_kw_t",
            "Heat of the piece",
            "kW/t",
            2,
            rests_on=_MODEL,
            trust="A tonne of barley as weighed dry. Rests on 450 kg of it in a cubic metre of piece.",
        ),
        Answer("surface_w_m2_k", "Loss at the surface", "W/m2 K", 0, rests_on=_MODEL),
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
