"""Couch and piece: where the thermometers go, and what they tell."""

from __future__ import annotations

from bench.drawn.kit import GAS, GRAIN, Plate, poly
from bench.drawn.people import LOOKS_DOWN, person

_METRE = 84.0


def couch() -> Plate:
    plate = Plate(
        "couch",
        470,
        "A couch and a piece, cut through: where the thermometers go",
        "Above, a couch to scale with a person: a heap half a metre deep with sloping sides on the floor. The person "
        "reads a long thermometer in it, standing. Gas runs out at the foot and lies on the floor; hatching marks "
        "it. "
        "Below left, the couch cut through: one thermometer 3 centimetres under the top, one on the floor, both in "
        "its middle. Its warmth stays inside. Below right, the same grain broken and laid out as a piece, a third as "
        "deep and three times as long: one thermometer just under the top, one on the floor. Heat leaves upwards.",
    )
    plate.text(4, 18, "Couch: deep, so that it warms through", strong=True)
    plate.textured("M2 162 L44 162 L40 178 L2 178 Z", GAS)
    plate.textured("M236 162 L378 162 L378 178 L244 178 Z", GAS)
    plate.textured("M40 178 L66 138 Q140 130 214 138 L240 178 Z", GRAIN)
    plate.path("M40 178 L66 138 Q140 130 214 138 L240 178")
    plate.path("M2 179 L378 179", "line thick", 3)
    person(plate, 286, 177, 1.7 * _METRE, LOOKS_DOWN, facing=-1)
    plate.path("M252 96 L182 160", "line thick", 3)
    plate.circle(182, 160, 4.5, "drop")
    plate.scale(40, 60, _METRE, "1 m")
    plate.lines_of_text(4, 202, "Gas runs out at the foot and lies low:", "the room’s alarm first, at every look.")
    # The couch, cut through.
    plate.text(4, 254, "Couch, cut", strong=True)
    plate.textured("M4 278 Q52 272 100 278 L100 412 L4 412 Z", GRAIN)
    plate.path("M4 278 Q52 272 100 278")
    for x, y in ((38, 288), (66, 408)):
        plate.path(poly((x, 262), (x, y), shut=False), "line thick", 3)
        plate.circle(x, y, 4.5, "drop")
    plate.leader("M44 288 L106 288")
    plate.leader("M72 408 L106 408")
    plate.lines_of_text(110, 293, "3 cm under", "the top")
    plate.text(110, 408, "on the floor")
    # The piece, cut through.
    plate.text(200, 254, "Piece: thin, laid out", strong=True)
    plate.textured("M200 368 Q244 364 288 368 L288 412 L200 412 Z", GRAIN)
    plate.path("M200 368 Q244 364 288 368")
    for x, y in ((226, 378), (262, 408)):
        plate.path(poly((x, 336), (x, y), shut=False), "line thick", 3)
        plate.circle(x, y, 4.5, "drop")
    plate.leader("M232 378 L296 378")
    plate.leader("M268 408 L296 408")
    plate.text(300, 383, "top")
    plate.text(300, 408, "on the floor")
    plate.arrow("M212 354 L212 326")
    plate.arrow("M280 354 L280 326")
    plate.text(204, 316, "heat leaves upwards")
    plate.path("M2 413 L378 413", "line thick", 3)
    plate.lines_of_text(
        4, 438, "The couch keeps its heat: bottom against room.", "The piece loses it: bottom against top."
    )
    return plate


def piece() -> Plate:
    plate = Plate(
        "floor-piece",
        430,
        "A piece on the floor, cut through: its temperatures when just turned and six hours later",
        "Two cuts through a layer of growing barley, 15 centimetres deep, in a room at 11 degrees; beside each, the "
        "temperature through its depth. Just turned, the layer is 15 degrees from bottom to top. Six hours later the "
        "thermometer on the floor reads 17.8 degrees and the one three centimetres under the surface reads 15.2; the "
        "curve falls from the floor to the surface. Arrows show heat and moisture leaving upwards.",
    )
    for top, head in ((0, "Just turned"), (196, "Six hours later")):
        ground, floor = top + 70, top + 160
        plate.text(4, top + 18, head, strong=True)
        plate.textured(f"M20 {ground} Q100 {ground - 4} 180 {ground} L180 {floor} L20 {floor} Z", GRAIN)
        plate.path(f"M20 {ground} Q100 {ground - 4} 180 {ground}")
        plate.path(f"M4 {floor + 1} L376 {floor + 1}", "line thick", 3)
        plate.path(f"M8 {ground} L8 {floor} M4 {ground} L12 {ground}")
        plate.path(f"M232 {ground - 14} L232 {floor}")
        plate.arrow(f"M232 {floor - 90 - 14} L360 {floor - 104}")
        plate.leader(f"M184 {ground} L372 {ground}")
    plate.text(4, 56, "15 cm")
    plate.text(262, 44, "warmer")
    plate.path("M300 70 L300 160", "line thick", 3)
    plate.lines_of_text(308, 108, "15 °C all", "through")
    plate.lines_of_text(80, 40, "room 11 °C")
    plate.arrow("M52 252 L52 226")
    plate.arrow("M168 252 L168 226")
    plate.text(66, 236, "heat, moisture")
    for x, y in ((84, 284), (132, 352)):
        plate.path(poly((x, 246), (x, y), shut=False), "line thick", 3)
        plate.circle(x, y, 4.5, "drop")
    plate.path("M250 266 Q306 280 342 316 Q350 336 350 356", "line thick", 3)
    plate.circle(303, 284, 4.5, "drop")
    plate.circle(350, 352, 4.5, "drop")
    plate.leader("M90 284 L296 284")
    plate.leader("M138 352 L344 352")
    plate.lines_of_text(316, 278, "15.2 °C,")
    plate.text(326, 295, "3 cm in")
    plate.lines_of_text(246, 330, "17.8 °C,", "floor")
    plate.text(262, 240, "warmer")
    plate.text(4, 384, "The floor keeps the heat, the top gives it to the room.")
    plate.text(4, 408, "Bottom minus top: 2.6 K. That tells when to turn.", strong=True)
    return plate
