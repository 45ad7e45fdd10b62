"""Dust, chemicals and ladders: each a scene with people who do it right, and what they leave alone."""

from __future__ import annotations

from math import cos, pi, sin

from bench.drawn.kit import GAS, Plate, box, poly
from bench.drawn.people import WALKS, Pose, person, wears

_SUCKS = Pose(
    (0.06, 0.91), (0.02, 0.79), (-0.02, 0.48),
    ((0.16, 0.82), (0.28, 0.96)), ((0.12, 0.64), (0.23, 0.62)),
    ((0.04, 0.26), (0.03, 0.02)), ((-0.09, 0.27), (-0.12, 0.02)),
)  # fmt: skip
_SWEEPS = Pose(
    (0.16, 0.87), (0.09, 0.77), (-0.02, 0.47),
    ((0.20, 0.62), (0.32, 0.52)), ((0.14, 0.64), (0.22, 0.68)),
    ((0.07, 0.26), (0.05, 0.02)), ((-0.10, 0.26), (-0.16, 0.02)),
)  # fmt: skip
_POURS = Pose(
    (0.07, 0.90), (0.03, 0.79), (-0.01, 0.48),
    ((0.16, 0.71), (0.29, 0.75)), ((0.10, 0.62), (0.24, 0.63)),
    ((0.04, 0.26), (0.03, 0.02)), ((-0.07, 0.26), (-0.10, 0.02)),
)  # fmt: skip
_WORKS_THE_VALVE = Pose(
    (0.02, 0.925), (0, 0.80), (0, 0.48),
    ((0.18, 0.74), (0.34, 0.73)), ((0.14, 0.66), (0.30, 0.62)),
    ((0.04, 0.26), (0.04, 0.02)), ((-0.05, 0.26), (-0.07, 0.02)),
)  # fmt: skip
_CLIMBS = Pose(
    (0.01, 0.93), (-0.03, 0.80), (-0.12, 0.50),
    ((0.09, 0.88), (0.17, 1.02)), ((0.10, 0.76), (0.17, 0.82)),
    ((0.10, 0.44), (0.08, 0.22)), ((0.00, 0.28), (0.09, 0.02)),
)  # fmt: skip
_LEANS_OUT = Pose(
    (-0.24, 0.86), (-0.20, 0.75), (-0.10, 0.47),
    ((-0.34, 0.78), (-0.49, 0.84)), ((0.02, 0.80), (0.16, 0.82)),
    ((0.05, 0.33), (0.08, 0.10)), ((-0.14, 0.26), (-0.22, 0.06)),
)  # fmt: skip


def _burst(plate: Plate, x: float, y: float, r: float) -> None:
    """Where it bangs."""
    points = []
    for n in range(20):
        far = r * (1.0 if n % 2 else 0.55) * (1.0 + 0.12 * ((n * 7) % 3 - 1))
        points.append((x + far * cos(pi * n / 10), y + far * sin(pi * n / 10)))
    plate.path(poly(*points), "burst", 2)


def _specks(plate: Plate, x: float, y: float, wide: float, high: float, count: int) -> None:
    for n in range(count):
        plate.path(
            f"M{x + (n * 37 + n * n * 5) % wide:.0f} {y + (n * 23 + n * n * 3) % high:.0f} l1.6 0.6",
            "speck",
            2.4,
            seen=False,
        )


def _layer(plate: Plate, x: float, y: float, wide: float) -> None:
    """Dust that lies on something."""
    plate.path(f"M{x} {y} Q{x + wide * 0.25} {y - 6} {x + wide / 2} {y - 4} Q{x + wide * 0.8} {y - 7} {x + wide} {y} Z",
               "dust-layer", 1.2)  # fmt: skip


def _no(plate: Plate, x: float, y: float, size: float) -> None:
    plate.path(f"M{x - size} {y - size} L{x + size} {y + size} M{x + size} {y - size} L{x - size} {y + size}", "no", 5)


