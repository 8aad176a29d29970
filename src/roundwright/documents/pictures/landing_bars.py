"""Landings of each person against their own limit; rope skips stand apart and are never added."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.documents.pictures.ink import (
    DOTTED,
    HAIR,
    INK,
    SLANTED,
    SMALL,
    SOFT,
    Picture,
    Table,
    drawing,
    fitted,
    line,
    rect,
    words_at,
)
from roundwright.documents.plan_view import PlanView
from roundwright.foundation.words import say
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand
from roundwright.plan.count import count_of
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.landings import PRACTISED
from roundwright.plan.gate.people_limits import contact_limit, low_hop_limit

NAME = "landings"
WIDTH, LEFT, RIGHT, TOP, ROW, BAR = 900, 190, 130, 118, 32, 20
WORDS = (
    "Slanted: landings of the class; dotted: landings practised in the warm-up. "
    "The upright line is the person's own limit for the class."
)


HEADS = ("Person", "Landings", "Practised", "At most", "Rope skips", "Skips at most")


@dataclass(frozen=True, slots=True)
class Landed:
    """One person's landings, those practised, their limit; rope skips and their limit."""

    person_id: str
    landings: int
    practised: int
    limit: int
    skips: int
    skip_limit: int


def landed(document: PlanDocument) -> tuple[Landed, ...]:
    """Count everybody's landings and skips beside what each may do.

    Notes
    -----
    Counted afresh from the core, bursts included; limits follow classes done, level and
    clearance, and are 0 for whoever may not jump at all. What was practised in the warm-up
    does not count against them.

    References
    ----------
    Limits: common practice, no source.
    """
    core, problem = document.core, document.problem
    movements, rules = problem.library.movements, problem.rules
    found = []
    for count in count_of(core, problem).people:
        person = problem.people[count.person_id]
        may_land = person.caps.get(Demand.IMPACT, HIGHEST_DEMAND) > 0
        drills = [
            p.versions[count.person_id]
            for p in core.pieces
            if p.why == "landing" and count.person_id in p.versions
        ]
        found.append(
            Landed(
                person_id=count.person_id,
                landings=count.contacts,
                practised=sum(PRACTISED * movements[m].contacts_a_rep for m in drills),
                limit=contact_limit(person, rules) if may_land else 0,
                skips=count.low_hops,
                skip_limit=low_hop_limit(person, rules) if may_land else 0,
            )
        )
    return tuple(found)


def landing_bars(document: PlanDocument, names: Mapping[str, str], units: str) -> Picture:
    """Draw everybody's landings against their own limit.

    It shows people's limits, so it stays on the coach's side.

    Parameters
    ----------
    document : PlanDocument
        The plan.
    names : mapping
        Shown names by person id.
    units : {'kg', 'lb'}
        Not shown; the same for all pictures of a plan.

    Returns
    -------
    Picture
        A bar a person; its table has rope skips too.
    """
    view = PlanView(document, names, units)
    by_id = {one.person_id: one for one in landed(document)}
    rows = [by_id[p] for p in view.order]
    top_value = max([10, *(max(r.landings + r.practised, r.limit) for r in rows)])
    scale = (WIDTH - LEFT - RIGHT) / top_value
    bottom = TOP + ROW * len(rows)
    title = _title(view, rows)
    parts = [
        words_at(24, 34, title, size=22, weight=600),
        words_at(24, 58, say(WORDS), fill=SOFT),
        *_axis(top_value, scale, bottom),
        *(
            part
            for n, row in enumerate(rows)
            for part in _drawn(row, view.name(row.person_id), n, scale)
        ),
    ]
    svg = drawing(NAME, WIDTH, bottom + 20, title, say(WORDS), parts)
    return Picture(NAME, title, say(WORDS), svg, (_table(view, rows),))


def _title(view: PlanView, rows: list[Landed]) -> str:
    over = [view.name(r.person_id) for r in rows if r.landings > r.limit]
    if over:
        return say("Landings: over the limit for {people}", people=", ".join(over))
    who = sum(1 for r in rows if r.landings)
    if not who:
        return say("Landings: nobody lands")
    return say("Landings: {n} of {all} people land, all within their limit", n=who, all=len(rows))


def _axis(top_value: int, scale: float, bottom: float) -> list[str]:
    found = []
    for number in range(0, top_value + 1, 10 if top_value <= 80 else 20):
        x = LEFT + number * scale
        found.append(rect(x - 0.5, TOP - 8, 1, bottom - TOP + 8, fill=HAIR))
        found.append(words_at(x, TOP - 14, str(number), size=SMALL, anchor="middle"))
    return found


def _drawn(row: Landed, name: str, n: int, scale: float) -> list[str]:
    top = TOP + ROW * n
    base = top + 15
    found = [words_at(LEFT - 12, base, fitted(name, LEFT - 36), anchor="end", weight=500)]
    if row.landings:
        said = say(
            "{name}: {n} landings of at most {limit}", name=name, n=row.landings, limit=row.limit
        )
        fill = SLANTED.fill if row.landings <= row.limit else INK
        found.append(rect(LEFT, top, row.landings * scale, BAR, fill=fill, line=1, more=said))
    if row.practised:
        found.append(
            rect(
                LEFT + row.landings * scale,
                top + 4,
                row.practised * scale,
                BAR - 8,
                fill=DOTTED.fill,
                line=0.8,
                more=say("{name}: {n} landings practised", name=name, n=row.practised),
            )
        )
    x = LEFT + row.limit * scale
    found.append(line(x, top - 4, x, top + BAR + 4, width=3))
    words = say("none allowed")
    if row.limit:
        words = say("{n} of {all}", n=row.landings, all=row.limit)
    if row.landings > row.limit:
        words = say("{n}, over {limit}", n=row.landings, limit=row.limit)
    found.append(words_at(WIDTH - RIGHT + 12, base, words, weight=500))
    return found


def _table(view: PlanView, rows: list[Landed]) -> Table:
    heads = tuple(map(say, HEADS))
    return Table(
        say("Landings and rope skips of each person"),
        heads,
        tuple(
            (
                view.name(r.person_id),
                *map(str, (r.landings, r.practised, r.limit, r.skips, r.skip_limit)),
            )
            for r in rows
        ),
    )
