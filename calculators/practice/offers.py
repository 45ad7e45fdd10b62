"""What may be done now: what is due and stands first, and more. What is not offered cannot be done."""

from .due import due, is_waiting
from .kinds import Ask, Offer
from .looking import MINUTES
from .moves import ACTIONS, READINGS, WAITS
from .run import SHIFT_ENDS, Run, of_day
from .tempts import BY_NAME, IRON

MOISTURE = Ask("moisture", "%", 20.0, 60.0)
BOTTOM = Ask("bottom", "°C", 5.0, 40.0)
CHITS = Ask("chitted", "%", 0.0, 100.0)
READY = Ask("at three quarters and beyond", "%", 0.0, 100.0)
AIR_OFF = Ask("air off", "°C", 5.0, 40.0)
EXPECTED = {"da": AIR_OFF, "bd": MOISTURE, "bp": MOISTURE, "by": BOTTOM, "ch": CHITS, "ac": READY}
"""Readings before which the learner types what is expected."""

DEPTH = Ask("depth", "cm", 6.0, 40.0)
NUMBERS = {
    "wa": Ask("minutes", "min", 5.0, 1440.0),
    "ut": Ask("time, as 0600", "", 0.0, 2359.0),
    "pm": Ask("hours of the first immersion", "h", 4.0, 12.0),
    "cf": DEPTH,
    "cw": DEPTH,
    "br": DEPTH,
    "th": DEPTH,
    "tk": DEPTH,
    "tu": DEPTH,
    "sp": Ask("litres a tonne", "L/t", 5.0, 60.0),
}
"""Moves with a number of their own."""

TAKES = {
    "pl": 5, "pm": 5, "tr": 5, "fi": 15, "ro": 10, "sk": 15, "aw": 5, "ab": 5, "ao": 5, "dr": 10, "so": 5, "sl": 5,
    "sf": 5, "we": 10, "cf": 60, "cw": 60, "cd": 60, "br": 45, "tu": 45, "po": 20, "dt": 20, "fo": 5, "fl": 5, "ff": 5,
    "ko": 5, "th": 30, "tk": 30, "sp": 30, "op": 5, "cl": 5, "ck": 5, "ld": 60, "wr": 5, "ho": 10, "st": 10, "ki": 5,
    "kl": 5, "kt": 5,
}  # fmt: skip
"""What an action takes [min]; made up for teaching."""

_ORDERS = {
    "dry": (),
    "water": ("dr", "sl", "sf", "so", "ab", "ao", "we"),
    "rest": ("we", "dr", "sl", "sf", "so"),
    "couch": ("br", "tu", "op", "cl"),
    "floor": ("tu", "op", "cl", "po"),
    "drum": ("dt", "ff", "fl"),
    "gone": (),
}
"""What the next shift is offered to be told; a link may tell it anything of ``moves.ORDERS``."""
_BY_PLACE = {
    "dry": ("pl", "tr", "fi", "pm", "sm", "lo", "as"),
    "water": ("bd", "wt", "dr", "aw", "ab", "ao", "bp", "ro", "sk", "sm", "ch", "ov", "lo", "as"),
    "rest": ("pr", "we", "sl", "sf", "so", "bd", "bp", "ch", "ov", "cf", "cd", "cw", "sm", "lo", "as"),
    "couch": ("by", "br", "hd", "rt", "sm", "ov", "op", "cl", "lo", "as"),
    "floor": ("by", "tu", "ac", "hd", "rt", "rb", "ov", "th", "tk", "po", "sp", "op", "cl", "ck", "ld",
              "sm", "lo", "as"),
    "drum": ("da", "dt", "pr", "sm", "ff", "fl", "fo", "sp", "ck", "ld", "lo", "as"),
    "gone": ("lo",),
}  # fmt: skip