def dust() -> Plate:
    plate = Plate(
        "dust",
        520,
        "Dust explodes twice: take the layer away before",
        "Above, two moments of one room in section, with an elevator in its corner and dust lying on the beams. One: "
        "a spark in the elevator sets off the cloud inside it, and the shock shakes the dust from the beams. Two: "
        "that dust hangs in the whole room and explodes; wall and roof give way. Below, what is done before. A "
        "person in a mask, in a room with the extraction on, takes the layer off a beam with the long pipe of a "
        "vacuum made for dust. Beside it, crossed out: a person sweeps with a dry broom, and a jet of compressed "
        "air; both make the cloud.",
        fold=260,
    )
    for x, head in ((4, "1 The first bang: small"), (196, "2 The second: all of it")):
        plate.text(x, 18, head, strong=True)
        plate.path(box(x + 16, 66, 34, 146), "metal", 1.5)
        for y in (84, 110, 136, 162, 188):
            plate.path(f"M{x + 22} {y} L{x + 44} {y} L{x + 40} {y + 10} L{x + 26} {y + 10} Z", "line", 1.5)
    # One.
    plate.path("M6 212 L6 56 L176 56 L176 212 M2 214 L180 214", "shell", 4)
    for y, left, right in ((96, 66, 172), (146, 66, 172)):
        plate.path(f"M{left} {y} L{right} {y}", "shell", 4)
        _layer(plate, left, y - 3, right - left)
    _burst(plate, 37, 118, 25)
    _specks(plate, 70, 102, 100, 36, 22)
    _specks(plate, 70, 152, 100, 52, 18)
    # Two.
    plate.path("M198 212 L198 70 M188 52 L232 34 M258 44 L308 30 M328 44 L370 58 M368 84 L378 212 M194 214 L378 214",
               "shell", 4)  # fmt: skip
    _burst(plate, 300, 126, 64)
    _specks(plate, 244, 60, 120, 140, 54)
    plate.lines_of_text(4, 236, "a spark, a hot bearing; it", "shakes the layer down")
    plate.lines_of_text(196, 236, "the dust of the beams", "burns all at once")
    # Before.
    plate.text(4, 290, "So: take the layer away", strong=True)
    plate.text(218, 290, "Never raise it", strong=True)
    plate.path("M2 466 L204 466 M216 466 L378 466", "line thick", 3)
    plate.path("M112 330 L204 330", "shell", 4)
    _layer(plate, 150, 327, 52)
    plate.path("M4 312 L60 312 L60 326", "pipe", 7)
    plate.path("M44 326 L76 326 L84 344 L36 344 Z", "metal", 1.5)
    plate.arrow("M60 368 L60 350")
    person(plate, 92, 464, 112, _SUCKS)
    wears(plate, 92, 464, 112, _SUCKS, "mask")
    plate.path("M112 398 L146 322 L160 326", "tool", 4.5)
    plate.path("M112 398 Q150 412 152 432", "pipe", 7)
    plate.path("M136 432 L176 432 L176 456 L136 456 Z", "metal", 1.5)
    plate.circle(144, 460, 5, "fan")
    plate.circle(168, 460, 5, "fan")
    person(plate, 240, 464, 104, _SWEEPS)
    plate.path("M258 388 L306 456", "tool", 4.5)
    plate.path("M298 452 L314 450 L320 464 L300 464 Z", "blade-edged", 1.5)
    _specks(plate, 304, 404, 66, 58, 30)
    plate.path("M318 330 L334 330 L334 340 L326 340 L326 352 L318 352 Z", "metal", 1.5)
    plate.path("M318 350 Q300 372 306 384", "line", 1.5)
    plate.path("M338 334 L366 324 M340 337 L370 340 M338 340 L362 354", "line", 1.5)
    _no(plate, 298, 430, 24)
    _no(plate, 340, 338, 18)
    plate.lines_of_text(4, 488, "extraction on, mask, a", "vacuum made for dust")
    plate.lines_of_text(218, 488, "broom and compressed", "air make the cloud")
    return plate


