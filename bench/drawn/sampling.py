"""Samples: eight spears of a load, a W over a piece, and the basket in the steep."""

from __future__ import annotations

from bench.drawn.kit import GRAIN, Plate, box, poly
from bench.drawn.people import REACHES, Pose, person
from bench.drawn.work import from_above

_SPEARS = Pose(
    (0.10, 0.90), (0.05, 0.79), (-0.02, 0.48),
    ((0.19, 0.72), (0.33, 0.78)), ((0.14, 0.64), (0.32, 0.62)),
    ((0.05, 0.26), (0.03, 0.02)), ((-0.09, 0.27), (-0.13, 0.02)),
)  # fmt: skip
_PULLS_UP = Pose(
    (0.03, 0.92), (0.0, 0.80), (-0.01, 0.48),
    ((0.17, 0.80), (0.30, 0.92)), ((0.14, 0.70), (0.28, 0.76)),
    ((0.04, 0.26), (0.03, 0.02)), ((-0.07, 0.26), (-0.10, 0.02)),
)  # fmt: skip
_WEIGHS = Pose(
    (0.08, 0.90), (0.03, 0.79), (-0.01, 0.48),
    ((0.10, 0.63), (0.27, 0.66)), ((0.06, 0.62), (0.24, 0.60)),
    ((0.03, 0.26), (0.02, 0.02)), ((-0.05, 0.26), (-0.07, 0.02)),
)  # fmt: skip


def fair_sample() -> Plate:
    plate = Plate(
        "fair-sample",
        640,
        "Where to take a fair sample",
        "Above, a lorry from the side, cut open: a person stands on a platform beside it, behind a rail, and pushes "
        "a spear through the load to its bottom; nobody stands on the grain. Below it the same lorry from above, "
        "with eight numbered sampling points in all parts of the load, some by the walls and some between. Then a "
        "piece on a floor from above: a person with a tin goes along a W, with nine stops that reach the edges and "
        "corners. In section, three points at each stop: top, middle and bottom.",
        fold=336,
    )
    plate.text(4, 18, "A lorry: eight spears, to the bottom", strong=True)
    # From the side.
    plate.textured("M128 92 Q210 80 300 92 L300 148 L128 148 Z", GRAIN)
    plate.path("M128 92 Q210 80 300 92")
    plate.path("M128 76 L128 148 L300 148 L300 76", "shell", 4)
    plate.path("M306 148 L306 96 L334 96 Q346 98 350 122 L354 148 Z", "paper", 1.5)
    plate.path("M326 102 L336 102 Q342 106 344 120 L326 120 Z", "metal", 1.5)
    plate.path("M128 152 L354 152", "line thick", 3)
    for x in (152, 178, 284, 332):
        plate.circle(x, 160, 11, "fan")
        plate.circle(x, 160, 4, "hole")
    plate.path("M2 172 L378 172", "line thick", 3)
    plate.path("M4 104 L120 104 M14 104 L14 172 M108 104 L108 172", "line thick", 3)
    plate.path("M10 104 L10 62 M60 104 L60 62 M116 104 L116 62 M10 62 L116 62 M10 82 L116 82")
    plate.path("M127 46 L166 146", "tool", 4.5)
    person(plate, 96, 102, 78, _SPEARS)
    plate.path("M166 146 L160 138 L168 136 Z", "blade", 1.5)
    plate.text(176, 46, "from the platform, never")
    plate.text(176, 63, "from on top of the load")
    # From above.
    plate.textured(box(4, 194, 296, 92), GRAIN)
    plate.path(box(4, 194, 296, 92), "shell", 4)
    plate.path("M308 204 L334 204 Q344 208 344 240 Q344 272 334 276 L308 276 Z", "paper", 1.5)
    plate.path("M326 210 Q332 240 326 270", "line thick", 3)
    for n, (x, y) in enumerate(
        ((24, 214), (112, 208), (186, 222), (282, 210), (30, 268), (104, 254), (206, 272), (276, 262)), 1
    ):
        plate.number(x, y, n)
    plate.lines_of_text(4, 310, "Each spear is looked at before it is mixed:", "a wet, dark or warm layer decides.")
    # The piece.
    plate.text(4, 362, "A piece: nine stops along a W", strong=True)
    plate.textured(box(4, 374, 372, 112), GRAIN)
    plate.path(box(4, 374, 372, 112), "line thick", 3)
    way = [(16, 386), (62, 430), (104, 476), (148, 430), (190, 386), (232, 430), (276, 476), (320, 430), (364, 386)]
    plate.path(poly(*way, shut=False), "limit", 2)
    for x, y in way:
        plate.circle(x, y, 6, "fan")
    from_above(plate, 252, 424)
    plate.circle(266, 431, 5, "metal")
    # One stop in section.
    plate.textured("M4 520 Q60 514 120 520 L120 572 L4 572 Z", GRAIN)
    plate.path("M4 520 Q60 514 120 520")
    plate.path("M2 574 L122 574", "line thick", 3)
    for y, words in ((526, "top"), (546, "middle"), (566, "bottom")):
        plate.circle(62, y, 6, "fan")
        plate.leader(f"M70 {y} L136 {y}")
        plate.text(140, y + 5, words)
    plate.text(206, 531, "a pinch from each;")
    plate.text(206, 551, "the edges and the")
    plate.text(206, 571, "corners too")
    plate.lines_of_text(
        4, 608, "Then mix, heap, halve, and halve again until about", "200 corns are left. Take them as they lie."
    )
    return plate


