"""The phrases that a house's words are held to as well (:mod:`site_src.phrases`)."""

from site_src.phrases import faults, sentences, shown, waiting

__all__ = ["faults", "sentences", "shown", "waiting"]
