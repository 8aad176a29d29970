"""What is said of rounds and of work and rest, on a command line or on the page, as wishes."""

from collections.abc import Sequence

from roundwright.goals.class_wish import WorkRestWish
from roundwright.hall.class_places import ANY_ROUNDS, MOST_ROUNDS

ANY = "any"
MOST_SECONDS = 600
ROUNDS_WORDS = f"a number from 1 to {MOST_ROUNDS}, or any"
WORK_REST_WORDS = "own, any, heavier, or seconds of work and of change such as 40:20"


def rounds_asked(texts: Sequence[str]) -> tuple[int, ...] | None:
    """Give the numbers of rounds that are named, the asked one first; None: not understood."""
    numbers: list[int] = []
    for text in texts:
        if text == ANY:
            numbers += ANY_ROUNDS
        elif _is_number(text) and 1 <= int(text) <= MOST_ROUNDS:
            numbers.append(int(text))
        else:
            return None
    return tuple(dict.fromkeys(numbers))


def work_rest_asked(text: str) -> WorkRestWish | tuple[int, int] | None:
    """Give who chooses work and rest, or the seconds of work and of change; None: neither."""
    if text in tuple(WorkRestWish):
        return WorkRestWish(text)
    work, _, change = text.partition(":")
    if not (_is_number(work) and _is_number(change)):
        return None
    work_s, change_s = int(work), int(change)
    return (work_s, change_s) if 0 < work_s <= MOST_SECONDS >= change_s else None


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= 4
