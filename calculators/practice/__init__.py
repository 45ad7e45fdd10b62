"""The practice batch: a whole batch, or a piece of one, run in words by a learner; a teaching model.

``play`` is one pure function: the list of moves is the whole run. The barley is hidden and is not the model of the
sheets (``hidden``). Its lines stand in a book of their own: nothing in the day-book, its fits or the sign-off reads
them, and no import leads from there to here.
"""

from .kinds import Debrief, Line, Offer, Played, Scene
from .play import play

__all__ = ["Debrief", "Line", "Offer", "Played", "Scene", "play"]
