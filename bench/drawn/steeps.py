"""The steep wet and at rest, in section: what gives water, air and suction, and where the gas lies."""

from __future__ import annotations

from bench.drawn.kit import GAS, GRAIN, Plate, box, poly
from bench.drawn.people import LOOKS_DOWN, REACHES, person

_METRE = 44.0
_LEFT, _RIGHT, _RIM, _EDGE, _TIP, _END = 132.0, 262.0, 84.0, 198.0, 262.0, 290.0
"""Walls, rim, where the cone begins and ends, and the end of its drain."""
_CONE = ((_LEFT, _EDGE), (190.0, _TIP), (190.0, _END))
_CONE_RIGHT = ((204.0, _END), (204.0, _TIP), (_RIGHT, _EDGE))


def _frame(plate: Plate) -> None:
    """Wall, platform with its rail, and the ground."""
    plate.path(poly((_LEFT, _RIM), *_CONE, shut=False), "shell", 4)
    plate.path(poly(*_CONE_RIGHT, (_RIGHT, _RIM), shut=False), "shell", 4)
    plate.path(f"M2 {_RIM + 46} L126 {_RIM + 46}", "line thick", 3)
    plate.path(f"M12 {_RIM + 46} L12 322 M112 {_RIM + 46} L112 322", "line", 1.5)
    plate.path(
        f"M20 {_RIM + 46} L20 {_RIM - 2} M70 {_RIM + 46} L70 {_RIM - 2} M118 {_RIM + 46} L118 {_RIM - 2} "
        f"M20 {_RIM - 2} L118 {_RIM - 2} M20 {_RIM + 22} L118 {_RIM + 22}"
    )
    plate.path("M2 322 L152 322 M244 322 L378 322", "line thick", 3)
    plate.path("M152 322 L152 360 L244 360 L244 322", "line thick", 3)


def wet() -> Plate:
    plate = Plate(
        "steep-wet",
        430,
        "A steep in section while it is wet",
        "A round vessel with a cone below. Barley lies under water that stands a hand’s breadth above it. The water "
        "runs over a weir on the right, and carries light corns to a screen in a trough. An air pipe enters the "
        "cone and "
        "ends in a ring with holes; bubbles rise through the grain. Fresh water comes in from below. A perforated "
        "basket hangs on a chain from the rail, in the middle of the grain. The drain valve under the cone is "
        "shut. A "
        "person stands on a platform, behind the rail, and reaches over the water with a long skimmer.",
    )
    water = f"M{_LEFT} 96 L{_RIGHT} 96 L{_RIGHT} {_EDGE} L204 {_TIP} L204 276 L190 276 L190 {_TIP} L{_LEFT} {_EDGE} Z"
    plate.fill(water, "water")
    plate.textured(
        f"M{_LEFT} 116 Q197 110 {_RIGHT} 116 L{_RIGHT} {_EDGE} L204 {_TIP} L190 {_TIP} L{_LEFT} {_EDGE} Z", GRAIN
    )
    plate.path(f"M{_LEFT} 116 Q197 110 {_RIGHT} 116")
    plate.path(f"M{_LEFT} 96 L{_RIGHT + 8} 96", "line", 1.5)
    _frame(plate)
    # Weir, trough and screen.
    plate.path(f"M{_RIGHT} {_RIM} L{_RIGHT} 95", "paper", 5, stroke_width="6")
    plate.path(f"M{_RIGHT - 6} 94 Q{_RIGHT + 20} 92 {_RIGHT + 22} 110", "air", 2)
    plate.path(f"M{_RIGHT + 4} 118 L{_RIGHT + 4} 142 L{_RIGHT + 56} 142 L{_RIGHT + 56} 118", "line thick", 3)
    plate.path(f"M{_RIGHT + 6} 124 L{_RIGHT + 54} 124", "screen", 2.5)
    for x, y in ((274, 118), (284, 120), (294, 118), (304, 120), (226, 93), (240, 94), (252, 92)):
        plate.path(f"M{x - 4} {y} Q{x} {y - 4} {x + 4} {y} Q{x} {y + 4} {x - 4} {y} Z", "corn", 0, seen=False)
    # Air ring, its pipe, and bubbles.
    plate.path("M300 236 L222 236", "pipe", 7)
    plate.path("M166 232 L228 232", "shell", 4)
    for x, y in (
        (172, 216),
        (184, 190),
        (198, 214),
        (212, 196),
        (222, 216),
        (178, 160),
        (208, 168),
        (240, 180),
        (190, 138),
        (214, 134),
        (244, 150),
        (230, 124),
        (186, 106),
        (212, 104),
        (246, 106),
    ):
        plate.circle(x, y, 2.6, "bubble")
    plate.path("M300 272 L206 272", "pipe", 7)
    plate.arrow("M330 236 L306 236")
    plate.arrow("M330 272 L306 272")
    # Basket.
    plate.path(f"M118 {_RIM - 2} L156 {_RIM - 2} L156 146", "chain-line", 2)
    plate.path(box(145, 146, 22, 30), "basket", 1.5)
    for row in range(4):
        for column in range(3):
            plate.circle(150 + 6 * column, 151 + 7 * row, 1.3, "hole")
    # Drain.
    plate.path("M184 280 L210 292 L210 280 L184 292 Z", "paper", 1.5)
    person(plate, 86, _RIM + 44, 1.7 * _METRE, REACHES)
    plate.path("M104 76 L232 98 M228 92 L244 96 L240 104 L226 102 Z", "tool", 3)
    plate.text(146, 20, "water 10 to 15 cm over the grain")
    plate.leader("M216 26 L216 94")
    plate.lines_of_text(286, 62, "light corns go", "over the weir")
    plate.leader("M300 84 L296 112")
    plate.text(272, 166, "screen, trough")
    plate.lines_of_text(20, 160, "basket,", "mid-depth")
    plate.leader("M70 155 L144 160")
    plate.lines_of_text(20, 218, "air bubbles", "through it all")
    plate.leader("M108 214 L176 214")
    plate.text(334, 241, "air")
    plate.lines_of_text(334, 270, "fresh", "water")
    plate.lines_of_text(20, 276, "ring with", "holes")
    plate.leader("M88 268 L168 236")
    plate.text(216, 306, "drain, shut")
    plate.text(4, 384, "A person works from the platform, behind")
    plate.text(4, 401, "the rail, with long tools.")
    plate.scale(4, 420, _METRE, "1 m")
    return plate


