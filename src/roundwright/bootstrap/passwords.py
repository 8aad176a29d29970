"""Password hashes by argon2id, and random tokens and ids of the operating system."""

import secrets
import uuid

from argon2 import PasswordHasher as Argon2
from argon2.exceptions import Argon2Error, InvalidHashError

TOKEN_BYTES = 24
"""192 bits."""


class ArgonHasher:
    """argon2id with the library's own recommended cost."""

    def __init__(self) -> None:
        self._argon = Argon2()

    def hash(self, password: str) -> str:
        """Give a hash with its own salt."""
        return self._argon.hash(password)

    def matches(self, password_hash: str, password: str) -> bool:
        """Say whether a password is the one that was hashed."""
        try:
            return self._argon.verify(password_hash, password)
        except (Argon2Error, InvalidHashError):
            return False


def new_token() -> str:
    """Give a fresh random token."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def new_id() -> str:
    """Give a fresh UUID v4 as text."""
    return str(uuid.uuid4())  # noqa: TID251 - the one source of ids that do not repeat
