"""Filling the steep, and skimming."""

from __future__ import annotations

from bench.drawn.kit import GRAIN, Plate
from bench.drawn.people import REACHES, person


def filling() -> Plate:
    plate = Plate(
        "filling",
        400,
        "Filling and skimming",
        "Barley falls from a spout into water that is already in the steep. Sound corns sink. Light corns, husk "
        "and straw "
        "float. Fresh water enters from below, so the surface runs over a weir on the right and carries the "
        "floating matter "
        "to a screen over a trough. A person stands on the platform on the left, behind the rail, and draws a "
        "long-handled "
        "skimmer over the water.",
    )
    plate.fill("M120 136 L270 136 L270 330 L120 330 Z", "water")
    plate.textured("M120 270 Q160 238 200 250 Q240 238 270 268 L270 330 L120 330 Z", GRAIN)
    plate.path("M120 270 Q160 238 200 250 Q240 238 270 268")
    plate.path("M120 136 L280 136", "line", 1.5)
    plate.path("M120 112 L120 332 L270 332 L270 140", "shell", 4)
    plate.path("M218 40 L206 88 M250 48 L236 94", "shell", 4)
    for x, y in (
        (224, 84),
        (218, 98),
        (226, 108),
        (214, 118),
        (222, 126),
        (206, 152),
        (214, 172),
        (198, 186),
        (220, 200),
        (204, 214),
        (188, 228),
        (216, 232),
        (172, 166),
        (182, 204),
    ):
        plate.path(f"M{x - 4} {y} Q{x} {y - 4} {x + 4} {y} Q{x} {y + 4} {x - 4} {y} Z", "corn", 0, seen=False)
    for x, y in ((236, 134), (248, 132), (260, 134), (274, 132), (286, 150), (296, 158), (306, 156), (318, 158)):
        plate.path(f"M{x - 5} {y} Q{x} {y - 4} {x + 5} {y} Q{x} {y + 3} {x - 5} {y} Z", "corn pale", 0, seen=False)
    plate.path("M266 134 Q286 132 288 146", "air", 2)
    plate.path("M276 160 L276 186 L340 186 L340 160", "line thick", 3)
    plate.path("M278 164 L338 164", "screen", 2.5)
    plate.path("M336 308 L274 308", "pipe", 7)
    plate.arrow("M372 308 L342 308")
    plate.path("M2 160 L114 160 M12 160 L12 332 M104 160 L104 332 M2 332 L378 332", "line thick", 3)
    plate.path("M16 160 L16 112 M60 160 L60 112 M108 160 L108 112 M16 112 L108 112 M16 136 L108 136")
    person(plate, 76, 158, 76, REACHES)
    plate.path("M92 106 L196 130 M190 124 L206 128 L202 138 L188 134 Z", "tool", 3)
    plate.text(126, 22, "dressed barley, weighed")
    plate.lines_of_text(4, 44, "long skimmer,", "from the platform")
    plate.leader("M96 66 L124 110")
    plate.lines_of_text(288, 92, "light corns", "float off")
    plate.leader("M296 114 L282 128")
    plate.lines_of_text(280, 206, "screen: drain,", "then weigh")
    plate.lines_of_text(18, 214, "sound", "corns", "sink")
    plate.leader("M62 226 L196 214")
    plate.lines_of_text(284, 272, "fresh water", "from below")
    plate.text(4, 360, "A swimmer is not carried by wet grain:")
    plate.text(4, 378, "gate shut, both feet on the platform.")
    return plate
