"""The next shift: it does what the hand-over says, and no more."""

from collections.abc import Sequence

from .draws import normal
from .moves import ACTIONS, Order
from .offers import TAKES, offers_of
from .run import DAY_BEGINS, Run, clock, of_day

LOOKS_MIN = 120
"""Where an order names a temperature, the next shift reads it so often [min]."""


def night(run: Run, orders: Sequence[Order]) -> None:
    """Hand over, and come back at the beginning of the day.

    Parameters
    ----------
    run : Run
        The run; it is changed.
    orders : sequence of Order
        What the next shift is told; nothing else is done.
    """
    from .acts import act

    for line in run.unwritten:
        run.gaps.append(f"{clock(line.minute)}: {line.words}")
    said = orders_in_words(orders)
    run.write(f"Handed over: {said}.")
    run.done.append((run.minute, "ho", None, "you"))
    run.unwritten = []
    run.event = ""
    begun = run.minute
    ends = run.minute + (DAY_BEGINS - of_day(run.minute)) % 1440
    left = list(orders)
    missed = "missed-turning" in run.faults and "missed" not in run.happened
    while run.minute < ends:
        until = min(run.minute + 15, ends)
        run.go_on(until)
        for order in list(left):
            if not _due(run, order, begun):
                continue
            left.remove(order)
            if missed and order.code == "tu":
                missed = False
                run.happened.add("missed")
                continue
            if order.code in {offer.code for offer in offers_of(run)} and run.minute + TAKES[order.code] <= ends + 60:
                act(run, order.code, None, "next shift")
    run.day_began = run.minute
    run.said = "The night is over. Read the book: the next shift did what it was told, and no more."
    run.oven_came()
    if run.kiln_ready is not None and run.kiln_ready <= run.minute:
        run.kiln_calls()


def _due(run: Run, order: Order, begun: int) -> bool:
    if order.after_h is not None:
        return run.minute - begun >= 60.0 * order.after_h
    if (run.minute - begun) % LOOKS_MIN or order.over_c is None:
        return False
    layer = run.world.zones[0].layers[0] + run.world.this.probe_k
    return layer + 0.4 * normal(run.number, "night", run.minute) >= order.over_c


def orders_in_words(orders: Sequence[Order]) -> str:
    """Give what the next shift is told."""
    return "; ".join(_words(order) for order in orders) or "nothing"


def _words(order: Order) -> str:
    what = ACTIONS[order.code].lower()
    return f"{what} after {order.after_h:g} h" if order.after_h is not None else f"{what} over {order.over_c:g} °C"
