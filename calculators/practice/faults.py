"""What is wrong in a run: picked by the trainer or drawn by the number; a third of numbers have none."""

from typing import NamedTuple

from .draws import uniform

LATE_KILN_H = 14
"""A late kiln is late by so long [h]."""
WARM_WATER_C, WARMER_K = 18.0, 4.0
"""Water that came too warm [C], and by how much at the least it is warmer than planned [K]; made up for teaching."""


class Fault(NamedTuple):
    """One fault.

    Attributes
    ----------
    name : str
        Its name.
    words : str
        What the debrief says it was.
    chosen : str
        What the trainer reads who chooses it, where ``words`` depend on the water that is planned.
    """

    name: str
    words: str
    chosen: str = ""


FAULTS = (
    Fault("tare", "The tare of the basket was written 6 g too light: each basket read some two points too wet."),
    Fault(
        "warm-water",
        "The water came at {came:g} °C, not at {planned:g}.",
        f"The water came at {WARM_WATER_C:g} °C; where {WARM_WATER_C - WARMER_K:g} °C or more was planned, "
        f"{WARMER_K:g} K warmer than that.",
    ),
    Fault("sleepy", "The barley was sleepy: its corns took longer to chit, and some never did."),
    Fault("dislikes-water", "The barley dislikes water: long under it, its corns came late."),
    Fault("suction-stops", "The suction stopped at 02:00."),
    Fault("ring", "The air ring was half blocked: the corners got little air."),
    Fault("thermometer", "The thermometer showed 1 K too little."),
    Fault("missed-turning", "The next shift left out the first turning that it was told of."),
    Fault("late-kiln", f"The kiln was late by {LATE_KILN_H} hours."),
    Fault("fallen", "The thermometer fell into the steep."),
    Fault("alarm", "Somebody had switched an alarm off."),
    Fault("headache", "A colleague had a headache, and that is a sign of gas."),
)
NAMES = tuple(fault.name for fault in FAULTS)
NONE = "none"
LETTERS = "bcdfghjkmnpqrstvwxz23456789"
BELOW = 1 << len(NAMES)
"""A code that reads as this number or a greater one means nothing, whatever the number of the run."""


def _mask(number: int) -> int:
    return int(uniform(number, "code of the faults") * BELOW)


def code_of(number: int, names: tuple[str, ...]) -> str:
    """Give the code of some faults for a number; it does not give them away.

    Parameters
    ----------
    number : int
        The number of the run: the same faults have another code with another number.
    names : tuple of str
        Of ``NAMES``; blank for a run where nothing is wrong.

    Examples
    --------
    >>> drawn_or_read(7, code_of(7, ("ring", "tare")), 4)
    ('tare', 'ring')
    """
    bits = sum(1 << NAMES.index(name) for name in set(names)) ^ _mask(number)
    text = ""
    for _ in range(3):
        bits, place = divmod(bits, 27)
        text += LETTERS[place]
    return text


def drawn_or_read(number: int, faults: str, level: int) -> tuple[str, ...]:
    """Give what is wrong in a run.

    Parameters
    ----------
    number : int
        The number of the run.
    faults : str
        Blank: drawn by the number on levels 4 and 5, none below. ``none``, a code of :func:`code_of`, or names with a
        comma between. What cannot be read counts as blank.
    level : int
        0 to 5.
    """
    if faults == NONE:
        return ()
    named = tuple(name for name in NAMES if name in faults.split(","))
    if named:
        return named
    if len(faults) == 3 and all(letter in LETTERS for letter in faults):
        value = sum(LETTERS.index(letter) * 27**place for place, letter in enumerate(faults))
        bits = value ^ _mask(number)
        if 0 <= bits < BELOW:
            return tuple(name for n, name in enumerate(NAMES) if bits >> n & 1)
    if level < 4 or uniform(number, "faultless") < 1.0 / 3.0:
        return ()
    first = int(uniform(number, "fault", 1) * len(NAMES))
    found = {NAMES[first]}
    if uniform(number, "two faults") < 0.25:
        found.add(NAMES[int(uniform(number, "fault", 2) * len(NAMES))])
    return tuple(name for name in NAMES if name in found)


def warm_water_c(planned_c: float) -> float:
    """Give the water that came too warm [C].

    Parameters
    ----------
    planned_c : float
        Water of the plan [C].

    Examples
    --------
    >>> [warm_water_c(planned_c) for planned_c in (8.0, 14.0, 18.0)]
    [18.0, 18.0, 22.0]
    """
    return max(WARM_WATER_C, planned_c + WARMER_K)


def words_of(names: tuple[str, ...], planned_c: float) -> tuple[str, ...]:
    """Give what the debrief says of faults, where water of ``planned_c`` [C] was planned."""
    came = warm_water_c(planned_c)
    return tuple(fault.words.format(came=came, planned=planned_c) for fault in FAULTS if fault.name in names)
