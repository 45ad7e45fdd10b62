"""The good hand at the drum: air on and off, turnings with the air on, samples behind isolate, lock, block, try."""

from ..rules import drum as drum_rule
from ..rules.limit import edge, judge
from ..rules.limits import drum_germination as limits
from ..rules.limits.floor_germination import MOISTURE
from .good_floor import BETWEEN_MIN, FIRST_COUNT_H, NO_WATER_FROM_H, count_again, count_step, turned_at
from .good_replan import held
from .run import CASTS, of_day
from .view import Step, View, wait

IRON = ("ki", "kl", "kt")
_SAMPLES = ("ac", "rb", "ov")


def drum(view: View) -> Step:
    """Give the next move at a drum with grain in."""
    if view.last("da", 1.2) is None:
        return Step("da", "Does it breathe more than the air carries?")
    step = _air(view) or _turn(view) or _water(view)
    if step:
        return _without_lock(view, step)
    wanted = _sample(view)
    if wanted:
        return _at_the_port(view, wanted)
    if view.locked:
        return Step("ko", "The samples are drawn: the lock comes off by the hand that put it on.")
    due_h = edge(limits.TURNING.accept_high) - (view.minute - turned_at(view)) / 60.0
    again = count_again(view) - view.minute if view.last("ac") else 1e9
    return wait(min(60.0 * max(due_h, 0.1), BETWEEN_MIN, max(again, 5.0)), "Left alone, with its air on.")


def _sight(view: View) -> drum_rule.DrumSight:
    read = view.last("da")
    assert read is not None
    on, off, bed = read.more[:3]
    return drum_rule.DrumSight(
        hours_since_turning=(view.minute - turned_at(view)) / 60.0,
        fan=drum_rule.STOPPED if _fan(view) == "fo" else drum_rule.RUNNING,
        air_on_c=on, air_off_c=off, bottom_c=bed, top_c=None,
    )  # fmt: skip


def _fan(view: View) -> str:
    return next((code for _, code, _, _ in reversed(view.done) if code in ("fo", "fl", "ff", "cd")), "cd")


def _air(view: View) -> Step | None:
    sight = _sight(view)
    assert sight.air_off_c is not None and sight.air_on_c is not None and sight.bottom_c is not None
    rise, bed = sight.air_off_c - sight.air_on_c, sight.bottom_c
    said = f"Air off {rise:+.1f} K over air on, the bed at {bed:.1f} °C"
    warmest = min(edge(limits.BED.accept_high), held(view).setting.warmest_c)
    hot = rise > edge(limits.RISE.accept_high) or bed > warmest
    if hot and _fan(view) != "ff":
        return Step("ff", f"{said}: more air.")
    if _fan(view) == "ff" and rise < edge(limits.RISE.accept_low) - 0.8 and bed < edge(limits.BED.accept_low) + 2.0:
        return Step("fl", f"{said}: less air dries it less.")
    return None


def _turn(view: View) -> Step | None:
    lain = (view.minute - turned_at(view)) / 60.0
    bed = _sight(view).bottom_c or 0.0
    if lain >= edge(limits.TURNING.accept_high) - 0.2:
        return Step("dt", f"It has lain {lain:.0f} h: turned, with its air on.")
    if judge(limits.BED, bed) == "stop" and lain >= 1.0:
        return Step("dt", f"The bed at {bed:.1f} °C: turned, with its air on.")
    return None


def _water(view: View) -> Step | None:
    oven = view.last("ov", 60.0)
    known = oven is not None and oven.value is not None and oven.minute > view.minute - 60 * view.since(*CASTS)
    if not known or view.since("sp") or view.since(*CASTS) >= NO_WATER_FROM_H or "sp" not in view.offered:
        return None
    assert oven is not None and oven.value is not None
    if oven.value < edge(MOISTURE.accept_low):
        return Step("sp20", f"{oven.value:.1f} %: drier than accepted, and still growing. Water, by the sprays.")
    return None


def _without_lock(view: View, step: Step) -> Step:
    if step.move == "dt" and view.locked:
        return Step("ko", "Before it turns, the lock comes off by the hand that put it on.")
    return step


def _sample(view: View) -> Step | None:
    """What a sample is wanted for; the kiln's call and the load need none."""
    morning = 6 * 60 <= of_day(view.minute) < 10 * 60
    if morning and not any(code == "ov" for minute, code, _, _ in view.done if view.minute - minute < 12 * 60):
        return Step("ov", "One moisture a day.")
    if view.since(*CASTS) >= FIRST_COUNT_H:
        return count_step(view)
    return None


def _at_the_port(view: View, wanted: Step) -> Step:
    if wanted.move in _SAMPLES:
        left = [code for code in IRON if code not in view.locked]
        return Step(left[0], "A sample is drawn at the port: isolate, lock, block, try.") if left else wanted
    if view.locked:
        return Step("ko", "The lock comes off by the hand that put it on.")
    return wanted


def drum_orders(view: View, night_h: float) -> list[str]:
    """Give what the next shift is told of a drum."""
    lain = (view.minute - turned_at(view)) / 60.0
    orders = [f"ffo{edge(limits.BED.accept_high):g}"]
    if lain + night_h > edge(limits.TURNING.accept_high):
        orders.append(f"dta{max(0.1, edge(limits.TURNING.accept_high) - lain):.1f}")
    return orders
