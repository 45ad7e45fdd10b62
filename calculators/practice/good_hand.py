"""The good hand: a player that sees readings and the clock, no truth, and acts by the handbook's rules and limits.

It reads, holds what it read against the table of limits and the verdicts of ``rules``, does what they ask for, and
says why. It is no better than they are.
"""

from ..rules.limit import edge
from ..rules.limits import casting, floor_germination, steeping
from .good_drum import IRON, drum, drum_orders
from .good_floor import couch, piece, turned_at
from .good_steep import LEAST_DIP_H, hours_needed, rest, water
from .run import CASTS
from .view import Step, View


def next_step(view: View) -> Step:
    """Give the good hand's next move."""
    if view.event and "xo" in view.offered:
        locks = [code for code in IRON if code in view.offered]
        if locks:
            return Step(locks[0], "Iron: isolate, lock, block, try, each time.")
        return Step("xo", "Nobody goes below a rim, past a guard or after anybody.")
    if view.event == "shift":
        if view.unwritten and "wr" in view.offered:
            return Step("wr", "What is not written was not done, for those who come.")
        return _hand_over(view)
    if view.unwritten >= 3 and "wr" in view.offered:
        return Step("wr", "Written while it is fresh.")
    if view.where == "dry":
        return _fill(view)
    if view.where == "water":
        return water(view)
    if view.where == "rest":
        return rest(view)
    if view.where == "couch":
        return couch(view)
    if view.where == "floor":
        return piece(view)
    if view.where == "drum":
        return drum(view)
    return Step("lo", "It is on the kiln.")


def _fill(view: View) -> Step:
    for code, why in (("pl", "The plan is usual."), ("tr", "A scale is zeroed and tared first.")):
        if code in view.offered:
            return Step(code, why)
    return Step("fi", "Fill, and note the first water.")


def _hand_over(view: View) -> Step:
    night_h = 7.5
    orders: list[str] = []
    why = "The next shift does what it is told, and no more."
    if view.where == "water":
        under = view.since("fi", "we")
        target = view.setting.target if view.immersions >= 3 else edge(steeping.SECOND_DRAIN.accept_high) - 0.5
        needed = hours_needed(view, target) if view.immersions >= 2 else 8.0
        ends = max(8.0 if needed is None else needed, LEAST_DIP_H)
        if under + night_h > ends - 0.5:
            left = max(0.0, ends - under)
            orders = [f"dra{left:.1f}", f"sla{left + 0.2:.1f}", "sfo17"]
    elif view.where == "rest":
        rested = view.since("dr")
        usual = 8.0 if view.immersions == 1 else 12.0
        orders = ["sfo17"]
        if view.immersions == 1 and rested + night_h > usual:
            orders.append(f"wea{max(0.0, usual - rested):.1f}")
    elif view.where == "couch":
        lain = view.since(*CASTS)
        orders = [f"bro{edge(casting.COUCH_BOTTOM.accept_high):g}"]
        if lain + night_h > edge(casting.COUCH_HOURS.accept_high):
            orders.append(f"bra{max(0.0, edge(casting.COUCH_HOURS.accept_high) - lain):.1f}")
    elif view.where == "floor":
        lain = (view.minute - turned_at(view)) / 60.0
        hot = f"{edge(floor_germination.BOTTOM.accept_high) - 1.0:g}"
        if view.kiln_called:  # it must not run on over the night: laid open and cool, as a piece that waits
            least = edge(floor_germination.TURNING.accept_low) + 0.1
            first = max(0.2, least - lain)
            again = f"_tua{first + least:.1f}" if first + least < night_h else ""
            return Step(f"ho_opa0.1_tua{first:.1f}{again}", "It is nearly ready: kept cool until the morning’s count.")
        orders = [f"tuo{hot}"]
        if lain + night_h > edge(floor_germination.TURNING.accept_high):
            orders.append(f"tua{max(0.0, edge(floor_germination.TURNING.accept_high) - lain):.1f}")
        orders.append(f"tuo{hot}")
    elif view.where == "drum":
        orders = drum_orders(view, night_h)
    return Step("_".join(["ho", *orders]), why)
