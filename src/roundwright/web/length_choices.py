"""The lists on the page from which rounds, and work and rest, of another class are taken."""

from dataclasses import dataclass
from urllib.parse import parse_qs

from starlette.requests import Request

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.words import say
from roundwright.goals.class_wish import WorkRestWish
from roundwright.hall.class_places import ANY_ROUNDS
from roundwright.plan.rule_table import RuleTable
from roundwright.services.length_wishes import (
    ROUNDS_WORDS,
    WORK_REST_WORDS,
    rounds_asked,
    work_rest_asked,
)

MOST_OFFERED = 6
"""The most rounds that the list on the page names; our choice."""
MOST_BYTES = 1_000
AS_IT_SAYS = "as the class says"


@dataclass(frozen=True, slots=True)
class Lengths:
    """What was taken from the lists; empty: as the class's file says."""

    rounds: str = ""
    work_rest: str = ""

    @property
    def rounds_wished(self) -> tuple[int, ...]:
        """The numbers of rounds that will do; none: the class's own.

        Raises
        ------
        BadInputError
            When what was sent is not of the list.
        """
        found = rounds_asked((self.rounds,)) if self.rounds else ()
        if found is None:
            raise _fault("rounds", self.rounds, ROUNDS_WORDS)
        return found

    @property
    def work_rest_wished(self) -> WorkRestWish | tuple[int, int] | None:
        """Who chooses work and rest, or the seconds of both; None: as the class says.

        Raises
        ------
        BadInputError
            When what was sent is not of the list.
        """
        if not self.work_rest:
            return None
        found = work_rest_asked(self.work_rest)
        if found is None:
            raise _fault("work_rest", self.work_rest, WORK_REST_WORDS)
        return found


AS_THE_CLASS_SAYS = Lengths()


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a list: what it sends, what it says, and whether it is the one taken last."""

    value: str
    words: str
    is_taken: bool


def rounds_list(taken: Lengths) -> tuple[Entry, ...]:
    """Give the list of rounds."""
    best = say("the best of {least} to {most}", least=min(ANY_ROUNDS), most=max(ANY_ROUNDS))
    words = {"": say(AS_IT_SAYS), "any": best}
    words |= {str(n): str(n) for n in range(1, MOST_OFFERED + 1)}
    return tuple(Entry(value, said, value == taken.rounds) for value, said in words.items())


def work_rest_list(taken: Lengths) -> tuple[Entry, ...]:
    """Give the list of work and rest: who chooses, then the pairs of the shipped table."""
    words = {
        "": say(AS_IT_SAYS),
        "any": say("what fits who is there"),
        "heavier": say("what fits heavier loads"),
    }
    words |= {
        f"{pair.work_s}:{pair.rest_s}": say(
            "{work} s of work, {change} s to change", work=pair.work_s, change=pair.rest_s
        )
        for pair in sorted(RuleTable().work_rests, key=lambda p: (p.work_s, p.rest_s))
    }
    return tuple(Entry(value, said, value == taken.work_rest) for value, said in words.items())


async def lengths_sent(request: Request) -> Lengths:
    """Read what a pressed button sent; a button without lists sends nothing."""
    body = await request.body()
    try:
        sent = parse_qs(body[:MOST_BYTES].decode("ascii"), max_num_fields=4)
    except ValueError as error:
        raise _fault("form", "", "what the lists on the page hold") from error
    return Lengths(rounds=sent.get("rounds", [""])[0], work_rest=sent.get("work_rest", [""])[0])


def _fault(field: str, value: str, expected: str) -> BadInputError:
    fault = Fault(code="field.value", file="page", field=field, value=value, expected=expected)
    return BadInputError([fault])
