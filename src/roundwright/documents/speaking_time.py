"""How long words take to say, and how long an exercise takes to show.

Seconds of showing and words a minute are common practice, no source.
"""

from collections.abc import Iterable

WORDS_A_MINUTE = 130
"""Words that a coach says clearly in a loud room; common practice, no source."""

KNOWN_S, NEW_S = 20, 40
KNOWN_SEQUENCE_S, NEW_SEQUENCE_S, NEW_LONG_SEQUENCE_S = 30, 60, 80
LONG_SEQUENCE_PARTS = 4
FURTHER_VERSION_S = 10
WALK_ROUND_S = 15
FIRST_TIMER_BRIEF_S = 60


def spoken_s(lines: Iterable[str]) -> int:
    """Give how long lines take to say, in whole seconds, rounded up.

    Parameters
    ----------
    lines : iterable of str
        What is said; words are what blanks part.

    Notes
    -----
    seconds = 60 x words / `WORDS_A_MINUTE`.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> spoken_s(["Chest up.", "Push the floor away, then stand tall."])
    5
    """
    words = sum(len(line.split()) for line in lines)
    return -(-60 * words // WORDS_A_MINUTE)


def showing_s(*, parts: int, versions: int, is_known: bool, is_station: bool = False) -> int:
    """Give how long showing an exercise takes, in seconds.

    Parameters
    ----------
    parts : int
        Different movements of one rep, >= 1.
    versions : int
        How many versions are shown, >= 1; each after the first costs more.
    is_known : bool
        Whether the class did the exercise lately.
    is_station : bool
        Whether the class walks round to look at it.

    References
    ----------
    Common practice, no source: known movement 20, new 40; known sequence 30, new one
    60, of four or more parts 80; each further version 10; walking round 15 a station.

    Examples
    --------
    >>> showing_s(parts=1, versions=3, is_known=False)
    60
    """
    if parts == 1:
        first = KNOWN_S if is_known else NEW_S
    elif is_known:
        first = KNOWN_SEQUENCE_S
    else:
        first = NEW_LONG_SEQUENCE_S if parts >= LONG_SEQUENCE_PARTS else NEW_SEQUENCE_S
    return first + FURTHER_VERSION_S * (versions - 1) + (WALK_ROUND_S if is_station else 0)
