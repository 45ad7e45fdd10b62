"""What a trainer brings into a run that goes on: an event that tempts, or a fault that begins now.

Each has a number, which stands on the trainer's key: a group that looks on does not see which it will be.
"""

from __future__ import annotations

from . import tempts
from .run import Run, clock

BEGIN_NOW = {
    "suction-stops": ("rest",),
    "thermometer": ("water", "rest", "couch", "floor", "drum"),
    "ring": ("water", "rest"),
    "late-kiln": ("water", "rest", "couch", "floor", "drum"),
    "missed-turning": ("couch", "floor", "drum"),
}
"""Fault that can begin in the middle of a run -> where the batch has to be."""
_SAID = {
    "fallen": "A thermometer hangs in the steep",
    "blocked": "The drain runs slowly",
    "down": "Somebody lies in the next steep",
    "cleaners": "Two cleaners, one steep",
    "jam": "The turning machine is jammed",
    "lock": "The turning machine has another’s lock",
    "alarm": "The gas alarm is dark",
    "headache": "A colleague has a headache",
    "hatch": "A hatch of the drum stands open",
    "port": "The port of a turning drum",
    "fan": "The fan of the drum stands",
    "suction-stops": "The suction stops, and nobody says so",
    "thermometer": "The thermometer shows 1 K too little from now on",
    "ring": "The air ring is half blocked from now on",
    "late-kiln": "The kiln will be late",
    "missed-turning": "The next shift will leave out a turning",
}
_WHERE = {"water": "under water", "rest": "in a rest", "couch": "at the couch", "floor": "on the floor"}
BRINGS = (*(tempt.name for tempt in tempts.TEMPTS if tempt.needs != "kiln"), *BEGIN_NOW)
"""In the order of their numbers, from 1."""


def listed() -> list[str]:
    """Give, in the order of their numbers, what each brings in and where the batch has to be."""
    said = []
    for name in BRINGS:
        at = BEGIN_NOW.get(name) or (tempts.WHERE[tempts.BY_NAME[name].needs],)
        said.append(f"{_SAID[name]} ({', '.join(_WHERE.get(one, 'in the drum') for one in at)})")
    return said


def in_words(came: list[tuple[int, float]]) -> tuple[str, ...]:
    """Give what was brought into a run, as its debrief says it."""
    return tuple(
        f"Brought in by the trainer, {clock(minute)}: {_SAID[BRINGS[int(number) - 1]].lower()}."
        for minute, number in came
    )


def chosen(run: Run, number: float | None) -> str:
    """Give the name of what comes: the one with this number, or an event that the run's number draws; blank if none.

    Parameters
    ----------
    run : Run
        As it stands.
    number : float or None
        From 1, as ``BRINGS`` has them; None to have one drawn.
    """
    where = run.world.where
    if number is None:
        return tempts.brought_in(run.number, run.minute, where, run.happened)
    at = int(number) - 1
    name = BRINGS[at] if 0 <= at < len(BRINGS) else ""
    if name in BEGIN_NOW:
        return name if where in BEGIN_NOW[name] and name not in run.faults and _can_begin(run, name) else ""
    fits = bool(name) and tempts.WHERE[tempts.BY_NAME[name].needs] == where and name not in run.happened
    return name if fits else ""


def _can_begin(run: Run, name: str) -> bool:
    if name == "late-kiln":
        return "kiln" not in run.happened
    return name != "suction-stops" or bool(run.world.suction)


def begin(run: Run, name: str) -> None:
    """Let a fault begin at this minute.

    Parameters
    ----------
    run : Run
        The run; it is changed.
    name : str
        Of ``BEGIN_NOW``.
    """
    world = run.world
    world.cut_at(run.minute)
    run.faults = (*run.faults, name)
    if name == "suction-stops":
        world.suction_broken = True
        run.happened.add(name)
    elif name == "thermometer":
        world.this = world.this._replace(probe_k=world.this.probe_k - 1.0)
    elif name == "ring":
        middle, *outer = world.this.places
        places = (middle, *(place._replace(air=place.air * 0.55) for place in outer))
        world.this = world.this._replace(places=places)
