"""What was judged in this process: the very same core and problem are not judged twice.

Judging is a pure function, so a verdict holds as long as what was judged is the same. What is
compared is which objects they are, never what they say of themselves: a plan that was read from
a file, unpickled or copied is another object and is judged. The objects are remembered weakly.
"""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from threading import Lock
from typing import Any
from weakref import ReferenceType, ref

from roundwright.plan.core import Core
from roundwright.plan.gate.judge import judge
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Verdict

MOST_REMEMBERED = 64
"""Verdicts that are remembered at once; our choice."""
Key = tuple[int, int]
"""Identities of a core and a problem, as long as both live."""


@dataclass(frozen=True, slots=True)
class _Judged:
    """What was judged, as it was then, and the verdict."""

    core: ReferenceType[Core]
    problem: ReferenceType[Problem]
    digest: str
    parts: tuple[object, ...]
    verdict: Verdict

    def is_of(self, core: Core, problem: Problem, digest: str) -> bool:
        """Say whether it is a verdict on this core and problem as they are now."""
        if self.core() is not core or self.problem() is not problem or self.digest != digest:
            return False
        now = _parts(problem)
        pairs = zip(self.parts, now, strict=False)
        return len(self.parts) == len(now) and all(one is other for one, other in pairs)


class _Memory:
    """The last verdicts, for threads that judge at the same time."""

    def __init__(self) -> None:
        self._known: OrderedDict[Key, _Judged] = OrderedDict()
        self._turn = Lock()

    def find(self, core: Core, problem: Problem, digest: str) -> Verdict | None:
        with self._turn:
            known = self._known.get((id(core), id(problem)))
        return known.verdict if known and known.is_of(core, problem, digest) else None

    def keep(self, core: Core, problem: Problem, digest: str, verdict: Verdict) -> None:
        key = id(core), id(problem)
        told: Callable[[Any], None] = partial(self._forget, key)
        judged = _Judged(ref(core, told), ref(problem, told), digest, _parts(problem), verdict)
        with self._turn:
            self._known.pop(key, None)
            self._known[key] = judged
            gone = [
                self._known.popitem(last=False) for _ in range(len(self._known) - MOST_REMEMBERED)
            ]
        gone.clear()

    def _forget(self, key: Key, was: object) -> None:
        """Forget what is not there any more; the dead object itself tells."""
        known = self._known.get(key)
        if known is not None and was in (known.core, known.problem):
            self._known.pop(key, None)


_MEMORY = _Memory()


def judge_once(core: Core, problem: Problem) -> Verdict:
    """Judge a plan, or give the verdict that these very objects got before.

    Parameters
    ----------
    core : Core
        The plan. Its digest is worked out anew, so that a core that was changed in place
        is judged; so is one of a class of its own, that may say any digest.
    problem : Problem
        What it answers to. Another person, class, kit or table of rules in it than
        when it was judged makes it be judged; inside of these nothing is looked at, for
        they are frozen.

    Returns
    -------
    Verdict
        As `judge`.
    """
    if type(core) is not Core:
        return judge(core, problem)
    try:
        digest = core.digest
    except (TypeError, ValueError):
        return judge(core, problem)
    known = _MEMORY.find(core, problem, digest)
    if known is None:
        known = judge(core, problem)
        _MEMORY.keep(core, problem, digest, known)
    return known


def _parts(problem: Problem) -> tuple[object, ...]:
    """Give the frozen parts that a problem is made of, people one by one."""
    return (*vars(problem).values(), *problem.people.values())