def offers_of(run: Run) -> tuple[Offer, ...]:
    """Give what may be done now."""
    if run.ended:
        return ()
    if run.event in BY_NAME:
        return _tempted(run)
    codes = list(_BY_PLACE[run.world.where])
    if run.world.where == "dry":
        if run.last_done("pl", "pm") is not None:
            codes = [code for code in codes if code not in ("pl", "pm")]
        if run.tared:
            codes.remove("tr")
    if run.world.where == "drum":
        codes = _at_the_drum(run, codes)
    if run.world.where == "rest" and run.setting.vessel == "drum":
        codes.remove("cd")
        codes.insert(codes.index("cf"), "cd")
    if run.kiln_ready is not None and "ck" in codes:
        codes.remove("ck")
    if "ld" in codes and "kiln" not in run.happened:
        codes.remove("ld")
    first = codes[:2]
    if run.event == "shift":
        first = ["ho"]
        codes = ["wr", *codes]
    elif of_day(run.minute) >= SHIFT_ENDS - 90 and run.shifts:
        codes.append("ho")
    if run.unwritten:
        codes.append("wr")
    if run.event == "shift":
        waits: tuple[str, ...] = ()
        codes = [
            "ho",
            *[
                code
                for code in codes
                if code in ("wr", "lo", "so", "sl", "sf", "dr", "we", "tu", "by", "pr", "dt", "da")
            ],
        ]
    else:
        waits = ("nx", "wa", "ut", "us")
        if run.world.where in ("water", "rest", "couch", "floor", "drum") and is_waiting(run):
            first = [codes[0], "nx"]
        first = _in_front(run, first)
    codes = [*first, *[code for code in dict.fromkeys((*codes, *waits, "st")) if code not in first]]
    offers = (_offer(code, code in first) for code in codes)
    return tuple(one._replace(orders=_ORDERS[run.world.where]) if one.code == "ho" else one for one in offers)


SAMPLES = ("ac", "rb", "rt", "ov")
"""What is read of a sample from the port: with the drum isolated, locked, blocked and tried, in this order."""


def _at_the_drum(run: Run, codes: list[str]) -> list[str]:
    """Give what may be done at a drum: iron has its own order, and a drum that is locked does not turn."""
    left = [code for code in IRON if code not in run.locks]
    found = [code for code in codes if not run.locks or code not in ("dt", "ld")]
    if tuple(run.locks) == IRON:
        found = [*SAMPLES, *found]
    return [*found, *left, *(["ko"] if run.locks else [])]


def _in_front(run: Run, usual: list[str]) -> list[str]:
    """Give the two that stand first: what is due, with prompts what is not yet written, and the usual."""
    found = due(run)
    if run.level == 1 and run.unwritten:
        found.append("wr")
        usual = [code for code in usual if code != run.done[-1][1]]
    return list(dict.fromkeys((*found, *usual)))[:2]


def _offer(code: str, big: bool) -> Offer:
    words = READINGS.get(code) or ACTIONS.get(code) or WAITS[code]
    takes = MINUTES.get(code, TAKES.get(code, 0))
    return Offer(code, words, takes, big, EXPECTED.get(code), NUMBERS.get(code))


def _tempted(run: Run) -> tuple[Offer, ...]:
    tempt = BY_NAME[run.event]
    found = [Offer("xo", tempt.right, tempt.minutes, True), Offer("xx", tempt.quick, 0, True)]
    if tempt.iron:
        taps = [code for code in IRON if code not in run.locks]
        found = [found[1], found[0]._replace(big=False), *(Offer(code, ACTIONS[code], 5, False) for code in taps)]
        found[0], found[2 if taps else 1] = found[0]._replace(big=True), found[2 if taps else 1]._replace(big=True)
    # Which of the two stands first goes by the number: nobody learns a place on the screen.
    big = [one for one in found if one.big]
    if (run.number + len(run.event)) % 2:
        big.reverse()
    return (*big, *[one for one in found if not one.big])