def rest() -> Plate:
    plate = Plate(
        "steep-rest",
        450,
        "The same steep drained, in an air rest: where the gas lies",
        "The water is gone. Hatching shows carbon dioxide between the corns, on top of the grain below the rim, "
        "in the "
        "cone, in the drain pipe and in the channel and pit below the steep. Arrows show the suction fan drawing "
        "air down "
        "through the grain and blowing it to an outlet outside, above head height. A person behind the rail holds "
        "a long "
        "thermometer in the grain, at one of three depths. A broken line at the rim is marked: no head below this "
        "line.",
    )
    plate.textured(f"M{_LEFT} {_RIM + 2} L{_RIGHT} {_RIM + 2} L{_RIGHT} 124 Q197 118 {_LEFT} 124 Z", GAS)
    plate.textured(
        f"M{_LEFT} 124 Q197 118 {_RIGHT} 124 L{_RIGHT} {_EDGE} L204 {_TIP} L190 {_TIP} L{_LEFT} {_EDGE} Z", GRAIN
    )
    plate.textured("M190 262 L204 262 L204 290 L190 290 Z", GAS)
    plate.textured("M154 326 L242 326 L242 358 L154 358 Z", GAS)
    plate.path(f"M{_LEFT} 124 Q197 118 {_RIGHT} 124")
    _frame(plate)
    plate.path(f"M124 {_RIM} L300 {_RIM}", "limit", 2)
    # Suction: down through the grain, to the fan and out.
    for x in (176, 218, 244):
        plate.arrow(f"M{x} 96 L{x} 152")
    plate.path("M160 240 L234 240", "screen", 2.5)
    plate.path("M206 250 L300 250", "pipe", 7)
    plate.path("M324 234 L324 112 L346 112", "pipe", 7)
    plate.circle(322, 252, 17, "fan")
    plate.path("M310 240 L334 264 M334 240 L310 264")
    plate.arrow("M350 112 L374 112")
    plate.path("M358 130 L358 322", "line thick", 3)
    plate.path("M358 40 L358 94", "line thick", 3)
    # Drain, open.
    plate.path("M184 284 L184 296 M210 284 L210 296", "line thick", 3)
    plate.arrow("M197 292 L197 318")
    # Thermometer at three depths.
    person(plate, 90, _RIM + 44, 1.7 * _METRE, LOOKS_DOWN)
    plate.path("M104 66 L160 216", "line thick", 3)
    for x, y in ((134, 146), (147, 181), (160, 216)):
        plate.circle(x, y, 4.5, "drop")
    plate.text(136, 20, "No head below this line: the rim", strong=True)
    plate.leader("M210 26 L210 82")
    plate.lines_of_text(20, 156, "thermometer", "at 3 depths")
    plate.lines_of_text(20, 212, "gas over and", "between the", "corns")
    plate.leader("M110 208 L150 196")
    plate.lines_of_text(20, 280, "gas in cone", "and drain")
    plate.leader("M104 276 L192 272")
    plate.lines_of_text(262, 288, "suction fan", "draws")
    plate.lines_of_text(280, 46, "out, high,", "no people")
    plate.leader("M336 68 L346 102")
    plate.text(66, 348, "gas in pit")
    plate.text(4, 388, "What is drawn down and blown out is gas with air.")
    plate.text(4, 405, "Suction is for the grain: it makes no air for people.")
    plate.scale(4, 432, _METRE, "1 m")
    return plate
