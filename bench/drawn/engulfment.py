"""Grain that buries people, and gas that lies where people go: each a scene."""

from __future__ import annotations

from bench.drawn.kit import GAS, GRAIN, Plate, box
from bench.drawn.people import ARMS_UP, DIGS, FALLS, LOOKS_DOWN, STANDS, STEPS_BACK, WALKS, person


def engulfment() -> Plate:
    plate = Plate(
        "engulfment",
        470,
        "Three ways grain buries a person",
        "Three bins in section, with people to scale. One: the outlet below is open; grain runs down as a funnel "
        "and has "
        "drawn a person in to the chest, arms up. Two: grain has stuck "
        "together into a bridge over a hollow; it breaks under the person who walks on it. Three: grain hangs on the "
        "wall as a steep face over a person who digs at its foot; it slides down at once.",
        fold=290,
    )
    # One: it runs out below.
    plate.text(4, 18, "1 It runs out below", strong=True)
    plate.textured("M8 96 Q60 96 92 132 Q124 96 176 96 L176 196 L104 246 L80 246 L8 196 Z", GRAIN)
    plate.path("M8 96 Q60 96 92 132 Q124 96 176 96")
    person(plate, 92, 184, 84, ARMS_UP, upto=0.62)
    plate.path("M8 34 L8 196 L80 246 L80 262 M104 262 L104 246 L176 196 L176 34", "shell", 4)
    plate.arrow("M92 250 L92 282")
    plate.arrow("M40 108 Q62 112 76 128")
    plate.arrow("M144 108 Q122 112 108 128")
    plate.lines_of_text(190, 60, "They sink with the grain.", "Held in about 5 seconds,", "buried in about 25.")
    plate.lines_of_text(190, 128, "Nobody can pull them out", "by the arms. Stop what", "takes the grain; call.")
    # Two and three, side by side.
    plate.text(4, 310, "2 A bridge breaks", strong=True)
    plate.text(200, 310, "3 A face slides", strong=True)
    plate.textured(
        "M8 378 Q60 368 84 380 L104 392 Q140 372 176 378 L176 396 Q150 400 128 414 L104 406 L84 410 "
        "Q60 404 40 412 "
        "Q24 400 8 396 Z",
        GRAIN,
    )
    plate.path("M8 378 Q60 368 84 380 M104 392 Q140 372 176 378 M8 396 Q24 400 40 412 M128 414 Q150 400 176 396")
    plate.path("M78 378 L88 390 L82 400 L90 410 M100 390 L108 400 L102 407", "line", 1.5)
    person(plate, 94, 388, 62, FALLS)
    plate.text(64, 440, "hollow")
    plate.textured("M8 466 L8 452 Q92 446 176 452 L176 466 Z", GRAIN)
    plate.path("M8 324 L8 468 M176 324 L176 468", "shell", 4)
    plate.textured("M372 330 L372 466 L204 466 L204 456 L268 452 Q292 448 300 420 Q318 372 330 330 Z", GRAIN)
    plate.path("M330 330 Q318 372 300 420 Q292 448 268 452 L204 456")
    person(plate, 246, 454, 66, DIGS)
    plate.path("M260 420 L290 436 L296 444", "tool", 4.5)
    plate.arrow("M322 344 Q302 372 284 392")
    plate.path("M204 324 L204 468 M372 324 L372 468", "shell", 4)
    return plate


