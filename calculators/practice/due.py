"""What is due now by plan, page and the basket just weighed: it stands first among what may be done."""

from typing import NamedTuple

from ..rules.limit import edge
from ..rules.limits import casting, steeping
from .run import Run

FRESH_MIN = 60
"""So long a basket says when to drain [min]; made up for teaching."""


class Basket(NamedTuple):
    """A basket of the last hour, and the span that it is held against [%]."""

    value: float
    low: float
    high: float


def is_waiting(run: Run) -> bool:
    """Whether what the plan has next lies more than half an hour ahead."""
    planned = run.planned()
    return planned is not None and planned[0] > run.minute + 30


def wanted(run: Run) -> tuple[float, float]:
    """Give from what to what moisture the present water is drained [%]."""
    if run.world.immersions >= 3:
        near = edge(casting.OFF_TARGET.accept_high)
        return run.setting.target - near, run.setting.target + near
    limit = steeping.FIRST_DRAIN if run.world.immersions == 1 else steeping.SECOND_DRAIN
    return edge(limit.accept_low), edge(limit.accept_high)


def basket(run: Run) -> Basket | None:
    """Give the basket that was weighed in this water within the last hour; None where there is none."""
    since = max(run.last_done("fi", "we") or 0, run.minute - FRESH_MIN)
    read = next((one for one in reversed(run.reads) if one.code == "bd"), None)
    if read is None or read.value is None or read.minute < since:
        return None
    return Basket(read.value, *wanted(run))


def due(run: Run) -> list[str]:
    """Give what is due, the first thing first; blank where nothing is."""
    world = run.world
    if world.where == "water":
        weighed = basket(run)
        if weighed is None:
            return [] if is_waiting(run) else ["bd", "dr"]
        drains = weighed.value > weighed.high or (weighed.value >= weighed.low and not is_waiting(run))
        return ["dr"] if drains else []
    if world.where == "rest":
        planned = run.planned()
        next_one = [planned[1]] if planned and not is_waiting(run) else []
        if world.immersions >= 3:
            return next_one
        return [*(["sl"] if not world.suction else []), *next_one]
    return []
