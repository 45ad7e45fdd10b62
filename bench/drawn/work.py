"""Lifting, and the yard while a lorry tips."""

from __future__ import annotations

from bench.drawn.kit import KEEP_OUT, Plate, box
from bench.drawn.people import BENDS, person


def lift_measures() -> Plate:
    plate = Plate(
        "lift-measures",
        440,
        "What to measure of a lift",
        "Above, a person from the side, bent, with a box in both hands. Hands in front: along the floor from "
        "midway between "
        "the ankles to below the hands. Hands at the start: from the floor up to the knuckles. Hands at the end: "
        "from the "
        "floor up to where the knuckles will be, on a bench. Below, the feet from above: twist is the angle between "
        "straight ahead and the load.",
        fold=312,
    )
    plate.path("M4 236 L376 236", "line thick", 3)
    plate.path(box(182, 164, 64, 46), "carton", 1.5)
    plate.path("M182 178 L246 178", "line", 1.5)
    person(plate, 114, 234, 196, BENDS)
    plate.leader("M108 240 L108 270")
    plate.leader("M176 214 L176 270")
    plate.path("M108 262 L176 262 M114 257 L108 262 L114 267 M170 257 L176 262 L170 267")
    plate.text(4, 290, "1 hands in front", strong=True)
    plate.leader("M180 172 L270 172")
    plate.path("M264 236 L264 174 M259 180 L264 174 L269 180 M259 230 L264 236 L269 230")
    plate.text(272, 210, "2", strong=True)
    plate.path("M296 120 L366 120 M302 120 L302 236 M360 120 L360 236", "limit", 2)
    plate.path(box(304, 74, 54, 46), "carton-ghost", 1.5)
    plate.leader("M296 92 L286 92")
    plate.path("M286 236 L286 94 M281 100 L286 94 L291 100 M281 230 L286 236 L291 230")
    plate.text(310, 160, "3", strong=True)
    plate.lines_of_text(236, 24, "2 hands at the start", "3 hands at the end")
    # From above.
    plate.text(4, 330, "From above", strong=True)
    for x in (74, 110):
        plate.path(
            f"M{x} 388 Q{x + 12} 388 {x + 11} 404 Q{x + 8} 420 {x + 8} 428 Q{x} 436 {x - 8} 428 Q{x - 8} "
            f"420 {x - 11} 404 Q{x - 12} 388 {x} 388 Z",
            "boot-above",
            1.5,
        )
    plate.leader("M92 412 L92 346")
    plate.path("M92 412 L176 362", "limit", 2)
    plate.path("M92 372 Q114 374 124 390 M124 380 L124 391 L114 388")
    plate.path("M168 334 L204 346 L192 382 L156 370 Z", "carton", 1.5)
    plate.text(216, 344, "4 twist, feet still", strong=True)
    plate.lines_of_text(216, 364, "0 straight ahead", "45 over one foot", "90 to the side")
    return plate


def lorry() -> Plate:
    plate = Plate(
        "lorry",
        360,
        "Where not to stand when a lorry tips",
        "A yard from above. A lorry stands with its back to the intake pit. Hatched, where nobody stands: behind "
        "it as far "
        "as it can reverse, on both sides of it as far as it is long when the body is up, and round the pit. A "
        "walkway with "
        "a rail runs outside the hatched ground, with two people on it. The person who guides the driver stands "
        "ahead and "
        "to the side, arm out, where the driver sees them.",
    )
    plate.text(4, 18, "Nobody in the hatched ground", strong=True)
    plate.textured("M14 34 L272 34 L272 226 L14 226 Z", KEEP_OUT)
    plate.path("M14 34 L272 34 L272 226 L14 226 Z", "limit", 2)
    plate.path(box(30, 98, 58, 64), "paper", 1.5)
    plate.path("M44 98 L44 162 M58 98 L58 162 M72 98 L72 162", "line", 1.5)
    plate.fill(box(96, 102, 140, 56), "paper")
    plate.path(box(96, 102, 140, 56), "metal", 1.5)
    plate.path("M104 108 L228 108 L228 152 L104 152 Z", "grain", seen=False)
    plate.path("M242 106 L264 106 Q270 110 270 130 Q270 150 264 154 L242 154 Z", "paper", 1.5)
    plate.path("M258 110 Q262 130 258 150", "line thick", 3)
    plate.arrow("M222 130 L114 130")
    from_above(plate, 326, 92, arm=True)
    plate.leader("M270 122 L314 98")
    plate.lines_of_text(284, 146, "seen by", "the driver")
    plate.leader("M274 212 L282 208")
    plate.path("M4 256 L376 256", "line thick", 3)
    plate.path("M4 290 L376 290", "limit", 2)
    from_above(plate, 40, 273)
    from_above(plate, 72, 273)
    plate.text(96, 278, "walkway behind a rail")
    plate.text(284, 212, "how far it")
    plate.text(284, 229, "could topple")
    plate.text(4, 318, "Pit at the left, lorry with its back to it.")
    plate.text(4, 340, "Lose sight of the driver: the lorry stops.", strong=True)
    return plate


def from_above(plate: Plate, x: float, y: float, arm: bool = False) -> None:
    """A person from above: shoulders, and the cap on them."""
    if arm:
        for d in (f"M{x} {y + 8} L{x - 4} {y + 24}", f"M{x} {y - 8} L{x - 6} {y - 26}"):
            plate.path(d, "limb-edge", 9, stroke_width="9")
            plate.path(d, "limb-jacket", 7, seen=False, stroke_width="7")
    plate.path(
        f"M{x - 7} {y} Q{x - 7} {y - 13} {x} {y - 13} Q{x + 7} {y - 13} {x + 7} {y} Q{x + 7} {y + 13} {x} "
        f"{y + 13} Q{x - 7} {y + 13} {x - 7} {y} Z",
        "shoulders",
        1.6,
    )
    plate.circle(x, y, 6, "limb-cap")
