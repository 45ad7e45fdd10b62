"""The good hand: a player that sees readings and the clock, no truth, and acts by the handbook's rules and limits.

It reads, holds what it read against the table of limits and the verdicts of ``rules``, does what they ask for, and
says why. It is no better than they are.
"""

from ..models.bed import floor
from ..rules import cast as cast_rule
from ..rules import floor as floor_rule
from ..rules import readiness as ready_rule
from ..rules.limit import edge, judge
from ..rules.limits import casting, floor_germination, measuring_moisture, readiness, steeping
from .run import TARGET, of_day
from .steeped import needed_h
from .view import Step, View

_APART_K = edge(floor_germination.DIFFERENCE.accept_high)
IRON = ("ki", "kl", "kt")
BETWEEN_MIN = 240
"""Longest from one look at a couch or a piece to the next [min]: the plan's rounds."""
LEAST_DIP_H = 0.4
CALLED_AHEAD_H = 10.0
"""So long before a piece may be ready the kiln is called [h]: common practice, it has to know."""
FIRST_COUNT_H = 72.0
"""Hours after the cast from which acrospires are counted, each morning."""


def next_step(view: View) -> Step:
    """Give the good hand's next move."""
    if view.event and "xo" in view.offered:
        locks = [code for code in IRON if code in view.offered]
        if locks:
            return Step(locks[0], "Iron: isolate, lock, try, each time.")
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
        return _water(view)
    if view.where == "rest":
        return _rest(view)
    if view.where == "couch":
        return _couch(view)
    if view.where == "floor":
        return _floor(view)
    return Step("lo", "It is on the kiln.")


def _wait(minutes: float, why: str) -> Step:
    return Step(f"wa{max(5, min(1440, round(minutes)))}", why)


def _fill(view: View) -> Step:
    for code, why in (("pl", "The plan is usual."), ("tr", "A scale is zeroed and tared first.")):
        if code in view.offered:
            return Step(code, why)
    return Step("fi", "Fill, and note the first water.")


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


def _needed_h(view: View, target: float) -> float | None:
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
        water.value if water and water.value is not None else 14.0,
        sum(probes) / len(probes) if probes else 15.0,
        target,
    )


def _water(view: View) -> Step:
    under = view.since("fi", "we")
    accepted, most = edge(steeping.IMMERSION.accept_high), edge(steeping.IMMERSION.stop_high)
    if view.immersions == 1:
        return _first_water(view, under, accepted, most)
    given = steeping.SECOND_DRAIN
    target = TARGET if view.immersions >= 3 else edge(given.accept_high) - 0.5
    needed = _needed_h(view, target)
    ends = min(max(accepted if needed is None else needed, LEAST_DIP_H), most - 0.5)
    now = _moisture(view, 0.5)
    if now is None or view.since("bd") > 0.5:
        if under < 0.8 * ends - 0.3:
            return _wait(60.0 * (0.8 * ends - under), f"By the baskets so far it needs {ends:.1f} h.")
        if under < ends - 0.2 or under < 1.0:
            return Step("bd", f"Wanted at this drain: {target:g} %.")
    if under >= ends - 0.1:
        return Step("dr", f"Drained at {ends:.1f} h: the baskets say {target:g} % now.")
    return _wait(60.0 * (ends - under), f"By the baskets it needs {ends:.1f} h in all.")


def _first_water(view: View, under: float, accepted: float, most: float) -> Step:
    if not view.last("wt", under + 0.1):
        return Step("wt", "How warm the water is says how fast it drinks.")
    water = view.last("wt")
    warm = bool(water and water.value is not None and judge(steeping.WATER_TEMP, water.value) != "accept")
    given = steeping.FIRST_DRAIN
    first = 4.5 if warm else accepted - 1.0
    if under < first - 0.1:
        return _wait(60.0 * (first - under), "The basket is weighed before the drain, not after it.")
    found = _moisture(view, 0.6)
    if found is None:
        return Step("bd", f"Wanted at this drain: {given.accept_low:g} to {given.accept_high:g} %.")
    if not any(code == "ov" for _, code, _, _ in view.done):
        return Step("ov", "An oven of the same hour checks the basket.")
    low, high = edge(given.accept_low), edge(given.accept_high)
    if found >= low + (0.4 if under < accepted else 0.0) or under >= most - 0.5:
        if found < high - 2.0 and under < accepted - 0.3:
            return _wait(60.0 * (accepted - under), "It drinks as planned: the plan’s hours.")
        return Step("dr", f"{found:.1f} %: drained within what is accepted, or at the longest immersion.")
    return _wait(45.0, f"{found:.1f} % is under {low:g}: the water stays on, with air.")


