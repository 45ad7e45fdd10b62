"""A stretch of a steep in which one series of the sphere holds."""

from .sphere import SealedSphere, WetSphere


class Spell:
    """A stretch of time in which one series holds: wet, fed by the film, or sealed.

    Parameters
    ----------
    stage : int
        Which stage it belongs to, counted from 0.
    start_h, end_h : float
        When, from the start of the steep [h].
    wet : bool
        True under water.
    sphere : WetSphere or SealedSphere
        The series.
    fo : float
        Its Fourier number at the start [-].
    per_h : float
        How fast the Fourier number runs [1/h].
    film_db : float
        Film at the start, kg per kg of dry matter; under water it is what would
        cling if the corns were drained now.
    """

    __slots__ = ("end_h", "film_db", "fo", "per_h", "sphere", "stage", "start_h", "wet")

    def __init__(
        self,
        stage: int,
        start_h: float,
        end_h: float,
        wet: bool,
        sphere: WetSphere | SealedSphere,
        fo: float,
        per_h: float,
        film_db: float,
    ) -> None:
        self.stage = stage
        self.start_h = start_h
        self.end_h = end_h
        self.wet = wet
        self.sphere = sphere
        self.fo = fo
        self.per_h = per_h
        self.film_db = film_db

    def fo_at(self, hours: float) -> float:
        """Give the Fourier number [-] at an hour of the steep [h]."""
        return self.fo + self.per_h * (hours - self.start_h)

    def mean_lack(self, hours: float) -> float:
        """Give the mean lack of water, kg per kg of dry matter, at an hour [h]."""
        if isinstance(self.sphere, SealedSphere):
            return self.sphere.mean
        return self.sphere.mean_lack(self.fo_at(hours))
