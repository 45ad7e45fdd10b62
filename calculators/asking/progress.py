"""How far a long working is, told to whoever listens: the page shows it while one waits."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

_listeners: list[Callable[[str, float], object]] = []


@contextmanager
def listening(listener: Callable[[str, float], object] | None) -> Iterator[None]:
    """Have a listener told how far a working is, by name of the step and percent done; None listens to nothing."""
    if listener is not None:
        _listeners.append(listener)
    try:
        yield
    finally:
        if listener is not None:
            _listeners.remove(listener)


def tell(step: str, percent: float) -> None:
    """Tell how far a working is: the step in words, and percent done [%]."""
    for listener in _listeners:
        listener(step, min(max(percent, 0.0), 100.0))