def _rest(view: View) -> Step:
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
        return _wait(60.0 * min(3.0, usual - rested), "A rest of eight hours; the probes every three.")
    if view.immersions == 2 and rested < usual - 1.0:
        return _wait(60.0 * min(3.0, usual - 1.0 - rested), "The corns chit in the rest; the probes every three hours.")
    return _cast_or_wait(view, rested)


def _cast_or_wait(view: View, rested: float) -> Step:
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
        found, TARGET, int(chits.more[0]), int(chits.more[1]), "couch", word, warm, rested,
        cast_rule.wanted_for("couch"), edge(steeping.CHIT_LAST_DIP.accept_low),
    )  # fmt: skip
    verdict = cast_rule.decide(seen)
    said = f"{chits.words} {found:.1f} % against {TARGET:g}."
    long = rested >= edge(steeping.REST.stop_high) - 1.5
    if verdict.word == "cast" or (long and TARGET - found <= edge(casting.OFF_TARGET.accept_high)):
        hot = judge(casting.GRAIN_TEMP, warm) != "accept" and warm > edge(casting.GRAIN_TEMP.accept_high)
        return Step("cf20" if hot else "cf30", f"{said} Cast{', thin: it is warm' if hot else ''}.")
    if verdict.word == "wet-again" or long:
        return Step("we", f"{said} Wet again.")
    return _wait(100.0, f"{said} It stays in the rest, and is counted again.")


def _sight(view: View, couch: bool) -> tuple[floor_rule.Sight, list[floor.Round], float]:
    read = view.last("by")
    assert read is not None
    lain = (read.minute - _turned(view)) / 60.0
    day = 1.0 + view.since("cf", "cw") / 24.0
    now = floor.Round(max(lain, 0.1), read.more[3] / 100.0, read.more[0], read.more[1], read.more[2])
    rounds = [now]
    for one in view.reads:
        if one.code == "by" and _turned(view) <= one.minute < read.minute:
            hours = max((one.minute - _turned(view)) / 60.0, 0.1)
            ago = (read.minute - one.minute) / 60.0
            rounds.append(floor.Round(hours, one.more[3] / 100.0, one.more[0], one.more[1], one.more[2], ago))
    oven = view.last("ov", 40.0)
    roots, count = view.last("rt", 8.0), view.last("ac", 30.0)
    guesses = floor.fit(rounds=rounds[:4], day=min(day, 12.0), heat_factor=0.5)
    until = floor_rule.until_turning(
        guesses,
        hours_since_turning=lain,
        difference_limit_k=edge(floor_germination.DIFFERENCE.accept_high),
        couch=couch,
    )
    sight = floor_rule.Sight(
        read.more[0], read.more[1], lain, day,
        hours_to_limit=until.hours.middle, own_readings=len(rounds) > 1, couch=couch, room_c=read.more[2],
        depth_cm=read.more[3], outside_c=read.more[2] - 2.0,
        roots=next((word for word in floor_rule.ROOTS if roots and word in roots.words), None),
        acrospire="three-quarters" if count and count.value is not None and count.value > 50.0 else "shorter",
        moisture=oven.value if oven and not couch and oven.minute > view.minute - 60 * view.since("cf", "cw") else None,
    )  # fmt: skip
    return sight, rounds, until.hours.low


def _is_fresh(view: View) -> bool:
    """Whether the last reading of the layers is of this hour and of the piece as it lies now."""
    read = view.last("by", 1.2)
    return read is not None and read.minute > _turned(view)


