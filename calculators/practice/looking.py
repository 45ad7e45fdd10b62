"""The readings: what each shows of the hidden batch, with its noise, its doubt and its minutes.

Noise is drawn by number, reading and minute: the same weighing in the same minute reads the same for all.
"""

from typing import NamedTuple

from ..models.living.readings import BASKET_SD, COUNT_WEIGHT, OVEN_SD
from . import draws
from .setting import PAPER_MOISTURE
from .world import World

MINUTES = {
    "bd": 15, "bp": 5, "wt": 5, "pr": 10, "sm": 5, "ch": 30, "ov": 10,
    "by": 15, "da": 10, "hd": 5, "rt": 5, "ac": 30, "rb": 10, "lo": 0, "as": 5,
}  # fmt: skip
"""What a reading takes [min]; made up for teaching, near what the pages say."""
OVEN_TAKES_MIN = 17 * 60
DRIPPING_POINTS = 2.5
FOUR_IN_FIVE = 1.28


class Found(NamedTuple):
    """What a reading found: a value where it is one number, its doubt (four in five), its words, and what is true."""

    value: float | None
    doubt: float
    words: str
    truth: float | None = None
    more: tuple[float, ...] = ()


def look(world: World, code: str, number: int, minute: int) -> Found:
    """Give what a reading finds.

    Parameters
    ----------
    world : World
        The batch at that minute.
    code : str
        Which reading.
    number, minute : int
        The number of the run and the minute: they draw the noise.
    """
    this = world.this

    def noise(sd: float, *key: object) -> float:
        return sd * draws.normal(number, code, minute, *key)

    middle = world.zones[0]
    if code in ("bd", "bp"):
        drier = (100.0 - PAPER_MOISTURE) / (100.0 - this.lot.barley_moisture)
        shown = middle.drained
        if world.where == "water":  # lifted out and drained, the basket keeps its film
            both = middle.water + this.film_db(number, world.immersions)
            shown = 100.0 * both / (1.0 + both)
        real = 100.0 - (100.0 - shown) * drier + this.basket_points
        drips = DRIPPING_POINTS + noise(1.0, "drips") if code == "bp" else 0.0
        value = round(real + drips + noise(BASKET_SD), 1)
        how = "dripping" if code == "bp" else "drained"
        return Found(value, FOUR_IN_FIVE * (1.2 if drips else 0.5), f"Basket, {how}: {value:.1f} %.", shown)
    if code == "wt":
        value = round(this.water_c + this.probe_k + noise(0.2), 1)
        return Found(value, 0.5, f"Water: {value:.1f} °C.", this.water_c)
    if code == "pr":
        temps = [round(zone.temp_c + this.probe_k + noise(0.3, n), 1) for n, zone in enumerate(world.zones)]
        said = ", ".join(f"{temp:.1f}" for temp in temps)
        return Found(sum(temps) / 3.0, 0.5, f"Probes, middle, side, corner: {said} °C.", middle.temp_c, tuple(temps))
    if code == "ch":
        share = world.chitted()
        tell = draws.counted(number, [share, 1.0 - share], int(200 * COUNT_WEIGHT), code, minute)
        chits = round(tell[0] / COUNT_WEIGHT)
        doubt = 100.0 * FOUR_IN_FIVE * (max(share * (1.0 - share), 0.01) / 100.0) ** 0.5
        return Found(chits / 2.0, doubt, f"Chits: {chits} of 200.", 100.0 * share, (float(chits), 200.0))
    if code == "ov":
        truth = world.as_drained()
        value = round(truth + noise(OVEN_SD), 1)
        return Found(value, FOUR_IN_FIVE * OVEN_SD, f"Oven: {value:.1f} %.", truth)
    if code == "by":
        bottom, top = middle.layers[0], middle.layers[-1]
        found = [round(t + this.probe_k + noise(0.4, n), 1) for n, t in enumerate((bottom, top))]
        room = round(world.room_c(minute) + this.probe_k + noise(0.2, "room"), 1)
        depth = round(100.0 * world.depth_m + noise(0.5, "depth"))
        words = f"Bottom {found[0]:.1f}, top {found[1]:.1f}, room {room:.1f} °C, depth {depth} cm."
        return Found(found[0], 0.6, words, bottom, (found[0], found[1], room, float(depth)))
    if code == "da":
        air = world.air_on_c(minute)
        there = (air, middle.layers[-1], middle.temp_c)
        on, off, bed = (round(t + this.probe_k + noise(0.25, n), 1) for n, t in enumerate(there))
        return Found(
            off, 0.4, f"Air on {on:.1f}, air off {off:.1f}, bed {bed:.1f} °C.", middle.layers[-1], (on, off, bed)
        )
    if code == "ac":
        counts = draws.counted(number, world.classes(), 100, code, minute)
        ready = float(counts[3] + counts[4])
        said = ", ".join(map(str, counts))
        share = 100.0 * sum(world.classes()[3:])
        doubt = 100.0 * FOUR_IN_FIVE * (max(share * (100.0 - share), 100.0) / 1e4 / 100.0) ** 0.5
        return Found(ready, doubt, f"Acrospires in fifths, shortest first: {said}.", share, tuple(map(float, counts)))
    if code == "rb":
        share = min(max(sum(world.classes()[3:]) + 0.05, 0.02), 0.98)
        flour = draws.counted(number, [share, 1.0 - share], 50, code, minute)[0]
        return Found(float(flour), 8.0, f"Rub: {flour} of 50 to flour.", 50.0 * share, (float(flour), 50.0))
    return Found(None, 0.0, _words(world, code, number, minute))


def _words(world: World, code: str, number: int, minute: int) -> str:
    middle, corner = world.zones[0], world.zones[-1]
    if code == "sm":
        flat = world.debt_h > 0.5 or (world.where == "rest" and middle.temp_c > 19.0)
        sour = world.debt_h > 3.0 or middle.temp_c > 27.0
        return f"Smell: {'sour' if sour else 'flat' if flat else 'fresh'}."
    if code == "hd":
        warm = middle.layers[0]
        word = "cool" if warm < 13.0 else "lukewarm" if warm < 18.0 else "warm" if warm < 23.0 else "hot"
        wall = " Warmer by the wall." if corner.layers[0] > warm + 1.5 else ""
        return f"The hand: {word}.{wall}"
    if code == "rt":
        lain = (minute - world.turned) / 60.0
        if middle.growth_h < 20.0:
            return "Roots: only just showing."
        if lain > 16.0:
            return "Roots: knotted."
        if middle.net < 41.0 or middle.growth_h > 150.0:
            return "Roots: withering."
        return f"Roots: {'clinging' if lain > 12.0 else 'fresh'}."
    if code == "as":
        wrong = draws.uniform(number, "as", minute) < 0.15
        hot = middle.temp_c > 18.0
        return f"Asked: “{'I would cool it' if hot != wrong else 'I would leave it as it is'}.” They may be wrong."
    stands = world.where == "rest" and world.suction > 0 and world.suction_broken
    what = {
        "dry": "The barley waits above the steep.",
        "water": "Water over the grain" + (", bubbles all over." if world.air else ", no bubbles."),
        "rest": "The grain lies drained." + (" The suction stands." if stands else ""),
        "couch": "The couch lies as it was cast.",
        "floor": "The piece lies even.",
        "drum": "The drum stands level. " + ("Its fan runs." if world.suction else "Its fan stands."),
        "gone": "The floor is empty.",
    }[world.where]
    return f"Seen: {what}"
