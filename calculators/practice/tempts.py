"""What tempts: each event with the right way and the quick way, and how the quick way ends.

Offered only when the event is there. The quick way ends the batch: no minutes, no rescue.
"""

from typing import NamedTuple

from .draws import uniform


class Tempt(NamedTuple):
    """An event that tempts.

    ``needs`` says where it can happen: ``steep``, ``rest``, ``emptied``, ``floor``, ``drum`` or ``kiln``. ``iron`` is
    set where isolate, lock with its block, and try come before the right way. ``rule`` is what the still screen says
    when it ended.
    """

    name: str
    needs: str
    see: str
    right: str
    quick: str
    done: str
    chose: str
    rule: str
    page: str
    minutes: int = 20
    iron: bool = False
    fault: str = ""


TEMPTS = (
    Tempt(
        "fallen", "steep",
        "The thermometer has slipped from your hand. It hangs on its cord in the steep, an arm’s length below the rim.",
        "Leave it, note it, fetch the spare",
        "Reach down for it",
        "You fetched the spare and wrote where the other lies.",
        "You reached below the rim for a thermometer.",
        "Head, arm or foot below a rim: gas lies there, and nobody feels it coming. A thermometer is bought again.",
        "safety/confined-vessels", fault="fallen",
    ),
    Tempt(
        "blocked", "rest",
        "The drain runs slowly. A cake of grain lies on the outlet, in reach if you lean over the rim.",
        "Stay out, shut the valve, call, free it from outside",
        "Lean in and pull it loose",
        "The valve was shut, and the outlet freed from outside with the water hose.",
        "You leaned below the rim over grain that breathes.",
        "Carbon dioxide lies over draining grain, below the rim. Nobody leans in.",
        "safety/confined-vessels", 25,
    ),
    Tempt(
        "down", "rest",
        "Somebody lies at the bottom of the empty steep beside yours and does not answer.",
        "Keep out, shout, raise the alarm",
        "Climb down to them",
        "You kept out, raised the alarm and kept others out. The emergency services took over. Talk it "
        "through with your trainer.",
        "You followed somebody down.",
        "Who follows becomes the next one down. Keep out, call, keep others out.",
        "safety/emergency", 60,
    ),
    Tempt(
        "cleaners", "emptied",
        "The steep is empty. The other cleaner wants to be done: both together, inside, with brushes.",
        "Nobody goes in: wash from the rim, ask the shift lead",
        "Go along with them",
        "It was washed from outside. What was left waits for people with a permit.",
        "Two cleaners went into the steep together.",
        "An empty steep still holds gas. Nobody goes in without permit, meter, watcher and a way out.",
        "safety/confined-vessels", 30,
    ),
    Tempt(
        "jam", "floor",
        "The turning machine stands: a shovel handle is jammed in it. It could be pulled out by hand.",
        "Pull it out with the hook",
        "Reach in, it stands anyway",
        "Isolated, locked, blocked, tried: then the handle came out with the hook.",
        "You reached past a guard of a machine that was not isolated, locked, blocked and tried.",
        "Isolate, lock, block, try: in this order, each time. A machine that stands is not a machine that is off.",
        "safety/machinery", 20, True,
    ),
    Tempt(
        "lock", "floor",
        "The turning machine carries somebody else’s lock. Its owner has gone home. The piece is warm.",
        "Leave the lock, turn by hand, call the lead",
        "Take the lock off and start",
        "The lock stayed on. The piece was turned by hand.",
        "You worked under another’s lock.",
        "A lock comes off by the hand that put it on. Nobody else takes it off.",
        "safety/machinery", 60,
    ),
    Tempt(
        "alarm", "floor",
        "The gas alarm beside the floor is dark: somebody has switched it off. Your round is half done.",
        "Out, keep others out, call",
        "Finish the round first",
        "You left and called. The shift lead and competent people took over; the round was done later.",
        "You stayed where an alarm was switched off.",
        "An alarm that sounds, or is off, means: leave. Its silence tells you nothing.",
        "safety/carbon-dioxide", 60, fault="alarm",
    ),
    Tempt(
        "headache", "floor",
        "Your colleague on the floor has a headache, and wants to finish the row before going out.",
        "Both out into the open, call",
        "Let them finish, stay beside them",
        "Both went out at once. Help was called; competent people took over the floor for now.",
        "You stayed where somebody had a headache.",
        "A headache in a malthouse counts as gas. Out, both, at once; call; nobody goes back for a tool.",
        "safety/carbon-dioxide", 60, fault="headache",
    ),
    Tempt(
        "hatch", "drum",
        "A hatch of the drum stands open a hand’s breadth. Behind it a probe hangs askew, in reach of your arm.",
        "Isolate, lock, block, try; call those named for hatches",
        "Reach in, straighten it",
        "Isolated, locked, blocked, tried: then those whom the site has named saw to hatch and probe.",
        "You put an arm into a hatch of a drum.",
        "Head or arm in a hatch: never. A drum starts by its timer, and the gas behind the hatch is not felt.",
        "procedures/drum-germination", 30, True,
    ),
    Tempt(
        "port", "drum",
        "A sample is wanted. The drum turns slowly, and its port comes by once every half hour. It is coming now.",
        "Isolate, lock, block, try, then the port",
        "Take it as it passes",
        "Isolated, locked, blocked, tried: then the sample came out by the spoon.",
        "You reached into a port of a drum that turned.",
        "Past a port only with the drum stopped, isolated, locked, blocked and tried. Slow is strong enough.",
        "procedures/drum-germination", 20, True,
    ),
    Tempt(
        "fan", "drum",
        "It is quiet: the fan of the drum has stopped, with the grain in. A hatch could be opened for air.",
        "Everybody away, keep others out, call",
        "Open the hatch, wait beside it",
        "Everybody went away and stayed out. The shift lead and competent people took over.",
        "You opened a drum whose fan had stopped, and waited beside it.",
        "A drum whose fan stands fills with gas. Open nothing, wait beside nothing.",
        "safety/carbon-dioxide", 60,
    ),
    Tempt(
        "hurry", "kiln",
        "The kiln’s people wave: the last corner is not level, the floor is still warm, they are in a hurry.",
        "Level it from the gangway",
        "Step onto it, quickly",
        "It was levelled from the gangway, with the long rake.",
        "You stepped onto the kiln floor.",
        "Nobody stands on a kiln floor, in its plenum or its duct, while anything can start.",
        "procedures/kiln-hand-over", 15,
    ),
)  # fmt: skip
IRON = ("ki", "kl", "kt")
"""Isolate, lock (with its block), try: in this order, each time."""
BY_NAME = {tempt.name: tempt for tempt in TEMPTS}


