"""What is done with a load at the gate: each finding against its limit, the gravest line decides."""

from typing import Literal, NamedTuple

from .limit import Limit, Mark, judge, judge_sign
from .limits.intake_and_storage import (
    ADMIXTURE,
    BEGUN,
    ERGOT,
    FUMIGANT,
    GATE_MOISTURE,
    GATE_TEMP,
    INSECTS,
    NITROGEN,
    SCREENINGS,
    SMELL,
    SPLIT,
)

Word = Literal["take", "rest", "hold", "dry", "dry-rest", "ask", "reject", "stop"]
Says = Literal["take", "watch", "rest", "dry", "ask", "reject", "stop", "not-tested"]
GRAVEST: tuple[Word, ...] = ("stop", "reject", "ask", "dry", "hold", "rest")

FOREIGN = "foreign"
NO_CERTIFICATE, NOBODY_KNOWS, CERTIFICATE = "no-certificate", "nobody-knows", "certificate"

FIGURES: dict[str, Limit] = {
    "screenings_percent": SCREENINGS,
    "nitrogen_percent": NITROGEN,
    "pre_germinated_percent": BEGUN,
    "split_skinned_percent": SPLIT,
    "ergot_g_kg": ERGOT,
    "admixture_percent": ADMIXTURE,
    "temperature_c": GATE_TEMP,
}
"""The figures that are held against an upper limit, by the sheet's question."""

SPOILS_PERCENT, SPOILS_AT_C, SPOILS_DAYS = 17.0, 21.0, 30.0
"""Barley so wet and so warm loses its germination in about so many days [%, C, days]: published (Hellevang 2019, in a
copy)."""


class Signs(NamedTuple):
    """What is seen, smelt and read before anything is measured; None where it is not known yet."""

    smell: str | None
    insects: str | None
    fumigated: str | None


class Germination(NamedTuple):
    """Energy and capacity [%], None where not tested, and the edges of the house."""

    energy: float | None
    capacity: float | None
    energy_least: float
    capacity_wanted: float
    capacity_never_under: float


class Line(NamedTuple):
    """One check: its question, what was found, the edge it was held against, and what it says of the load.

    ``grey`` marks a capacity between never and wanted: it is watched, and the load is held for a fresh sample.
    """

    id: str
    found: float | str | None
    edge: float | str | None
    says: Says
    grey: bool = False


class Verdict(NamedTuple):
    """The word, every line, and the lines that decided."""

    word: Word
    lines: tuple[Line, ...]
    decided: tuple[Line, ...]


def first_stops(signs: Signs) -> tuple[Line, ...]:
    """Give what stops a load before anything else of it is known, since it can hurt people.

    Parameters
    ----------
    signs : Signs
        What is known so far.

    Returns
    -------
    tuple of Line
        A foreign smell, insects, a fumigation of which nobody knows or without its certificate; empty without these.

    Examples
    --------
    >>> [line.id for line in first_stops(Signs("foreign", None, "nobody-knows"))]
    ['smell', 'fumigated']
    >>> first_stops(Signs("musty", "none", None))
    ()
    """
    return tuple(line for line in _lines_of(signs) if line.says == "stop")


def _lines_of(signs: Signs) -> list[Line]:
    lines: list[Line] = []
    if signs.smell is not None:
        says = _says(judge_sign(SMELL, signs.smell), "reject")
        lines.append(Line("smell", signs.smell, SMELL.accept[0], "stop" if signs.smell == FOREIGN else says))
    if signs.insects is not None:
        says = _says(judge_sign(INSECTS, signs.insects), "stop")
        lines.append(Line("insects", signs.insects, INSECTS.accept[0], says))
    if signs.fumigated is not None:
        says = _says(judge_sign(FUMIGANT, signs.fumigated), "stop")
        lines.append(Line("fumigated", signs.fumigated, FUMIGANT.accept[0], says))
    return lines


def _says(mark: Mark | None, at_stop: Says) -> Says:
    return at_stop if mark == "stop" else "watch" if mark == "watch" else "take"


def figure(question: str, value: float | None, most: float) -> Line:
    """Hold a figure against the house's upper limit.

    Parameters
    ----------
    question : str
        A key of ``FIGURES``.
    value : float or None
        What was found, None where it was not tested.
    most : float
        The house's limit: over it the load is not taken; over that of the temperature it waits on the lorry until
        it was asked and tested, as the table of limits says. Between the accepted edge and it, it is watched.

    Examples
    --------
    >>> [figure("screenings_percent", value, 7).says for value in (5, 6, 7.1, None)]
    ['take', 'watch', 'reject', 'not-tested']
    """
    if value is None:
        return Line(question, None, most, "not-tested")
    given = FIGURES[question]
    accepted = min(most, float(given.accept_high if given.accept_high is not None else most))
    mark = judge(given._replace(accept_high=accepted, stop_high=most), value)
    return Line(question, value, most, _says(mark, "ask" if given is GATE_TEMP else "reject"))


def decide(
    signs: Signs,
    moisture: float,
    moisture_most: float,
    germination: Germination,
    figures: dict[str, tuple[float | None, float]],
) -> Verdict:
    """Give the verdict on a load of which enough is known.

    Parameters
    ----------
    signs : Signs
        What was seen, smelt and read.
    moisture, moisture_most : float
        Moisture and the limit at the gate [%].
    germination : Germination
        Energy and capacity; at least one is given, and the capacity with a low energy.
    figures : dict
        Value and limit by question, for the keys of ``FIGURES``.

    Returns
    -------
    Verdict
        ``stop`` before ``reject`` before ``ask`` before ``dry`` before ``hold`` before ``rest``; else ``take``.
        Wet barley is dried while the capacity is repeated, since it cannot lie. ``dry-rest`` where both the moisture
        and a sleeping lot call: it is dried for its rest at once, not for the store.
    """
    wet = judge(GATE_MOISTURE._replace(accept_high=moisture_most, stop_high=moisture_most), moisture)
    lines = (
        *_lines_of(signs),
        Line("moisture", moisture, moisture_most, _says(wet, "dry")),
        *_germination(germination),
        *(figure(question, *figures[question]) for question in FIGURES),
    )
    word: Word = next((grave for grave in GRAVEST if any(_calls_for(line) == grave for line in lines)), "take")
    calls = {_calls_for(line) for line in lines}
    decides = {word} - {"take"}
    if word == "dry" and "rest" in calls and "hold" not in calls:
        word, decides = "dry-rest", {"dry", "rest"}
    return Verdict(word, lines, tuple(line for line in lines if _calls_for(line) in decides))


def _calls_for(line: Line) -> str:
    """The verdict that a line alone would give: a grey one is watched, and the load is held for it."""
    return "hold" if line.grey else line.says


def _germination(seen: Germination) -> tuple[Line, Line]:
    """Dead corns are not taken, sleeping ones are rested; between never and wanted the capacity is repeated."""
    energy: Says = "not-tested"
    if seen.energy is not None:
        energy = "take" if seen.energy >= seen.energy_least else "rest"
    capacity: Says = "not-tested"
    grey = False
    if seen.capacity is not None:
        grey = seen.capacity_never_under <= seen.capacity < seen.capacity_wanted
        capacity = "watch" if grey else "take" if seen.capacity >= seen.capacity_wanted else "reject"
    return (
        Line("energy_percent", seen.energy, seen.energy_least, energy),
        Line("capacity_percent", seen.capacity, seen.capacity_wanted, capacity, grey),
    )
