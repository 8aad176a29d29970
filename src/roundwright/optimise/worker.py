"""One warm process in which searches run, so that a page answers while one is made.

It is started afresh when it was killed, hung past its guard, or was told to stop. What
goes in and comes out is JSON as bytes; nothing is unpickled, and whoever asked has the
gate judge what came back, in the asking process. A task may tell of its best so far before it
answers: what was told is with the caller, whatever becomes of the process.
"""

import json
import multiprocessing
import signal
from collections.abc import Callable, Mapping
from importlib import import_module
from inspect import signature
from multiprocessing.connection import Connection
from threading import Lock, Timer
from typing import Literal

from roundwright.foundation.collecting import collect_seldom
from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    DocumentError,
    NoPlanError,
    NotFoundError,
    RoundwrightError,
    StoreError,
    UndecidedError,
)
from roundwright.foundation.faults import Fault
from roundwright.plan.outcome import StoppedBy

GUARD_S = 120.0
"""Seconds after which a call is given up; work is counted, this only guards. Our choice."""
_JOIN_S = 5.0
_GOOD, _BAD, _TOLD = b"+", b"-", b"~"
_KINDS: dict[str, type[RoundwrightError]] = {
    kind.code: kind
    for kind in (
        NotFoundError,
        ChangedMeanwhileError,
        NoPlanError,
        UndecidedError,
        StoreError,
        DocumentError,
    )
}
_AGAIN = "Ask again: the planner has been started afresh."

Tell = Callable[[bytes], None]
"""What a task tells with, before its answer."""
Task = Callable[[bytes], bytes] | Callable[[bytes, Tell], bytes]
"""From bytes to bytes; a task with a second parameter is given what to tell with."""
Told = Callable[[bytes], bool]
"""Hears what a task tells, in the asking process; gives whether it is to go on."""
Ended = Literal[StoppedBy.GUARD, StoppedBy.CALLER]
_Spawn = multiprocessing.get_context("spawn")


class Worker:
    """One process that does named tasks, one at a time.

    Parameters
    ----------
    tasks : mapping
        Name of a task to where it is: `module:function`, from bytes to bytes (see `Task`).
    preload : tuple of str
        Modules that are loaded before the first call.
    guard_s : float
        Seconds that a call may take.
    """

    def __init__(
        self, tasks: Mapping[str, str], *, preload: tuple[str, ...] = (), guard_s: float = GUARD_S
    ) -> None:
        self._tasks = dict(tasks)
        self._preload = preload
        self._guard_s = guard_s
        self._turn = Lock()
        self._state = Lock()
        self._calls = 0
        self._is_busy = False
        self._ended_by: Ended | None = None
        self._process: multiprocessing.process.BaseProcess | None = None
        self._pipe: Connection | None = None

    @property
    def pid(self) -> int | None:
        """The process's number, None when there is none."""
        process = self._process
        return process.pid if process is not None else None

    def start(self) -> None:
        """Start the process, so that it is warm when the first call comes."""
        with self._turn:
            self._ready()

    def call(self, name: str, payload: bytes, guard_s: float | None = None) -> bytes:
        """Have a task done and give its answer.

        Raises
        ------
        UndecidedError
            It took longer than the guard, or was stopped.
        RoundwrightError
            The process ended in the middle; or what the task itself raised, as the same kind.
        """
        answer = self.try_call(name, payload, guard_s)
        if answer is StoppedBy.GUARD:
            raise UndecidedError("The search took longer than it may and was ended.")
        if isinstance(answer, StoppedBy):
            raise UndecidedError("The search was stopped.", _AGAIN)
        return answer

    def try_call(
        self, name: str, payload: bytes, guard_s: float | None = None, told: Told | None = None
    ) -> bytes | Ended:
        """Have a task done and give its answer, or what ended it: the guard, `stop`, or `told`.

        Parameters
        ----------
        name, payload
            Which task, and what it is given.
        guard_s : float, optional
            Seconds that it may take; the worker's own when left out.
        told : callable, optional
            Hears each thing that the task tells before its answer; with False the call ends.
            What it raises ends the call too and is raised here.

        Raises
        ------
        RoundwrightError
            The process ended in the middle; or what the task itself raised, as the same kind.
        """
        if name not in self._tasks:
            raise RoundwrightError(f"There is no task '{name}' for the planner.")
        with self._turn:
            pipe = self._ready()
            with self._state:
                self._calls += 1
                self._is_busy, self._ended_by = True, None
                call = self._calls
            seconds = self._guard_s if guard_s is None else guard_s
            guard = Timer(seconds, self._end_call, (StoppedBy.GUARD, call))
            guard.daemon = True
            guard.start()
            try:
                _send(pipe, name.encode() + b"\n" + payload)
                answer = self._heard(pipe, told)
            except _Gone as error:
                self._end()
                if self._ended_by is not None:
                    return self._ended_by
                raise RoundwrightError("The planner ended in the middle of it.", _AGAIN) from error
            except BaseException:
                self._end()  # what it would still tell is for nobody
                raise
            finally:
                guard.cancel()
                with self._state:
                    self._is_busy, ended_by = False, self._ended_by
                if ended_by is not None:
                    self._end()
        if isinstance(answer, StoppedBy):
            return answer
        if answer[:1] == _BAD:
            raise _error_of(answer[1:])
        return answer[1:]

    def stop(self) -> bool:
        """End the call that is being done, if there is one, and say whether there was."""
        return self._end_call(StoppedBy.CALLER)

    def _end_call(self, by: Ended, call: int | None = None) -> bool:
        """End the call that is being done, or only a certain one."""
        with self._state:
            process = self._process
            if not self._is_busy or process is None or call not in (None, self._calls):
                return False
            self._ended_by = by
            process.kill()
            return True

    def _heard(self, pipe: Connection, told: Told | None) -> bytes | Ended:
        """Hand on what the task tells, and give its answer."""
        while (message := _receive(pipe))[:1] == _TOLD:
            if told is not None and not told(message[1:]):
                self.stop()
                return StoppedBy.CALLER
        return message

    def close(self) -> None:
        """End the process; a call that is being done is stopped."""
        self.stop()
        with self._turn:
            self._end()

    def _ready(self) -> Connection:
        """Give the pipe of a live process, starting one where there is none."""
        if self._process is not None and self._pipe is not None and self._process.is_alive():
            return self._pipe
        self._end()
        ours, theirs = _Spawn.Pipe()
        process = _Spawn.Process(
            target=_serve, args=(theirs, self._tasks, self._preload), daemon=True
        )
        process.start()
        theirs.close()
        with self._state:
            self._process, self._pipe = process, ours
        return ours

    def _end(self) -> None:
        with self._state:
            process, pipe = self._process, self._pipe
            self._process = self._pipe = None
        if process is not None:
            process.kill()
            process.join(_JOIN_S)
            process.close()
        if pipe is not None:
            pipe.close()