def _can(plate: Plate, x: float, y: float) -> None:
    """A can of a cleaning agent, with its label."""
    shoulder = f"Q{x} {y - 42} {x + 8} {y - 42} L{x + 14} {y - 42} L{x + 14} {y - 50} L{x + 24} {y - 50}"
    plate.path(
        f"M{x} {y} L{x} {y - 34} {shoulder} L{x + 24} {y - 42} Q{x + 34} {y - 42} {x + 34} {y - 34} L{x + 34} {y} Z",
        "metal",
        1.5,
    )
    plate.path(box(x + 5, y - 28, 24, 18), "paper", 1.5)
    plate.path(f"M{x + 9} {y - 22} L{x + 25} {y - 22} M{x + 9} {y - 16} L{x + 20} {y - 16}", "line", 1.5)


def chemicals() -> Plate:
    plate = Plate(
        "chemicals",
        680,
        "Cleaning agents: poured into water, never together, used from outside",
        "Three scenes. One: a person with visor, gloves, apron and boots pours alkali or acid from its own labelled "
        "can into a tub that already holds water; an eye wash hangs on the wall behind. Two: two cans, hypochlorite "
        "and acid, have run together on the floor, crossed out; chlorine, hatched, lies along the floor, and a "
        "person walks out, away from it. Three: a vessel in section is washed by a spray head that hangs in it; its "
        "fumes, hatched, fill it; the person stands outside, on a platform behind a rail, head away from the rim, "
        "and works the valve.",
        fold=436,
    )
    plate.text(4, 18, "1 The agent into the water", strong=True)
    plate.path("M2 214 L184 214", "line thick", 3)
    plate.path("M98 100 L122 86 L132 104 L106 118 Z", "metal", 1.5)
    plate.path("M122 86 L132 90 L130 100 Z", "metal", 1.5)
    plate.path(poly((107, 105), (118, 99), (122, 106), (111, 112)), "paper", 1.5)
    person(plate, 62, 212, 140, _POURS)
    wears(plate, 62, 212, 140, _POURS, "visor")
    plate.path("M59 124 L79 122 L88 184 L52 186 Z", "apron", 1.5)
    plate.path("M132 94 Q141 112 141 156", "air", 2)
    plate.fill("M112 168 L172 168 L168 212 L116 212 Z", "water")
    plate.path("M110 150 L116 212 L168 212 L174 150", "shell", 4)
    plate.path("M113 168 L171 168")
    plate.path(box(8, 60, 30, 26), "paper", 1.5)
    plate.path("M13 73 Q23 62 33 73 Q23 84 13 73 Z", "line", 1.5)
    plate.circle(23, 73, 3.5, "hole")
    plate.text(4, 50, "eye wash")
    plate.lines_of_text(192, 66, "Visor or goggles, gloves,", "apron, boots.")
    plate.lines_of_text(192, 112, "Alkali or acid goes into", "the water. Water poured", "into it boils and spits.")
    plate.lines_of_text(192, 178, "Know the eye wash", "before the can is open.")
    # Together.
    plate.text(4, 262, "2 Never together", strong=True)
    plate.textured("M4 390 Q60 364 116 370 Q150 374 204 392 L204 402 L4 402 Z", GAS)
    _can(plate, 30, 366)
    _can(plate, 104, 366)
    plate.path("M48 366 Q62 394 82 398 Q104 394 122 366", "air", 2)
    _no(plate, 85, 342, 32)
    plate.path("M2 404 L378 404", "line thick", 3)
    person(plate, 284, 402, 104, WALKS)
    plate.arrow("M316 346 L356 346")
    plate.text(4, 298, "hypochlorite")
    plate.text(108, 298, "acid")
    plate.text(192, 280, "Chlorine: heavy, it kills.")
    plate.text(4, 424, "Out, upwind, call. One agent at a time; rinse between.")
    # From outside.
    plate.text(4, 460, "3 Wash from outside", strong=True)
    plate.textured("M206 528 L340 528 L340 604 L286 642 L260 642 L206 604 Z", GAS)
    plate.path("M206 514 L206 604 L260 642 L260 666 M286 666 L286 642 L340 604 L340 514", "shell", 4)
    plate.path("M160 500 L273 500 L273 542", "pipe", 7)
    plate.circle(273, 550, 9, "fan")
    for x, y in ((214, 540), (216, 572), (232, 610), (314, 610), (330, 572), (332, 540)):
        plate.path(f"M{273 + (x - 273) * 0.2:.0f} {550 + (y - 550) * 0.2 + 2:.0f} L{x} {y}", "jet", 2, seen=False)
    plate.path("M2 576 L188 576 M12 576 L12 668 M178 576 L178 668 M2 668 L378 668", "line thick", 3)
    plate.path("M160 503 L160 562 M152 534 L168 542 M152 542 L168 534", "line", 1.5)
    plate.path("M104 576 L104 534 M182 576 L182 534 M104 534 L182 534 M10 576 L10 534 M10 534 L104 534")
    person(plate, 128, 574, 92, _WORKS_THE_VALVE)
    plate.arrow("M273 644 L273 660")
    plate.lines_of_text(4, 492, "outside, behind", "the rail")
    plate.lines_of_text(290, 486, "fumes stay in", "the vessel")
    plate.text(24, 622, "nobody goes in")
    return plate


