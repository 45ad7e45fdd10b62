"""The good hand at the steep: baskets and their fit, probes, chits, and the verdict on the cast.

No truth comes here: a ``View`` is all that is known.
"""

from ..rules import cast as cast_rule
from ..rules.conventions import USUAL_WATER_C
from ..rules.limit import edge, judge
from ..rules.limits import casting, measuring_moisture, steeping
from .steeped import needed_h
from .view import Step, View, wait

LEAST_DIP_H = 0.4


def basket_offset(view: View) -> float:
    """Give by how much the basket reads too wet, where an oven of the same hour says so [points]."""
    for oven in reversed([read for read in view.reads if read.code == "ov"]):
        pairs = [b for b in view.reads if b.code == "bd" and abs(b.minute - oven.minute) <= 45]
        if pairs and pairs[-1].value is not None and oven.value is not None:
            apart = pairs[-1].value - oven.value
            return apart if judge(measuring_moisture.BASKET_OVEN, abs(apart)) != "accept" else 0.0
    return 0.0


def _moisture(view: View, within_h: float) -> float | None:
    read = view.last("bd", within_h)
    return None if read is None or read.value is None else read.value - basket_offset(view)


def hours_needed(view: View, target: float) -> float | None:
    """Give how long the present immersion must be, by the fit of the baskets [h]."""
    turns = [(minute, code != "dr") for minute, code, _, _ in view.done if code in ("fi", "we", "dr")]
    first = turns[0][0]
    off = basket_offset(view)
    baskets = [
        ((read.minute - first) / 60.0, round(read.value - off, 1))
        for read in view.reads
        if read.code == "bd" and read.value is not None
    ]
    water = view.last("wt")
    probes = [max(read.more) for read in view.reads if read.code == "pr"]
    return needed_h(
        tuple(((minute - first) / 60.0, wet) for minute, wet in turns),
        tuple(baskets[-6:]),
        water.value if water and water.value is not None else USUAL_WATER_C,
        sum(probes) / len(probes) if probes else 15.0,
        target,
    )


def water(view: View) -> Step:
    """Give the next move under water."""
    under = view.since("fi", "we")
    accepted, most = edge(steeping.IMMERSION.accept_high), edge(steeping.IMMERSION.stop_high)
    if view.immersions == 1:
        return _first_water(view, under, accepted, most)
    given = steeping.SECOND_DRAIN
    target = view.setting.target if view.immersions >= 3 else edge(given.accept_high) - 0.5
    needed = hours_needed(view, target)
    ends = min(max(accepted if needed is None else needed, LEAST_DIP_H), most - 0.5)
    now = _moisture(view, 0.5)
    if now is None or view.since("bd") > 0.5:
        if under < 0.8 * ends - 0.3:
            return wait(60.0 * (0.8 * ends - under), f"By the baskets so far it needs {ends:.1f} h.")
        if under < ends - 0.2 or under < 1.0:
            return Step("bd", f"Wanted at this drain: {target:g} %.")
    if under >= ends - 0.1:
        return Step("dr", f"Drained at {ends:.1f} h: the baskets say {target:g} % now.")
    return wait(60.0 * (ends - under), f"By the baskets it needs {ends:.1f} h in all.")


def _first_water(view: View, under: float, accepted: float, most: float) -> Step:
    if not view.last("wt", under + 0.1):
        return Step("wt", "How warm the water is says how fast it drinks.")
    water = view.last("wt")
    warm = bool(water and water.value is not None and judge(steeping.WATER_TEMP, water.value) != "accept")
    given = steeping.FIRST_DRAIN
    first = 4.5 if warm else accepted - 1.0
    if under < first - 0.1:
        return wait(60.0 * (first - under), "The basket is weighed before the drain, not after it.")
    found = _moisture(view, 0.6)
    if found is None:
        return Step("bd", f"Wanted at this drain: {given.accept_low:g} to {given.accept_high:g} %.")
    if not any(code == "ov" for _, code, _, _ in view.done):
        return Step("ov", "An oven of the same hour checks the basket.")
    low, high = edge(given.accept_low), edge(given.accept_high)
    if found >= low + (0.4 if under < accepted else 0.0) or under >= most - 0.5:
        if found < high - 2.0 and under < accepted - 0.3:
            return wait(60.0 * (accepted - under), "It drinks as planned: the plan’s hours.")
        return Step("dr", f"{found:.1f} %: drained within what is accepted, or at the longest immersion.")
    return wait(45.0, f"{found:.1f} % is under {low:g}: the water stays on, with air.")


