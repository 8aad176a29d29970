"""What is told on a terminal while a class is looked for: each better one, and how to stop."""

import sys
from collections.abc import Callable

import typer

from roundwright.foundation import shown
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.document import PlanDocument
from roundwright.services.names import names_of
from roundwright.services.plan_class import OnBetter

HOW_TO_STOP = "Ctrl+C keeps the best so far."
LOOKING_FOR = {
    StillOpen.TIME: "Looking for one that fits the slot",
    StillOpen.PRICE: "Looking for one that suits people better",
    StillOpen.CHANCE: "Looking for one that ends on time more often",
}


def better_words(document: PlanDocument, still: StillOpen) -> str:
    """Say in one line what the best class so far is, and what is still looked for.

    Parameters
    ----------
    document : PlanDocument
        The class, judged.
    still : StillOpen
        What a better one would have.
    """
    names = names_of(document.problem)
    exercises = sorted(document.core.exercises, key=lambda e: e.position)
    listed = ", ".join(names.exercise(e.position) for e in exercises)
    over_s = document.outcome.overrun_s
    late = f", {shown.clock(over_s)} too long" if over_s else ""
    total = shown.clock(document.facts.total_s)
    return f"Best so far: {listed} ({total}{late}). {LOOKING_FOR[still]}…"


def teller(as_json: bool, tell: Callable[[str], object] | None = None) -> OnBetter | None:
    """Give what tells of better classes: on standard error, if a person watches it.

    Parameters
    ----------
    as_json : bool
        One document is asked for: nothing is told.
    tell : callable, optional
        Takes the lines instead of standard error.
    """
    say = None if as_json else tell or progress(as_json)
    if say is None:
        return None
    told: list[tuple[int, int]] = []

    def better(document: PlanDocument, still: StillOpen) -> bool:
        rank = (document.outcome.overrun_s, document.outcome.cost or 0)
        if told and still is not StillOpen.CHANCE and rank >= told[-1]:
            return True  # only as good as the one before
        line = better_words(document, still)
        say(line if told else f"{line} {HOW_TO_STOP}")
        told.append(rank)
        return True

    return better


def progress(as_json: bool) -> Callable[[str], object] | None:
    """Give what tells lines on standard error, if a person watches it and no JSON is asked for."""
    if as_json or not sys.stderr.isatty():
        return None
    return lambda line: typer.echo(line, err=True)
