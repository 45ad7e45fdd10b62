"""Turning and ploughing by hand."""

from __future__ import annotations

from bench.drawn.kit import GRAIN, Plate, poly
from bench.drawn.people import Pose, person

_SLIDES = Pose(
    (0.30, 0.74), (0.21, 0.67), (-0.06, 0.42),
    ((0.28, 0.50), (0.40, 0.40)), ((0.16, 0.50), (0.20, 0.42)),
    ((0.14, 0.28), (0.08, 0.02)), ((-0.04, 0.24), (-0.20, 0.02)),
)  # fmt: skip
_LIFTS = Pose(
    (0.12, 0.82), (0.06, 0.72), (-0.05, 0.42),
    ((0.15, 0.54), (0.30, 0.50)), ((0.08, 0.52), (0.16, 0.45)),
    ((0.15, 0.27), (0.06, 0.02)), ((-0.02, 0.24), (-0.14, 0.02)),
)  # fmt: skip
_LETS_FALL = Pose(
    (0.10, 0.89), (0.06, 0.79), (-0.01, 0.48),
    ((0.16, 0.64), (0.31, 0.62)), ((0.12, 0.62), (0.22, 0.54)),
    ((0.05, 0.26), (0.02, 0.02)), ((-0.08, 0.26), (-0.14, 0.02)),
)  # fmt: skip
_PULLS = Pose(
    (0.09, 0.90), (0.05, 0.79), (-0.03, 0.48),
    ((-0.08, 0.64), (-0.17, 0.50)), ((-0.02, 0.62), (-0.10, 0.46)),
    ((0.09, 0.27), (0.12, 0.02)), ((-0.08, 0.27), (-0.17, 0.04)),
)  # fmt: skip
_HEIGHT = 112.0
_FLOOR = 176.0


def turning() -> Plate:
    plate = Plate(
        "turning",
        440,
        "Turning and ploughing by hand, from the side",
        "Above, turning in three moments. One: the person bends the knees and slides the shovel flat along the "
        "floor, "
        "under the whole layer. Two: back straight, knees bent, the load close, the person lifts a shovelful from "
        "the "
        "bottom. Three: the shovel turns over and the grain falls, so that the bottom of the layer lies on top; "
        "between "
        "the old piece and the turned one the floor is bare. Below, ploughing: the person walks and draws a "
        "plough through the "
        "layer, which is loosened into ridges; heat and gas get out, and what lay at the bottom stays there.",
    )
    plate.text(4, 18, "Turning: the bottom comes to the top", strong=True)
    plate.textured(f"M64 {_FLOOR} L72 152 Q98 148 118 153 L118 {_FLOOR} Z", GRAIN)
    plate.path("M64 176 L72 152 Q98 148 118 153")
    plate.path("M40 133 L60 150 L92 172", "tool", 4.5)
    plate.path("M86 169 L124 171 L124 175 L86 175 Z", "blade-edged", 1.5)
    person(plate, 22, _FLOOR - 1, _HEIGHT, _SLIDES)
    _shovel(plate, (160, 126), (176, 120), (212, 118))
    plate.textured("M196 114 Q206 94 226 100 Q238 108 236 116 L196 118 Z", GRAIN)
    plate.path("M196 116 Q206 94 226 100 Q238 108 236 116")
    person(plate, 142, _FLOOR - 1, _HEIGHT, _LIFTS)
    _shovel(plate, (288, 114), (298, 106), (330, 100), over=True)
    for x, y in ((330, 112), (338, 120), (328, 126), (342, 132), (334, 138), (326, 140), (345, 144), (338, 148)):
        plate.path(f"M{x - 4} {y} Q{x} {y - 4} {x + 4} {y} Q{x} {y + 4} {x - 4} {y} Z", "corn", 0, seen=False)
    plate.textured(f"M298 {_FLOOR} Q306 152 334 150 L378 154 L378 {_FLOOR} Z", GRAIN)
    plate.path("M298 176 Q306 152 334 150 L378 154")
    person(plate, 262, _FLOOR - 1, _HEIGHT, _LETS_FALL)
    plate.path("M2 177 L378 177", "line thick", 3)
    for x, words in (
        (4, ("1 slide it flat", "along the floor")),
        (132, ("2 lift, knees bent,", "the load close")),
        (262, ("3 let it fall: the", "top goes below")),
    ):
        plate.lines_of_text(x, 198, *words)
    plate.text(4, 250, "Ploughing: loosen, and no more", strong=True)
    floor = 372.0
    ridges = "".join(f" Q{x + 7} {floor - 40} {x + 16} {floor - 20} L{x + 20} {floor - 14}" for x in range(20, 200, 20))
    plate.textured(f"M2 {floor} L8 {floor - 20}{ridges} L214 {floor} Z", GRAIN)
    plate.path(f"M8 {floor - 20}{ridges}")
    plate.textured(f"M214 {floor} L216 {floor - 26} L378 {floor - 26} L378 {floor} Z", GRAIN)
    plate.path(f"M216 {floor - 26} L378 {floor - 26}")
    person(plate, 286, floor - 1, _HEIGHT, _PULLS)
    plate.path(poly((296, 332), (262, 316), (212, 364), shut=False), "tool", 4.5)
    plate.path("M198 358 L218 352 L224 371 L204 371 Z", "metal", 1.5)
    plate.arrow("M320 284 L356 284")
    for x in (60, 110, 160):
        plate.arrow(f"M{x} 326 Q{x - 6} 314 {x} 302")
    plate.text(64, 290, "heat and gas get out")
    plate.path(f"M2 {floor + 1} L378 {floor + 1}", "line thick", 3)
    plate.lines_of_text(4, 394, "Slowly, lines a hand apart. The bottom stays the", "bottom: the turning is still due.")
    return plate


def _shovel(
    plate: Plate, end: tuple[float, float], hand: tuple[float, float], tip: tuple[float, float], *, over: bool = False
) -> None:
    """A wooden shovel from its end by the hand to the tip of its blade."""
    plate.path(poly(end, hand, tip, shut=False), "tool", 4.5)
    (x, y), down = tip, -4 if over else 4
    slope = (tip[1] - hand[1]) / (tip[0] - hand[0])
    plate.path(
        poly(
            (x - 6, y - 3 - 6 * slope),
            (x + 22, y - 3 + 22 * slope),
            (x + 20, y + down + 20 * slope),
            (x - 6, y + down - 6 * slope),
        ),
        "blade-edged",
        1.5,
    )