def rest(view: View) -> Step:
    """Give the next move in an air rest."""
    rested = view.since("dr")
    started = next((code for minute, code, _, _ in reversed(view.done) if code in ("so", "sl", "sf", "dr")), "")
    if started == "dr":
        return Step("sl", "Air goes through grain that lies drained.")
    probes = view.last("pr", min(rested, 3.0))
    if probes is None and rested > 0.5:
        return Step("pr", "Grain warms unseen: three places.")
    if probes and probes.more:
        before = next((r for r in reversed(view.reads) if r.code == "pr" and r.minute < probes.minute), None)
        warm = max(probes.more)
        rise = 0.0
        if before and before.more and view.minute - before.minute <= 60.0 * rested and probes.minute > before.minute:
            rise = (warm - max(before.more)) / ((probes.minute - before.minute) / 60.0)
        hot = judge(steeping.REST_TEMP, warm) != "accept" or judge(steeping.REST_RISE, rise) != "accept"
        if hot and started != "sf":
            return Step("sf", f"{warm:.1f} °C in the warmest place, {rise:+.1f} K an hour: full suction.")
        if not hot and started == "sf" and warm < edge(steeping.REST_TEMP.accept_high) - 2.5:
            return Step("sl", "Cool again: low suction dries it less.")
    usual = 8.0 if view.immersions == 1 else edge(steeping.REST.accept_high)
    if view.immersions == 1:
        if rested >= usual - 0.2:
            return Step("we", "The rest is over: the second water.")
        return wait(60.0 * min(3.0, usual - rested), "A rest of eight hours; the probes every three.")
    if view.immersions == 2 and rested < usual - 1.0:
        return wait(60.0 * min(3.0, usual - 1.0 - rested), "The corns chit in the rest; the probes every three hours.")
    return _cast_orwait(view, rested)


def _cast_orwait(view: View, rested: float) -> Step:
    chits = view.last("ch", 1.5)
    if chits is None:
        return Step("ch", "The chits decide about the last water and the cast.")
    found = _moisture(view, 1.5)
    if found is None:
        return Step("bd", "How wet it is, beside how far it has chitted.")
    smell = view.last("sm", 2.0)
    if smell is None:
        return Step("sm", "Sour grain gets no water.")
    probes = view.last("pr", 4.0)
    warm = max(probes.more) if probes and probes.more else 15.0
    word = next((w for w in (cast_rule.SOUR, cast_rule.MUSTY) if w in smell.words), "fresh")
    seen = cast_rule.Seen(
        found, view.setting.target, int(chits.more[0]), int(chits.more[1]), "couch", word, warm, rested,
        cast_rule.wanted_for("couch"), edge(steeping.CHIT_LAST_DIP.accept_low),
    )  # fmt: skip
    verdict = cast_rule.decide(seen)
    said = f"{chits.words} {found:.1f} % against {view.setting.target:g}."
    long = rested >= edge(steeping.REST.stop_high) - 1.5
    short = view.setting.target - found
    if verdict.word == "cast" or (long and short <= edge(casting.OFF_TARGET.accept_high)):
        if view.setting.vessel == "drum":
            return Step("cd", f"{said} Cast, with the fan running.")
        hot = judge(casting.GRAIN_TEMP, warm) != "accept" and warm > edge(casting.GRAIN_TEMP.accept_high)
        return Step("cf20" if hot else "cf30", f"{said} Cast{', thin: it is warm' if hot else ''}.")
    if verdict.word == "wet-again" or long:
        return Step("we", f"{said} Wet again.")
    return wait(100.0, f"{said} It stays in the rest, and is counted again.")
