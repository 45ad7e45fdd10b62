"""Numbers drawn by a key, never in sequence: the same key gives the same draw, whatever was drawn before."""

from hashlib import sha256
from statistics import NormalDist

_NORMAL = NormalDist()


def uniform(number: int, *key: object) -> float:
    """Give a draw over 0 to 1, the ends left out.

    Parameters
    ----------
    number : int
        The number of the run.
    *key : object
        What is drawn, and for which minute.
    """
    text = "|".join(map(str, (number, *key))).encode()
    return (int.from_bytes(sha256(text).digest()[:6], "big") + 0.5) / 2.0**48


def normal(number: int, *key: object) -> float:
    """Give a draw of the standard normal distribution, at most 3.5 out."""
    return max(-3.5, min(3.5, _NORMAL.inv_cdf(uniform(number, *key))))


def clipped(number: int, most: float, *key: object) -> float:
    """Give a draw of the standard normal distribution, at most so far out, so that no number is hopeless."""
    return max(-most, min(most, normal(number, *key)))


def counted(number: int, shares: list[float], corns: int, *key: object) -> list[int]:
    """Give how many of some corns fall into classes with these shares."""
    total = sum(shares) or 1.0
    found = [0] * len(shares)
    for corn in range(corns):
        at = uniform(number, *key, corn) * total
        place = 0
        while place < len(shares) - 1 and at > shares[place]:
            at -= shares[place]
            place += 1
        found[place] += 1
    return found
