"""Drum and box: which way the air goes, where the gas lies, and from where a sample is taken."""

from __future__ import annotations

from bench.drawn.kit import GAS, GRAIN, Plate, box
from bench.drawn.people import REACHES, person


def _sprays(plate: Plate, x: float, y: float) -> None:
    """A chamber in which water is sprayed into the air."""
    plate.path(box(x, y, 34, 30), "paper", 1.5)
    for dx, dy in ((7, 8), (17, 8), (27, 8), (12, 18), (22, 18), (7, 26), (17, 26), (27, 26)):
        plate.circle(x + dx, y + dy, 1.6, "drop")


def fan(plate: Plate, x: float, y: float) -> None:
    plate.circle(x, y, 15, "fan")
    plate.path(f"M{x - 10} {y - 10} L{x + 10} {y + 10} M{x + 10} {y - 10} L{x - 10} {y + 10}")


def lock(plate: Plate, x: float, y: float) -> None:
    """Draw an isolator with a lock on it."""
    plate.path(box(x, y, 30, 40), "paper", 1.5)
    plate.path(
        f"M{x + 9} {y + 20} L{x + 9} {y + 14} Q{x + 9} {y + 7} {x + 15} {y + 7} Q{x + 21} {y + 7} {x + 21} "
        f"{y + 14} L{x + 21} {y + 20}",
        "line thick",
        3,
    )
    plate.path(box(x + 6, y + 19, 18, 14), "blade", 1.5)


def drum() -> Plate:
    plate = Plate(
        "drum-air",
        520,
        "A germinating drum from the side: the path of the air, and where the gas lies",
        "A lying drum on rollers, with a false floor. Fresh air and returned air meet at a flap, pass a fan, then "
        "sprays, "
        "and enter the space under the false floor. The air goes up through the bed of growing barley into the "
        "room above "
        "it, out at the other end, and by a duct on top either out of doors or back to the flap. Hatching marks "
        "carbon "
        "dioxide above the bed, between the corns and under the false floor; the duct carries it too. A person "
        "stands "
        "outside and puts a spear through a sampling port in the side; the drum stands, and its isolator carries "
        "a lock. "
        "The door is shut.",
        fold=345,
    )
    plate.text(4, 18, "out of doors, away from people")
    plate.arrow("M350 40 L350 12")
    plate.path("M308 96 L350 96 L350 44 M350 62 L30 62 L30 108", "pipe", 7)
    plate.arrow("M240 78 L190 78")
    plate.text(168, 50, "returned air")
    plate.text(2, 50, "fresh")
    plate.path("M4 108 L30 108", "pipe", 7)
    plate.path("M22 96 L38 118", "line thick", 3)
    plate.text(46, 100, "flap")
    plate.path("M30 116 L30 248 L108 248", "pipe", 7)
    fan(plate, 30, 146)
    plate.text(50, 150, "fan")
    _sprays(plate, 13, 180)
    plate.text(52, 200, "sprays")
    # The drum.
    shell = "M110 116 Q110 96 130 96 L290 96 Q310 96 310 116 L310 250 Q310 270 290 270 L130 270 Q110 270 110 250 Z"
    plate.textured("M110 116 Q110 96 130 96 L290 96 Q310 96 310 116 L310 146 Q210 138 110 146 Z", GAS)
    plate.textured("M110 146 Q210 138 310 146 L310 226 L110 226 Z", GRAIN)
    plate.textured("M110 226 L310 226 L310 250 Q310 270 290 270 L130 270 Q110 270 110 250 Z", GAS)
    plate.path("M110 146 Q210 138 310 146")
    plate.path("M110 226 L310 226", "screen", 2.5)
    plate.path(shell, "shell", 4)
    for x in (140, 196, 280):
        plate.arrow(f"M{x} 248 L{x} 118")
    plate.path("M134 272 L134 292 M286 272 L286 292", "line thick", 3)
    plate.circle(134, 286, 9, "fan")
    plate.circle(286, 286, 9, "fan")
    plate.path("M60 340 L378 340", "line thick", 3)
    plate.path("M112 298 L308 298 L308 338 M112 298 L112 338", "line thick", 3)
    plate.circle(310, 206, 6, "fan")
    plate.path("M320 338 L320 306 L376 306 L376 338 M320 322 L376 322", "line", 1.5)
    person(plate, 358, 304, 110, REACHES, facing=-1)
    plate.path("M352 246 L256 160", "tool", 3)
    lock(plate, 66, 296)
    plate.text(4, 362, "isolator, with your lock on it")
    plate.leader("M80 346 L80 338")
    plate.textured(box(4, 376, 26, 14), GAS)
    plate.path(box(4, 376, 26, 14))
    plate.text(38, 388, "gas: over, in and under the bed, in the duct")
    plate.text(4, 418, "Sample only when it stands, is isolated,", strong=True)
    plate.text(4, 436, "carries your lock, and is blocked and tried.", strong=True)
    plate.lines_of_text(
        4,
        462,
        "Shut or open, the gas stays in it. The fan",
        "moves process air for the grain. It makes no",
        "air for people.",
    )
    return plate