def _turned(view: View) -> int:
    return next((minute for minute, code, _, _ in reversed(view.done) if code in ("tu", "br", "cf", "cw")), 0)


def _couch(view: View) -> Step:
    if not _is_fresh(view):
        return Step("by", "A couch is read at its bottom.")
    sight, _, low = _sight(view, couch=True)
    verdict = floor_rule.verdict(sight)
    if {"break-couch", "turn", "turn-now"} & set(verdict.words):
        depth = 10 if sight.bottom_c >= edge(casting.COUCH_BOTTOM.accept_high) else 14
        return Step(f"br{depth}", f"Bottom {sight.bottom_c:.1f} °C after {sight.hours_since_turning:.0f} h: broken.")
    return _wait(60.0 * min(max(low, 0.5), BETWEEN_MIN / 60.0), "It may lie; read again before the limit can come.")


def _floor(view: View) -> Step:
    cast_h = view.since("cf", "cw")
    morning = 6 * 60 <= of_day(view.minute) < 10 * 60
    if not _is_fresh(view):
        return Step("by", "The thermometers say when.")
    if view.last("rt", 7.0) is None:
        return Step("rt", "Roots tell of drought and of lying too long.")
    if morning and not any(code == "ov" for minute, code, _, _ in view.done if view.minute - minute < 12 * 60):
        return Step("ov", "One moisture a day.")
    if cast_h >= FIRST_COUNT_H:
        step = count_step(view)
        if step:
            return step
    sight, _, low = _sight(view, couch=False)
    verdict = floor_rule.verdict(sight)
    if view.kiln_ready and view.last("ac", 2.6) and low > 1.0:
        low = min(low, 2.0)
    ready_soon = bool(view.kiln_called)
    for word in verdict.words:
        step = _floor_action(view, word, sight, ready_soon)
        if step:
            return step
    return _wait(60.0 * min(max(low, 0.5), BETWEEN_MIN / 60.0), "Left alone; read again before a limit can come.")


def _floor_action(view: View, word: str, sight: floor_rule.Sight, ready_soon: bool) -> Step | None:
    lately = {code for minute, code, _, _ in view.done if view.minute - minute < 180}
    depth = sight.depth_cm or 14.0
    said = f"Bottom {sight.bottom_c:.1f}, {sight.apart_k:.1f} K over the top, {sight.hours_since_turning:.0f} h."
    if word in ("turn", "turn-now", "look-for-mould", "plough"):
        if sight.hours_since_turning < 1.0:
            return None
        warm = sight.mean_c > edge(floor_germination.PIECE.accept_high) - 0.5 or sight.bottom_c > 19.0
        cool = sight.mean_c < edge(floor_germination.PIECE.accept_low) + 0.5
        new = max(8.0, depth - 2.0) if warm else min(25.0, depth + 2.0) if cool else depth
        return Step(f"tu{new:.0f}", f"{said} Turned{', thinner' if new < depth else ''}.")
    if word in ("thin", "thin-now") and "th" not in lately and "tu" not in lately and depth > 9.0:
        return Step(f"th{max(8.0, depth - 2.0):.0f}", f"{said} Thinner.")
    if word == "thicken" and "tk" not in lately and "tu" not in lately and depth < 24.0:
        return Step(f"tk{min(25.0, depth + 3.0):.0f}", f"{said} Thicker.")
    if word == "sprinkle" and not ready_soon and view.since("sp") in (0.0,) and view.since("cf", "cw") < 84.0:
        return Step("sp20", "Drier than accepted, and still growing: water.")
    if word in ("open", "close"):
        code = "op" if word == "open" else "cl"
        window = next((c for _, c, _, _ in reversed(view.done) if c in ("op", "cl")), "cl")
        if window != code:
            return Step(code, f"{said} The windows.")
    return None