def ladders() -> Plate:
    plate = Plate(
        "ladders",
        470,
        "On a ladder: three points of hold, tools on a line",
        "Left, a fixed ladder on the wall of a silo, from the side. A person climbs it, both hands on the ladder and "
        "one foot on a rung, the other foot going up; a strap runs from the chest to the line beside the ladder. The "
        "tools hang in a bag on a line below. The hatch on the roof is shut and locked. Right, crossed out: a person "
        "on a loose ladder leans out to one side, a tool in one hand and one foot in the air; water runs from the "
        "rungs.",
    )
    plate.text(4, 18, "Climb with both hands", strong=True)
    plate.text(206, 18, "Never like this", strong=True)
    plate.path("M2 402 L378 402", "line thick", 3)
    plate.path("M136 402 L136 84 L196 62", "shell", 4)
    plate.path("M156 76 L156 62 L182 53 L182 66", "metal", 1.5)
    plate.path("M165 60 L165 54 Q169 48 173 52 L173 58", "line", 1.5)
    plate.path(box(162, 60, 14, 10), "blade", 1.5)
    plate.path("M120 402 L120 56 M126 402 L126 56", "line", 1.5)
    for y in range(76, 402, 16):
        plate.circle(123, y, 2.6, "fan")
    for y in (100, 180, 260, 340):
        plate.path(f"M126 {y} L136 {y}", "line thick", 3)
    plate.path("M113 402 L113 44 L128 44", "chain-line", 2)
    person(plate, 97, 304, 134, _CLIMBS)
    plate.path("M113 200 Q104 196 94 208", "strap", 3)
    plate.circle(113, 200, 4, "fan")
    plate.path("M84 240 Q74 290 78 330", "line", 1.5)
    plate.path("M66 332 L90 332 L94 362 L62 362 Z", "carton", 1.5)
    plate.path("M70 332 L66 318 M80 332 L84 320", "line", 1.5)
    plate.text(4, 52, "hatch shut")
    plate.leader("M80 48 L154 62")
    plate.lines_of_text(4, 92, "rail or line", "in place")
    plate.leader("M80 92 L110 100")
    plate.lines_of_text(4, 140, "three points", "of hold")
    plate.text(4, 386, "tools in a bag")
    # Wrong.
    plate.path("M298 402 L298 118 M336 402 L336 118", "line thick", 3)
    for y in range(134, 402, 20):
        plate.path(f"M298 {y} L336 {y}", "line thick", 3)
    for x, y in ((306, 238), (326, 258), (312, 298), (330, 338), (304, 358)):
        plate.path(f"M{x} {y} Q{x - 4} {y + 7} {x} {y + 9} Q{x + 4} {y + 7} {x} {y} Z", "drop", 0, seen=False)
    person(plate, 292, 322, 134, _LEANS_OUT)
    plate.path("M230 214 L216 200 M210 204 L214 194 L224 196", "tool", 4.5)
    _no(plate, 280, 262, 58)
    plate.lines_of_text(206, 52, "one hand full, leaning", "out, wet or dusty rungs,", "wind or ice, alone")
    plate.lines_of_text(
        4,
        428,
        "Climb only where the job needs it. Keep off hatches:",
        "grain swallows. Each site has its rules for heights.",
    )
    return plate
