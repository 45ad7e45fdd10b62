"""When somebody is down or in the water, and before a hand goes past a guard."""

from __future__ import annotations

from math import pi

from bench.drawn.airs import fan, lock
from bench.drawn.kit import GAS, GRAIN, Plate, box
from bench.drawn.people import ARMS_UP, REACHES, STANDS, Pose, person, turned

_HOLDS_BACK = Pose(
    (0.01, 0.925), (0, 0.80), (0, 0.48),
    ((0.17, 0.76), (0.33, 0.80)), ((-0.15, 0.74), (-0.29, 0.80)),
    ((0.06, 0.26), (0.08, 0.02)), ((-0.07, 0.26), (-0.10, 0.02)),
)  # fmt: skip
_CALLS = Pose(
    (0.02, 0.925), (0, 0.80), (0, 0.48),
    ((0.15, 0.68), (0.08, 0.87)), ((-0.05, 0.63), (0.02, 0.52)),
    ((0.03, 0.26), (0.04, 0.02)), ((-0.05, 0.26), (-0.07, 0.02)),
)  # fmt: skip
_POINTS = Pose(
    (0.02, 0.925), (0, 0.80), (0, 0.48),
    ((0.16, 0.72), (0.30, 0.74)), ((-0.03, 0.63), (0.01, 0.49)),
    ((0.03, 0.26), (0.04, 0.02)), ((-0.05, 0.26), (-0.07, 0.02)),
)  # fmt: skip


def down_in_a_vessel() -> Plate:
    plate = Plate(
        "down-in-a-vessel",
        372,
        "Somebody is down in a pit: stop, call, stay out",
        "A pit in section, full of gas to its edge, with a ladder. A person lies on its floor. At its edge, a "
        "step away "
        "from it, a second person stands upright with both arms out and lets nobody past. Behind, a third one "
        "calls by "
        "radio. Nobody leans in, nobody climbs down, and the ladder stays empty.",
    )
    plate.fill("M2 232 L132 232 L132 312 L290 312 L290 232 L378 232 L378 324 L2 324 Z", "earth")
    plate.textured("M132 232 L290 232 L290 312 L132 312 Z", GAS)
    plate.path("M2 232 L132 232 L132 312 L290 312 L290 232 L378 232", "shell", 4)
    plate.path(
        "M274 206 L274 308 M284 206 L284 308 M274 222 L284 222 M274 238 L284 238 M274 254 L284 254 M274 270 L284 270 "
        "M274 286 L284 286 M274 300 L284 300"
    )
    person(plate, 156, 303, 104, turned(STANDS, pi / 2))
    person(plate, 94, 230, 104, _HOLDS_BACK)
    person(plate, 26, 230, 104, _CALLS)
    plate.path(box(31, 132, 6, 14), "limb-cap", 1.5)
    plate.text(4, 18, "Stop. Call. Stay out.", strong=True)
    plate.text(4, 62, "2 calls: “Person down,")
    plate.text(4, 79, "carbon dioxide. We are at …”")
    plate.leader("M24 86 L30 114")
    plate.text(176, 120, "1 stops, and holds")
    plate.text(176, 137, "others back")
    plate.leader("M172 132 L134 140")
    plate.text(152, 196, "3 nobody leans or")
    plate.text(152, 213, "climbs in")
    plate.text(4, 346, "It looks like a friend asleep. One breath over the edge")
    plate.text(4, 363, "is how the second person dies.")
    return plate