def gas_in_vessels() -> Plate:
    plate = Plate(
        "gas-in-vessels",
        640,
        "Where carbon dioxide lies in a maltings",
        "Four places in section, with people to scale; hatching is the gas. One: a drained steep; gas fills it to "
        "the "
        "rim, over and between the corns, and runs out by the drain; a person looks on from behind the rail, head "
        "above "
        "the rim. Two: a shut drum; gas fills all of it; a person stands beside it, outside. Three: a pit below a "
        "vessel; the gas has run down and fills it to its edge, with the ladder in it; a person steps back from "
        "the edge. "
        "Four: a germinating room shut against the cold; gas lies knee-deep and deeper on the floor, deepest down "
        "the steps; a person goes out by the door.",
        fold=336,
    )
    # Steep.
    plate.text(4, 18, "Drained steep", strong=True)
    plate.textured("M74 62 L174 62 L174 112 L74 112 Z", GAS)
    plate.textured("M74 112 Q124 106 174 112 L174 190 L130 240 L118 240 L74 190 Z", GRAIN)
    plate.textured("M118 240 L130 240 L130 268 L118 268 Z", GAS)
    plate.path("M74 112 Q124 106 174 112")
    plate.path("M74 58 L74 190 L118 240 L118 268 M130 268 L130 240 L174 190 L174 58", "shell", 4)
    plate.path("M4 92 L70 92 M14 92 L14 272 M60 92 L60 182", "line thick", 3)
    person(plate, 30, 92, 66, LOOKS_DOWN)
    plate.path("M64 92 L64 62 M8 62 L8 92 M20 92 L20 62 L64 62", "line", 1.5)
    plate.path("M4 272 L184 272", "line thick", 3)
    plate.arrow("M124 262 L124 284")
    # Drum.
    plate.text(204, 18, "Shut drum", strong=True)
    plate.textured(
        "M214 78 Q214 60 232 60 L322 60 Q340 60 340 78 L340 186 Q340 204 322 204 L232 204 Q214 204 214 186 Z", GAS
    )
    plate.textured("M214 134 Q276 126 340 134 L340 186 Q340 204 322 204 L232 204 Q214 204 214 186 Z", GRAIN)
    plate.path("M214 134 Q276 126 340 134")
    plate.path(
        "M214 78 Q214 60 232 60 L322 60 Q340 60 340 78 L340 186 Q340 204 322 204 L232 204 Q214 204 214 186 Z",
        "shell",
        4,
    )
    plate.path(box(262, 50, 30, 10), "metal", 1.5)
    plate.path("M232 206 L224 270 M322 206 L330 270", "line thick", 3)
    plate.path("M200 272 L380 272", "line thick", 3)
    person(plate, 360, 270, 92, STANDS, facing=-1)
    plate.lines_of_text(4, 304, "Full of gas to the rim, and", "what runs out lies below.")
    plate.lines_of_text(204, 304, "Full of gas, hatch and all,", "as soon as the fan stops.")
    # Pit.
    plate.text(4, 360, "Pit, channel, cellar", strong=True)
    plate.fill("M4 462 L62 462 L62 552 L150 552 L150 462 L182 462 L182 564 L4 564 Z", "earth")
    plate.textured("M62 462 L150 462 L150 552 L62 552 Z", GAS)
    plate.path("M4 462 L62 462 L62 552 L150 552 L150 462 L182 462", "shell", 4)
    plate.path(
        "M136 446 L136 548 M146 446 L146 548 M136 462 L146 462 M136 476 L146 476 M136 490 L146 490 M136 "
        "504 L146 504 "
        "M136 518 L146 518 M136 532 L146 532",
        "line",
        1.5,
    )
    person(plate, 34, 460, 88, STEPS_BACK)
    plate.arrow("M106 420 L106 452")
    plate.path("M94 376 L94 400 L100 416 M118 376 L118 400 L112 416", "shell", 4)
    # Room.
    plate.text(204, 360, "Room that is shut", strong=True)
    plate.textured("M206 540 L206 512 L376 512 L376 564 L348 564 L348 552 L330 552 L330 540 Z", GAS)
    plate.textured("M254 540 L260 524 Q290 518 318 524 L324 540 Z", GRAIN)
    plate.path("M254 540 L260 524 Q290 518 318 524 L324 540")
    plate.path(
        "M204 376 L204 440 M204 540 L330 540 L330 552 L348 552 L348 564 L378 564 M204 376 L378 376 L378 564", "shell", 4
    )
    plate.path("M204 440 L188 452 L188 552 L204 540", "paper", 1.5)
    plate.path(box(314, 398, 44, 34), "paper", 1.5)
    plate.path("M336 398 L336 432 M314 415 L358 415", "line", 1.5)
    person(plate, 230, 538, 92, WALKS, facing=-1)
    plate.lines_of_text(4, 592, "It runs down and fills it", "like water.")
    plate.lines_of_text(204, 592, "Deepest on the floor and", "down the steps: go out.")
    plate.textured(box(4, 620, 26, 14), GAS)
    plate.path(box(4, 620, 26, 14))
    plate.text(38, 632, "carbon dioxide: no colour, no smell")
    return plate