def germinating_box() -> Plate:
    plate = Plate(
        "box-air",
        450,
        "A germinating box from the side: bed, screws, false floor, and where the gas lies",
        "A long open box with a perforated false floor. A fan blows air through sprays into the room under the "
        "floor; it "
        "goes up through a level bed of growing barley. A carriage on rails carries upright screws that reach down "
        "through the bed. A person stands on a walkway outside, behind a rail, and reaches over it with a long "
        "sampling "
        "spear; the turner stands, and its isolator carries a lock. Hatching marks carbon dioxide over the bed, "
        "between "
        "the corns and under the false floor. A gauge reads the pressure under the floor.",
    )
    plate.textured("M92 120 L318 120 L318 152 L92 152 Z", GAS)
    plate.textured("M92 152 L318 152 L318 222 L92 222 Z", GRAIN)
    plate.textured("M92 222 L318 222 L318 272 L92 272 Z", GAS)
    plate.path("M92 152 L318 152")
    plate.path("M92 222 L318 222", "screen", 2.5)
    plate.path("M92 116 L92 274 L318 274 L318 116", "shell", 4)
    # Turner.
    plate.path(box(142, 92, 66, 16), "metal", 1.5)
    plate.circle(154, 112, 5, "fan")
    plate.circle(196, 112, 5, "fan")
    plate.path("M92 118 L318 118", "line", 1.5)
    for x in (156, 175, 194):
        plate.path(f"M{x} 108 L{x} 216", "line thick", 3)
        plate.path("".join(f"M{x - 7} {y + 4} Q{x} {y + 8} {x + 7} {y - 3} " for y in range(130, 214, 13)).strip())
    plate.text(112, 66, "turner with screws")
    plate.arrow("M142 82 L106 82")
    # Air.
    plate.path("M20 250 L92 250", "pipe", 7)
    fan(plate, 22, 250)
    _sprays(plate, 48, 235)
    plate.text(4, 224, "fan,")
    plate.text(36, 224, "sprays")
    for x in (116, 236, 284):
        plate.arrow(f"M{x} 262 L{x} 136")
    plate.path("M252 274 L252 290", "line", 1.5)
    plate.circle(252, 300, 10, "fan")
    plate.path("M252 300 L258 294")
    plate.text(270, 306, "pressure")
    # Walkway.
    plate.path("M322 176 L378 176", "line thick", 3)
    plate.path("M376 176 L376 318 M334 176 L334 134 M374 176 L374 134 M334 134 L374 134")
    person(plate, 358, 174, 96, REACHES, facing=-1)
    plate.path("M346 104 L258 196", "tool", 3)
    plate.path("M2 320 L378 320", "line thick", 3)
    lock(plate, 100, 278)
    plate.text(138, 306, "isolated")
    plate.lines_of_text(262, 20, "spear, from the", "walkway")
    plate.leader("M300 44 L312 134")
    plate.text(4, 150, "gas over")
    plate.text(4, 190, "the bed")
    plate.leader("M64 186 L100 186")
    plate.leader("M66 145 L100 138")
    plate.textured(box(4, 334, 26, 14), GAS)
    plate.path(box(4, 334, 26, 14))
    plate.text(38, 346, "gas: over, in and under the bed")
    plate.text(4, 378, "Nobody steps on the bed. Sample from the", strong=True)
    plate.text(4, 396, "walkway, the turner isolated and locked.", strong=True)
    plate.lines_of_text(4, 422, "The fan moves process air for the grain, never", "for people.")
    return plate