def in_a_full_steep() -> Plate:
    plate = Plate(
        "in-a-full-steep",
        420,
        "Somebody is in a full steep: reach with the pole from behind the rail",
        "A full steep in section. A person is in the water to the chest and has taken hold of a long pole. On the "
        "platform, behind the rail, both feet down and head outside the rim, a second person holds the pole. The "
        "valve of "
        "the blown air below is shut. A ring with its line hangs on the rail. Barley, water and the "
        "blown air are stopped; drain and cast valve are shut.",
    )
    plate.fill("M160 132 L368 132 L368 300 L160 300 Z", "water")
    plate.textured("M160 208 Q260 196 368 208 L368 300 L160 300 Z", GRAIN)
    plate.path("M160 208 Q260 196 368 208")
    plate.path("M160 132 L368 132")
    plate.path("M160 112 L160 302 L368 302 L368 112", "shell", 4)
    plate.path("M2 160 L154 160", "line thick", 3)
    plate.path("M10 160 L10 302 M140 160 L140 302 M2 304 L378 304", "line thick", 3)
    plate.path("M14 160 L14 112 M82 160 L82 112 M148 160 L148 112 M14 112 L148 112 M14 136 L148 136")
    person(plate, 268, 182, 88, ARMS_UP, facing=-1, upto=0.57)
    person(plate, 116, 158, 88, REACHES)
    plate.path("M98 108 L250 92", "tool", 3)
    plate.circle(52, 128, 12, "ring")
    plate.path("M64 130 Q70 150 56 156", "line", 1.5)
    fan(plate, 26, 262)
    plate.path("M42 262 L158 262", "pipe", 7)
    plate.path("M84 252 L104 272 L104 252 L84 272 Z", "paper", 1.5)
    plate.path("M78 246 L110 278", "no", 5)
    plate.text(4, 18, "Reach from behind the rail. Nobody goes in.", strong=True)
    plate.lines_of_text(4, 52, "pole: both feet", "on the platform")
    plate.leader("M88 74 L98 90")
    plate.text(178, 62, "let them take hold")
    plate.leader("M246 68 L250 84")
    plate.text(18, 200, "ring and line")
    plate.leader("M50 186 L52 144")
    plate.text(18, 240, "air shut off")
    plate.lines_of_text(
        4, 330, "A body floats worse in bubbles, and they lift gas", "over the rim. Leave drain and cast valve shut."
    )
    plate.lines_of_text(4, 376, "They sink or do not answer: it is now a person", "down in a vessel. Stay out.")
    return plate


def isolate_lock_try() -> Plate:
    plate = Plate(
        "isolate-lock-try",
        330,
        "Isolate, lock, try: before a hand goes past a guard",
        "Three moments at one machine, an auger under its guard. One: a person turns the handle of the isolator "
        "on the "
        "wall to off. Two: the person hangs their own lock on it and puts the key into a pocket. Three: the person "
        "presses start at the machine, hands off the guard, and nothing happens. Only then is the guard opened.",
    )
    for x, head, words in (
        (2, "1 Isolate", ("the handle", "to off")),
        (130, "2 Lock, tag", ("your lock, your", "key with you")),
        (258, "3 Try", ("press start:", "nothing moves")),
    ):
        plate.text(x + 2, 18, head, strong=True)
        plate.lines_of_text(x + 2, 246, *words)
    plate.path("M2 224 L378 224", "line thick", 3)
    plate.path(box(80, 76, 32, 46), "paper", 1.5)
    plate.circle(96, 98, 9, "fan")
    plate.path("M96 98 L108 88", "line thick", 3)
    person(plate, 42, 222, 124, _POINTS)
    lock(plate, 208, 78)
    person(plate, 170, 222, 124, _POINTS)
    plate.path(box(316, 142, 58, 40), "metal", 1.5)
    plate.path("M322 162 Q328 150 334 162 Q340 174 346 162 Q352 150 358 162 Q364 174 368 162")
    plate.path("M322 182 L322 222 M368 182 L368 222", "line thick", 3)
    plate.path(box(322, 120, 16, 18), "paper", 1.5)
    plate.circle(330, 129, 4, "hole")
    person(plate, 290, 222, 124, _POINTS)
    plate.lines_of_text(
        4, 296, "A stop button isolates nothing: a program can start", "it again. Each person their own lock."
    )
    return plate
