"""Plan ids for tests, and the stops that no choice can mend."""

from uuid import UUID

OF_THE_WISH = {"slot.overrun", "space.floor", "time.below_floor"}
"""Stops that no choice of exercises, versions, kit or groups can mend."""


def plan_id(seed: int) -> str:
    return str(UUID(int=seed, version=4))