def count_step(view: View) -> Step | None:
    fresh = view.last("ac", 2.6) is not None
    if not fresh:
        last = view.last("ac")
        if last is not None and view.minute < count_again(view):
            return None
        return Step("ac", "The acrospires decide, not the day.")
    if view.last("rb", 3.0) is None:
        return Step("rb", "The rub beside the count.")
    verdict = _ready(view)
    assert verdict is not None
    goes = verdict.word in ("kiln-now", "late")
    if goes and view.kiln_ready:
        return Step("ld", "The count says now, and the kiln is ready.")
    soon = verdict.wait is not None and verdict.wait.hours <= CALLED_AHEAD_H
    if (goes or soon) and not view.kiln_called:
        return Step("ck", "The kiln is called: the count says now, or soon.")
    hundreds = sum(1 for r in view.reads if r.code == "ac" and view.minute - r.minute < 90)
    if verdict.word == "count-more" and hundreds < 2:
        return Step("ac", "Another hundred is worth its time.")
    return None


def _days(view: View) -> tuple[tuple[tuple[float, ...], ...], float]:
    """Give the counts of today and of the day before, and the hours between."""
    counts = [read for read in view.reads if read.code == "ac"]
    newest = counts[-1].minute
    today = [read.more for read in counts if newest - read.minute <= 120]
    joined = tuple(sum(column) for column in zip(*today, strict=True))
    before = [read for read in counts if newest - read.minute >= 6 * 60]
    if not before:
        return (joined,), 24.0
    return (joined, before[-1].more), min((newest - before[-1].minute) / 60.0, 96.0)


def _ready(view: View) -> ready_rule.Verdict | None:
    if view.last("ac") is None:
        return None
    days, hours = _days(view)
    rub = view.last("rb", 3.0)
    flour = (int(rub.more[0]), int(rub.more[1])) if rub else None
    target, over = edge(readiness.READY.accept_low), edge(readiness.OVERSHOT.accept_high)
    return ready_rule.decide(ready_rule.Seen(days, hours, target, over, flour))


def count_again(view: View) -> float:
    """Give the minute of the next count: after the wait that the verdict gave, and not in the night."""
    last = view.last("ac")
    verdict = _ready(view)
    assert last is not None
    if verdict is None or verdict.wait is None:
        return last.minute + 60.0 * 3.0
    again = last.minute + 60.0 * min(max(verdict.wait.low, 3.0), 24.0)
    late = 20 * 60 + 30
    if of_day(round(again)) > late or of_day(round(again)) < 6 * 60:  # in the night: once more before it
        before = last.minute + late - of_day(last.minute)
        return before if before > last.minute + 150 else last.minute + (6 * 60 - of_day(last.minute)) % 1440
    return again


def _hand_over(view: View) -> Step:
    night_h = 7.5
    orders: list[str] = []
    why = "The next shift does what it is told, and no more."
    if view.where == "water":
        under = view.since("fi", "we")
        target = TARGET if view.immersions >= 3 else edge(steeping.SECOND_DRAIN.accept_high) - 0.5
        needed = _needed_h(view, target) if view.immersions >= 2 else 8.0
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
        lain = view.since("cf", "cw")
        orders = [f"bro{edge(casting.COUCH_BOTTOM.accept_high):g}"]
        if lain + night_h > edge(casting.COUCH_HOURS.accept_high):
            orders.append(f"bra{max(0.0, edge(casting.COUCH_HOURS.accept_high) - lain):.1f}")
    elif view.where == "floor":
        lain = (view.minute - _turned(view)) / 60.0
        hot = f"{edge(floor_germination.BOTTOM.accept_high) - 1.0:g}"
        if view.kiln_called:  # it must not run on over the night: laid open and cool, as a piece that waits
            return Step("ho_opa0.1_tua0.2_tua5", "It is nearly ready: kept cool until the morning’s count.")
        orders = [f"tuo{hot}"]
        if lain + night_h > edge(floor_germination.TURNING.accept_high):
            orders.append(f"tua{max(0.0, edge(floor_germination.TURNING.accept_high) - lain):.1f}")
        orders.append(f"tuo{hot}")
    return Step("_".join(["ho", *orders]), why)
