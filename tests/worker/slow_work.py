"""Tasks for the process under test: one that answers, and others that go wrong."""

import os
import signal

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.foundation.faults import Fault


def echo(payload: bytes) -> bytes:
    return payload


def own_number(payload: bytes) -> bytes:
    return str(os.getpid()).encode()


def never_ends(payload: bytes) -> bytes:
    """Tell by a pipe's end in the file system that it has begun, then hang."""
    with open(payload.decode(), "wb") as begun:  # noqa: PTH123 - a named pipe
        begun.write(b"begun")
    while True:
        signal.pause()


def finds_faults(payload: bytes) -> bytes:
    raise BadInputError([Fault(code="field.value", file="wishes", field="keep", value="x")])


def finds_nothing(payload: bytes) -> bytes:
    raise NotFoundError("There is no such thing.", "Look elsewhere.")


def breaks(payload: bytes) -> bytes:
    raise ValueError("canary: what a person wrote")


def tells_and_answers(payload: bytes, tell) -> bytes:
    for part in payload.split(b","):
        tell(part)
    return b"the last of " + payload


def tells_and_hangs(payload: bytes, tell) -> bytes:
    tell(b"first")
    tell(b"second")
    return never_ends(payload)


def tells_for_ever(payload: bytes, tell) -> bytes:
    while True:
        tell(payload)
