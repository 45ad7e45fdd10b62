"""Where the law of breathing runs; who only names it need not import the law."""

from ..bounds import Bounds

GRAIN_C = Bounds(0.0, 40.0)
GRAIN_REASON = "Barley breathes and grows between these; in a published series none grew at 40 °C."
