"""How many wrong tries somebody has before they must wait: counted by name and by address."""

from collections import deque
from datetime import datetime, timedelta
from threading import Lock

MOST_TRIES = 8
"""Wrong tries within the window, by name or by address; our choice."""
WINDOW = timedelta(minutes=15)
"""Our choice."""
MOST_KEYS = 10_000
"""Names and addresses that are remembered at once; the oldest are forgotten. Our choice."""


class Attempts:
    """Wrong tries by key within a sliding window; the time is passed in."""

    def __init__(self, most: int = MOST_TRIES, window: timedelta = WINDOW) -> None:
        self._most, self._window = most, window
        self._tries: dict[str, deque[datetime]] = {}
        self._lock = Lock()

    def wait(self, keys: tuple[str, ...], now: datetime) -> timedelta:
        """Give how long must be waited before the next try with any of the keys; zero: now."""
        with self._lock:
            return max((self._wait(key, now) for key in keys), default=timedelta())

    def failed(self, keys: tuple[str, ...], now: datetime) -> None:
        """Count a wrong try with each key."""
        with self._lock:
            for key in keys:
                tries = self._tries.pop(key, deque(maxlen=self._most))
                tries.append(now)
                self._tries[key] = tries
            while len(self._tries) > MOST_KEYS:
                self._tries.pop(next(iter(self._tries)))

    def forget(self, key: str) -> None:
        """Forget the wrong tries with a key, after a right one."""
        with self._lock:
            self._tries.pop(key, None)

    def _wait(self, key: str, now: datetime) -> timedelta:
        tries = self._tries.get(key)
        if tries is None or len(tries) < self._most:
            return timedelta()
        return max(timedelta(), tries[0] + self._window - now)
