"""How the warmth of an air rest stands against its limits, typically and for a batch that breathes fast."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import Literal, NamedTuple

from .limits.steeping import REST, REST_COLD, REST_RISE, REST_TEMP
from .lines import Line, passed, worst

Word = Literal[
    "stop",
    "stop-warm-air",
    "stop-cold",
    "may-stop",
    "may-stop-warm-air",
    "may-stop-cold",
    "watch",
    "watch-cold",
    "hold",
]


class RestVerdict(NamedTuple):
    """What a rest passes.

    Attributes
    ----------
    word : str
        ``stop``: a stop is passed; ``may-stop``: only where the batch breathes fast; each with ``-warm-air`` where more
        of this air would not cool the grain, or with ``-cold`` where it gets too cold, there where the batch breathes
        slowly; ``watch``, and ``watch-cold``; ``hold``: nothing is passed.
    lines : list of Line
        What is passed by the typical course, and by the hours planned.
    fast : list of Line
        What only the fast course passes, or passes further.
    slow : list of Line
        What only the slow course passes, or passes further: it gets colder.
    """

    word: Word
    lines: list[Line]
    fast: list[Line]
    slow: list[Line]


def rest_verdict(
    *,
    hours: float,
    warmest_c: float,
    rise_k_h: float,
    warmest_fast_c: float,
    rise_fast_k_h: float,
    cools: tuple[bool, bool] = (True, True),
    coldest_c: float | None = None,
    coldest_slow_c: float | None = None,
) -> RestVerdict:
    """Judge a rest by its warmest grain and its fastest hour.

    Parameters
    ----------
    hours : float
        Length of the rest [h].
    warmest_c, rise_k_h : float
        Warmest grain [C] and most that it warms in an hour [K], typically.
    warmest_fast_c, rise_fast_k_h : float
        The same of a batch that breathes fast.
    cools : tuple of bool, optional
        Whether more suction cools the grain, typically and in a batch that breathes fast.
    coldest_c, coldest_slow_c : float, optional
        Coldest grain, typically and in a batch that breathes slowly [C].

    Returns
    -------
    RestVerdict
        The word and the lines that decided.
    """
    lines = worst(
        [
            passed(REST_TEMP, warmest_c),
            passed(REST_RISE, rise_k_h),
            passed(REST_COLD, coldest_c),
            passed(REST, hours, high_only=True),
        ]
    )
    marks = {line.rule: line.mark for line in lines}
    fast = [
        line
        for line in worst([passed(REST_TEMP, warmest_fast_c), passed(REST_RISE, rise_fast_k_h)])
        if line.mark != marks.get(line.rule)
    ]
    slow = [line for line in worst([passed(REST_COLD, coldest_slow_c)]) if line.mark != marks.get(line.rule)]
    cold = [line for line in (*lines, *slow) if line.rule == REST_COLD.id]
    stops = [any(line.mark == "stop" and line not in cold for line in some) for some in (lines, fast)]
    word: Word = "watch" if lines or fast or slow else "hold"
    if word == "watch" and cold and not fast and all(line.rule in (REST_COLD.id, REST.id) for line in lines):
        word = "watch-cold"
    if marks.get(REST_COLD.id) == "stop":
        word = "stop-cold"  # it ends cold, whatever it began with
    elif stops[0]:
        word = "stop" if cools[0] else "stop-warm-air"
    elif any(line.mark == "stop" for line in slow):
        word = "may-stop-cold"
    elif stops[1]:
        word = "may-stop" if cools[1] else "may-stop-warm-air"
    return RestVerdict(word, lines, fast, slow)
