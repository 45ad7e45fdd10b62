"""Figures of the trade that are no limits and no model's: each stands here once, whoever goes by it."""

from ..models.bounds import Bounds

ROUND_EVERY_H = 4.0
"""Hours from one round of a floor to the next: common practice (trade judgement)."""

RECHECK_H = 1.0
"""Hours after a turning that was due, or after a stop, at which it is read again (common practice)."""

SOON_H = 0.5
"""A limit that comes within this time counts as reached, by the floor's own readings [h]."""

NOTICEABLE_K = 1.0
"""Outside and room count as different from here on [K]."""

READY_AT_C = 15.0
"""The temperature to which the days of a house are brought [C]."""

READY_DAYS = 5.0
"""Days from the cast to ready at 15 C, where the house has no batches of its own: 5 to 7 at 12 to 17 C (published)."""

USUAL_WATER_C = 14.0
"""Water of a usual steep, where nothing is said of it [C] (common practice)."""

MERE_WETTING_H = 0.5
"""A last immersion shorter than this may be no more than a wetting: fill, drain and weigh [h] (common practice)."""

WATER_OFF_K = 4.0
"""A water temperature so far from the others of one steep is worth another look [K]: our judgement."""

BASKET_OVEN_APART = 1.2
"""Basket and oven differ by so much, with only a rest between, when one is wrong [points]: four times what both
scatter."""

SCALDS_C = 50.0
"""Water from here on scalds a hand within seconds [C]: from memory."""

DRIES_BELOW_C = 90.0
"""No grain on a kiln is so warm while most of its water leaves [C]: our judgement."""

MALTING_LOSS = Bounds(6.0, 12.0)
"""Usual loss of dry matter from barley to dressed malt, % of it (from memory)."""

NIGHT = (22.0, 6.0)
"""Hours of the day between which a hand is a hand at night [h]: a convention of this handbook."""

LOOK_HOLDS_H = 2.0
"""A look at a batch counts for a hand-over so long [h]: a convention of this handbook."""
