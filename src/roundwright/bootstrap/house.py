"""The door of a house on real adapters: argon2, random tokens, the shelves of its database."""

from roundwright.bootstrap.keeping import Keeping
from roundwright.bootstrap.passwords import ArgonHasher, new_id, new_token
from roundwright.services.accounts.signing_in import Door


def door_of(keeping: Keeping) -> Door:
    """Give the door of a house."""
    return Door(keeping.accounts, keeping.trail, ArgonHasher(), new_token, new_id)
