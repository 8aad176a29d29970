"""An archive of a hall that somebody sent and looks at before it is taken in."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

HELD_FOR = timedelta(minutes=15)
MOST_HELD = 4
"""How long an archive is held, and how many at once; our choice."""


@dataclass(frozen=True, slots=True)
class HeldArchive:
    """The archive, when it came, and the hall (with its version) that it was looked at beside."""

    packed: bytes = field(repr=False)
    at: datetime
    hall_id: str
    version: int


def hold(held: dict[str, HeldArchive], account_id: str, one: HeldArchive) -> None:
    """Hold an archive for an account; what was held too long, or longest of too many, goes."""
    for old in [key for key, was in held.items() if one.at - was.at > HELD_FOR]:
        del held[old]
    held.pop(account_id, None)
    while len(held) >= MOST_HELD:
        del held[min(held, key=lambda key: held[key].at)]
    held[account_id] = one


def taken(
    held: dict[str, HeldArchive], account_id: str, hall_id: str, now: datetime
) -> HeldArchive | None:
    """Give what an account looked at, and hold it no more; None: nothing, or too late."""
    one = held.pop(account_id, None)
    if one is None or one.hall_id != hall_id or now - one.at > HELD_FOR:
        return None
    return one
