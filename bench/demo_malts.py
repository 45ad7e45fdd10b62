"""What the laboratory said of the invented year's malts: a sheet for each batch, some weeks after it left.

What is put in, and can be looked for by looking back:

- Nitrogen comes from the lot, and from nothing else: 1.52, 1.66 and 1.58 %, a little off from batch to batch.
- Friability falls by 22 points for each per cent of nitrogen, and rises by 1.2 for each point of water at the cast.
- Extract falls by 5 points for each per cent of nitrogen.
- Colour and the malt's moisture go with nothing.
- Each figure scatters by what a laboratory and the sample add. The last batch's sheet has not come yet; some have no
  colour.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from random import Random
from typing import Any

from bench.demo_batches import SAVED, TARGET, Batch, Writer

SEED = 1871
NITROGEN = {"lot 3": 1.52, "lot 5": 1.66, "lot 1": 1.58}
FRIABLE, PER_NITROGEN, PER_POINT = 85.5, -22.0, 1.2
EXTRACT, EXTRACT_PER_NITROGEN = 81.6, -5.0
NITROGEN_SD, FRIABLE_SD, EXTRACT_SD, COLOUR_SD, MOISTURE_SD = 0.025, 1.3, 0.4, 0.35, 0.25
MIDDLE_NITROGEN = 1.58
AS_IS = "example-06"
"""The one sheet that gives its extract as is."""
NO_COLOUR = ("example-02", "example-05", "example-08")


def malt_lines(batch: Batch) -> list[dict[str, Any]]:
    """The laboratory's sheet of one batch, written to it when it came; none where it has not come yet."""
    random = Random(f"{SEED} {batch.name}")
    log = Writer(random, batch.name)
    left = next(line for line in batch.log.lines if line["kind"] == "to-kiln")
    came = datetime.fromisoformat(left["at"]).replace(hour=10, minute=0) + timedelta(days=random.randint(15, 24))
    if came > datetime.fromisoformat(SAVED):
        return []
    nitrogen = NITROGEN[batch.lot] + random.gauss(0.0, NITROGEN_SD)
    off = nitrogen - MIDDLE_NITROGEN
    friable = FRIABLE + PER_NITROGEN * off + PER_POINT * (batch.held - TARGET) + random.gauss(0.0, FRIABLE_SD)
    extract = EXTRACT + EXTRACT_PER_NITROGEN * off + random.gauss(0.0, EXTRACT_SD)
    moisture = round(4.6 + random.gauss(0.0, MOISTURE_SD), 1)
    colour = 3.4 + random.gauss(0.0, COLOUR_SD)
    values = {
        "friability_percent": f"{friable:.0f}",
        "extract_percent": f"{extract:.1f}",
        "extract_basis": "dry",
        "malt_moisture": f"{moisture:.1f}",
        "nitrogen_percent": f"{nitrogen:.2f}",
        "laboratory": f"laboratory, sheet {random.randint(2100, 2900)}",
    }
    if batch.name == AS_IS:
        values |= {"extract_percent": f"{extract * (100.0 - moisture) / 100.0:.1f}", "extract_basis": "as-is"}
    if batch.name not in NO_COLOUR:
        values["colour_ebc"] = f"{colour:.1f}"
    log.write("malt", came, values, "Invented.")
    return log.lines