class _Gone(Exception):
    """There is nobody at the other end of the pipe any more."""


def _send(pipe: Connection, message: bytes) -> None:
    try:
        pipe.send_bytes(message)
    except OSError as error:
        raise _Gone from error


def _receive(pipe: Connection) -> bytes:
    try:
        return pipe.recv_bytes()
    except (EOFError, OSError) as error:
        raise _Gone from error


def _serve(pipe: Connection, tasks: Mapping[str, str], preload: tuple[str, ...]) -> None:
    """Do tasks until the other end is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for module in preload:
        import_module(module)
    collect_seldom()

    def tell(words: bytes) -> None:
        pipe.send_bytes(_TOLD + words)

    while True:
        try:
            name, _, payload = pipe.recv_bytes().partition(b"\n")
            pipe.send_bytes(_answer(tasks[name.decode()], payload, tell))
        except (EOFError, OSError):
            return


def _answer(place: str, payload: bytes, tell: Tell) -> bytes:
    try:
        module, _, name = place.partition(":")
        task = getattr(import_module(module), name)
        more = (tell,) if len(signature(task).parameters) > 1 else ()
        answer: bytes = task(payload, *more)
        return _GOOD + answer
    except RoundwrightError as error:
        return _BAD + json.dumps(error.as_problem()).encode()
    except Exception as error:
        kind = type(error).__name__  # its text may hold what a person wrote
        problem = RoundwrightError(f"Something went wrong inside the planner ({kind}).")
        return _BAD + json.dumps(problem.as_problem()).encode()


def _error_of(told: bytes) -> RoundwrightError:
    """Make the same kind of error again out of its problem details."""
    problem = json.loads(told)
    faults = [Fault.model_validate(fault) for fault in problem.get("faults", ())]
    if faults:
        return BadInputError(faults)
    kind = _KINDS.get(str(problem["type"]).removeprefix("urn:roundwright:"), RoundwrightError)
    return kind(str(problem["detail"]), str(problem["next_step"]))
