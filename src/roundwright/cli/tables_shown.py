"""Tables and lists on stdout: no colour and no cut-off words without a terminal."""

import sys
from collections.abc import Sequence
from dataclasses import astuple
from itertools import zip_longest

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from roundwright.cli.plan_words import (
    count_words,
    finish_words,
    heading_words,
    rows_at,
)
from roundwright.foundation import shown
from roundwright.plan.class_count import ClassCount
from roundwright.plan.core import Core
from roundwright.plan.gate.words import words_of
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Finding, Grade
from roundwright.services.names import Names

WIDTH_WITHOUT_TERMINAL = 120
GRADE_WORDS = {Grade.NEVER: "Refused", Grade.STOP: "Stops it", Grade.ADVISE: "To know"}


def console() -> Console:
    """Give the console on stdout."""
    width = None if sys.stdout.isatty() else WIDTH_WITHOUT_TERMINAL
    return Console(file=sys.stdout, width=width, highlight=False, soft_wrap=False)


def say(text: str) -> None:
    """Write a line of plain text on stdout, whatever characters it holds."""
    sys.stdout.write(text + "\n")


def plain(word: str) -> str:
    """Give a vocabulary word as it is read."""
    return word.replace("_", " ")


def print_table(columns: Sequence[str], sections: Sequence[Sequence[Sequence[str]]]) -> None:
    """Print sections of rows under one heading, numbers and words as they are given."""
    table = Table(box=SIMPLE_HEAD, pad_edge=False, show_edge=False)
    for column in columns:
        table.add_column(escape(column), overflow="fold")
    for section in sections:
        for row in section:
            table.add_row(*(escape(cell) for cell in row))
        table.add_section()
    console().print(table)
    say("")


def print_plan(core: Core, problem: Problem, count: ClassCount, names: Names, units: str) -> None:
    """Print a plan: by exercise, each person's version, load, count and rounds; then totals."""
    say(heading_words(core, problem))
    say("")
    sections = []
    for exercise in core.exercises:
        rows = rows_at(core, exercise.position, names, units)
        title = f"{exercise.position} {names.exercise(exercise.position)}"
        labels = [title, f"  full count {count_words(exercise.count)}"]
        sections.append(
            [
                [label or "", *(astuple(row) if row else ())]
                for label, row in zip_longest(labels, rows)
            ]
        )
    columns = ("Exercise", "Person", "Version", "Load", "Count", "Rounds", "Note")
    print_table(columns, sections)
    if problem.spec.burst is not None:
        say(f"Burst {shown.clock(problem.spec.burst.length_s)}: {burst_words(core, names)}")
    tonnage = sum(p.tonnage_g for p in count.people)
    contacts = sum(p.contacts for p in count.people)
    say(f"Lifted {shown.mass(tonnage, units)} in all; foot contacts {contacts}.")
    say(f"Class {finish_words(core, count.total_s)}.")


def burst_words(core: Core, names: Names) -> str:
    """Say who does what in the burst: 'March: Ana B., Bo C.'."""
    who: dict[str, list[str]] = {}
    for dose in core.people:
        what = names.movement(dose.burst) if dose.burst else "no burst"
        who.setdefault(what, []).append(names.person(dose.person_id))
    return "; ".join(f"{what}: {', '.join(people)}" for what, people in sorted(who.items()))


def print_findings(findings: Sequence[Finding], names: Names) -> None:
    """Print findings in words under their grade, the gravest first."""
    for grade in Grade:
        mine = [f for f in findings if f.grade is grade]
        if mine:
            say(f"{GRADE_WORDS[grade]}:")
        for finding in mine:
            say(f"  {words_of(finding, names.people, names.exercises)}")


def print_count(count: ClassCount, problem: Problem, names: Names, units: str) -> None:
    """Print a count: by person and movement, then totals of each person, then times."""
    sections = []
    for person in count.people:
        rows = []
        for k, m in enumerate(person.movements):
            sides = f"{m.left} left, {m.right} right" if m.left or m.right else ""
            total = f"{'about ' if m.expected else ''}{m.total}"
            who = names.person(person.person_id) if k == 0 else ""
            rows.append([who, names.movement(m.movement_id), total, sides])
        sections.append(rows)
    print_table(("Person", "Movement", "Reps", "Sides"), sections)
    totals = [
        [
            names.person(p.person_id),
            str(p.contacts),
            str(p.low_hops),
            shown.mass(p.tonnage_g, units),
            ", ".join(f"{plain(muscle)} {halves / 2:g}" for muscle, halves in p.half_sets.items()),
        ]
        for p in count.people
    ]
    print_table(("Person", "Contacts", "Low hops", "Lifted", "Hard sets"), [totals])
    for whole in count.full_dose:
        reps = ", ".join(f"{names.movement(m.movement_id)} {m.total}" for m in whole.movements)
        say(f"All of it at full dose, {whole.versions} versions: {reps};")
        say(f"  foot contacts {whole.contacts}, low hops {whole.low_hops}")
    for one in count.rounds:
        work = ", ".join(str(s) for s in one.work_s)
        say(f"Round {one.round}: {shown.clock(one.total_s)} (work {work} s)")
    say(f"Class: {shown.clock(count.total_s)} of {shown.clock(problem.spec.slot_s)}")
