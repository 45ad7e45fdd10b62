"""What a player sees of a run, and a step of its: readings and the clock, no truth."""

from typing import NamedTuple

from .kinds import Read
from .offers import offers_of
from .run import Run
from .setting import Setting


class View(NamedTuple):
    """What a player sees: no truth is in it."""

    minute: int
    where: str
    immersions: int
    event: str
    offered: frozenset[str]
    reads: tuple[Read, ...]
    done: tuple[tuple[int, str, float | None, str], ...]
    unwritten: int
    kiln_called: bool
    kiln_ready: bool
    kiln_at: int | None = None
    """From when the kiln is free by its own word [min]."""
    setting: Setting = Setting()
    locked: tuple[str, ...] = ()
    """Of isolate, lock with its block, and try what was done at the drum, in this order."""
    may_call: bool = True
    """Whether a player that goes by hours calls the kiln itself; in no view of a run is it otherwise."""

    def since(self, *codes: str) -> float:
        """Give the hours since one of some things was done last; 0 where it never was."""
        at = next((minute for minute, code, _, _ in reversed(self.done) if code in codes), self.minute)
        return (self.minute - at) / 60.0

    def last(self, code: str, within_h: float = 1e9) -> Read | None:
        """Give the last reading of a kind, if it is no older than some hours."""
        found = next((read for read in reversed(self.reads) if read.code == code), None)
        return found if found and self.minute - found.minute <= 60.0 * within_h else None


def view_of(run: Run) -> View:
    """Give what a player sees of a run: readings without the truth, and what was done."""
    return View(
        run.minute,
        run.world.where,
        run.world.immersions,
        run.event,
        frozenset(offer.code for offer in offers_of(run)),
        tuple(read._replace(truth=None) for read in run.reads),
        tuple(run.done),
        len(run.unwritten),
        run.kiln_ready is not None,
        "kiln" in run.happened,
        run.kiln_ready,
        run.setting,
        () if run.event else tuple(run.locks),
    )


class Step(NamedTuple):
    """One move and why."""

    move: str
    why: str


def wait(minutes: float, why: str) -> Step:
    """Give a wait, of five minutes at least and a day at most."""
    return Step(f"wa{max(5, min(1440, round(minutes)))}", why)