def drawn(number: int, faults: tuple[str, ...], level: int) -> tuple[str, ...]:
    """Give the events that tempt in a run: those of its faults, and one or two that the number draws.

    Parameters
    ----------
    number : int
        The number of the run.
    faults : tuple of str
        What is wrong in it.
    level : int
        0 to 5; on levels 0 and 1 only those of the faults.
    """
    found = [tempt.name for tempt in TEMPTS if tempt.fault and tempt.fault in faults]
    own = [tempt.name for tempt in TEMPTS if not tempt.fault and tempt.needs != "drum"]
    drums = [tempt.name for tempt in TEMPTS if tempt.needs == "drum"]
    if level >= 2:
        for which in (1, 2):
            if uniform(number, "tempts", which) < 0.5:
                found.append(own[int(uniform(number, "which tempts", which) * len(own))])
        found.append(drums[int(uniform(number, "at the drum") * len(drums))])
    return tuple(dict.fromkeys(found))


WHERE = {"steep": "water", "rest": "rest", "emptied": "couch", "floor": "floor", "drum": "drum"}


def brought_in(number: int, minute: int, where: str, happened: set[str]) -> str:
    """Give the event that a trainer brings in: one that can come here and has not come; blank where there is none.

    Parameters
    ----------
    number, minute : int
        They draw which, so that the same move is the same event for everybody.
    where : str
        Where the batch is, as ``World.where``.
    happened : set of str
        Events that came before.
    """
    found = [one.name for one in TEMPTS if WHERE.get(one.needs) == where and one.name not in happened]
    return found[int(uniform(number, "brought in", minute) * len(found))] if found else ""