def _basket(plate: Plate, x: float, y: float, wide: float, high: float, part: float) -> None:
    """A perforated basket with its lid, cut open; ``part`` of it is full."""
    top = y + high * (1 - part)
    plate.path(box(x, y, wide, high), "paper", 0, seen=False)
    grain = f"M{x} {top} Q{x + wide / 2} {top - 5} {x + wide} {top} L{x + wide} {y + high} L{x} {y + high} Z"
    plate.textured(grain, GRAIN)
    plate.path(poly((x, y), (x, y + high), (x + wide, y + high), (x + wide, y), shut=False), "screen", 2.5)
    plate.path(f"M{x - 3} {y} L{x + wide + 3} {y}", "line thick", 3)


def basket() -> Plate:
    plate = Plate(
        "steep-basket",
        520,
        "The steep basket: weigh in, hang, lift and drain, weigh",
        "Four moments. One: a perforated basket with a lid, cut open, less than half full of barley of known weight, "
        "with room to swell. Two: the steep in section; the basket hangs by a chain from the rail, buried in the "
        "grain at half its depth, not in the free water above. Three: a person on the platform, behind the rail, has "
        "lifted the basket by its chain; it hangs free over the steep and drips, always for the same time. Four: at "
        "a bench the person weighs the basket with the grain in it; the balance reads 242.4 grams.",
        fold=236,
    )
    # Weigh in.
    plate.text(4, 18, "1 Weigh in, shut the lid", strong=True)
    _basket(plate, 34, 66, 92, 104, 0.36)
    plate.path("M70 64 Q80 46 90 64")
    plate.text(80, 100, "room", anchor="middle")
    plate.text(80, 117, "to swell", anchor="middle")
    plate.lines_of_text(4, 198, "known barley; the basket", "less than half full")
    # Hang.
    plate.text(196, 18, "2 Hang at half depth", strong=True)
    plate.fill("M262 84 L368 84 L368 178 L262 178 Z", "water")
    plate.textured("M262 98 Q314 92 368 98 L368 178 L262 178 Z", GRAIN)
    plate.path("M262 98 Q314 92 368 98")
    plate.path("M262 84 L368 84")
    plate.path("M262 66 L262 180 L368 180 L368 66", "shell", 4)
    plate.path("M196 108 L256 108 M206 108 L206 180 M246 108 L246 180 M196 180 L258 180", "line thick", 3)
    plate.path("M200 108 L200 72 M254 108 L254 72 M200 72 L254 72")
    person(plate, 222, 106, 74, REACHES)
    plate.path("M254 72 Q290 52 314 84 L314 122", "chain-line", 2)
    _basket(plate, 302, 124, 24, 28, 0.45)
    plate.lines_of_text(196, 198, "buried in the grain, not", "in the water above it")
    # Lift and drain.
    plate.text(4, 262, "3 Lift, let it drain", strong=True)
    plate.fill("M84 384 L176 384 L176 432 L84 432 Z", "water")
    plate.textured("M84 396 Q130 390 176 396 L176 432 L84 432 Z", GRAIN)
    plate.path("M84 396 Q130 390 176 396")
    plate.path("M84 384 L176 384")
    plate.path("M84 366 L84 434 L176 434 L176 366", "shell", 4)
    plate.path("M4 404 L78 404 M14 404 L14 434 M68 404 L68 434 M2 434 L82 434", "line thick", 3)
    plate.path("M8 404 L8 366 M74 404 L74 366 M8 366 L74 366")
    person(plate, 44, 402, 84, _PULLS_UP)
    plate.path("M69 325 Q90 296 112 286 L126 286 L126 316", "chain-line", 2)
    plate.path("M112 278 L112 292 M104 286 L172 286 L172 366", "line thick", 3)
    _basket(plate, 110, 318, 32, 36, 0.6)
    for x, y in ((114, 362), (126, 370), (136, 360), (122, 380)):
        plate.path(f"M{x} {y} Q{x - 4} {y + 7} {x} {y + 9} Q{x + 4} {y + 7} {x} {y} Z", "drop", 0, seen=False)
    plate.lines_of_text(4, 458, "hanging free; always", "for the same time")
    # Weigh.
    plate.text(196, 262, "4 Weigh, hang it back", strong=True)
    plate.path("M258 384 L376 384 M266 384 L266 434 M368 384 L368 434 M196 434 L378 434", "line thick", 3)
    person(plate, 226, 432, 126, _WEIGHS)
    plate.path("M282 382 L286 360 L352 360 L356 382 Z", "metal", 1.5)
    plate.path("M278 356 L360 356", "line thick", 3)
    _basket(plate, 302, 316, 34, 38, 0.6)
    plate.text(330, 304, "242.4 g", strong=True, anchor="middle")
    plate.lines_of_text(196, 458, "gross: basket and grain", "together; at once back")
    plate.text(4, 502, "Drained longer or shorter than always, it tells nothing.")
    return plate
