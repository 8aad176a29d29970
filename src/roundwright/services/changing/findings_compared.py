"""Which findings a change brought, and which it took away: section C5."""

from collections.abc import Mapping, Sequence

from roundwright.plan.verdict import Finding, Grade

Key = tuple[str, Grade, tuple[str, ...], tuple[int, ...]]


def compared(
    before: Sequence[Finding], after: Sequence[Finding], came_from: Mapping[int, int]
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """Give the findings that are new and those that are gone.

    Two are the same when rule, grade, people and places are; figures such as a chance may
    differ. Round and window are not compared: they shift with the class's length.

    Parameters
    ----------
    came_from : mapping of int to int
        New positions to the old ones that stand there now.
    """
    new_of = {old: new for new, old in came_from.items()}
    was = {_key(f, tuple(new_of.get(k, -k) for k in f.positions)) for f in before}
    now = {_key(f, f.positions) for f in after}
    return (
        tuple(f for f in after if _key(f, f.positions) not in was),
        tuple(
            f for f in before if _key(f, tuple(new_of.get(k, -k) for k in f.positions)) not in now
        ),
    )


def _key(finding: Finding, positions: tuple[int, ...]) -> Key:
    return finding.rule, finding.grade, finding.persons, tuple(sorted(positions))
