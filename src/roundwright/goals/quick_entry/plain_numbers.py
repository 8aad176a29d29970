"""Numbers, durations, times of day and dates as people write them, and back in words."""

import re
from datetime import date, time
from decimal import Decimal

WORDS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
    "twenty",
)  # fmt: skip
"""Number words from one to twenty; larger numbers are written in digits."""
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip

NUMBER = r"(?:[0-9]{1,5}|(?:" + "|".join(sorted(WORDS, key=len, reverse=True)) + r")\b)"
"""A pattern for one whole number, in digits or as a word."""
UNIT_S = r"(?:s|secs?|seconds?|mins?|minutes?|h|hrs?|hours?)\b"
DURATION = (
    rf"(?:{NUMBER}(?:\.5)?\s*{UNIT_S}(?:\s*(?:and\s+)?{NUMBER}\s*{UNIT_S})?"
    r"|an? (?:minute|hour)\b|half (?:a minute|an hour)\b)"
)
"""A pattern for a duration with its unit."""
TIME = r"(?:[0-9]{1,2}[:.][0-9]{2}(?: ?[ap]m)?|[0-9]{1,2} ?[ap]m)"
"""A pattern for a time of day."""
DATE = (
    r"(?:[0-9]{4}-[0-9]{2}-[0-9]{2}|[0-9]{1,2}(?:st|nd|rd|th)? (?:of )?(?:"
    + "|".join(MONTHS)
    + r") [0-9]{4})"
)
"""A pattern for a date with its year."""

_PIECE = re.compile(rf"({NUMBER})(\.5)?\s*({UNIT_S})")
_NAMED = {"a minute": 60, "an hour": 3600, "half a minute": 30, "half an hour": 1800}


def number_of(text: str) -> int:
    """Read what `NUMBER` matches.

    Examples
    --------
    >>> number_of("12"), number_of("twelve")
    (12, 12)
    """
    return WORDS.index(text) + 1 if text in WORDS else int(text)


def seconds_of(text: str) -> int:
    """Read what `DURATION` matches, in seconds.

    Examples
    --------
    >>> seconds_of("1 min 30 s"), seconds_of("an hour"), seconds_of("1.5 min")
    (90, 3600, 90)
    """
    if text in _NAMED:
        return _NAMED[text]
    total = Decimal(0)
    for number, half, unit in _PIECE.findall(text):
        grain = 3600 if unit[0] == "h" else 60 if unit[0] == "m" else 1
        total += (number_of(number) + (Decimal("0.5") if half else 0)) * grain
    return round(total)


def time_of(text: str) -> time | None:
    """Read what `TIME` matches; None where there is no such time of day.

    Examples
    --------
    >>> time_of("18.30"), time_of("6:30 pm"), time_of("25:00")
    (datetime.time(18, 30), datetime.time(18, 30), None)
    """
    numbers = [int(n) for n in re.findall("[0-9]+", text)]
    hour, minute = numbers[0], numbers[1] if len(numbers) > 1 else 0
    if text.endswith("m"):
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if text.endswith("pm") else 0)
    return time(hour, minute) if hour < 24 and minute < 60 else None


def date_of(text: str) -> date | None:
    """Read what `DATE` matches; None where there is no such day.

    Examples
    --------
    >>> date_of("2026-03-31"), date_of("31 march 2026"), date_of("31 april 2026")
    (datetime.date(2026, 3, 31), datetime.date(2026, 3, 31), None)
    """
    numbers = [int(n) for n in re.findall("[0-9]+", text)]
    month = next((MONTHS.index(m) + 1 for m in MONTHS if m in text), None)
    year, month, day = numbers if month is None else (numbers[1], month, numbers[0])
    try:
        return date(year, month, day)
    except ValueError:
        return None


def duration_words(seconds: int) -> str:
    """Write a duration, from two minutes on whole minutes as minutes.

    Examples
    --------
    >>> duration_words(60), duration_words(90), duration_words(300)
    ('60 s', '90 s', '5 min')
    """
    whole, rest = divmod(seconds, 60)
    return f"{whole} min" if whole > 1 and not rest else f"{seconds} s"


def date_words(day: date) -> str:
    """Write a date.

    Examples
    --------
    >>> date_words(date(2026, 3, 31))
    '31 March 2026'
    """
    return f"{day.day} {MONTHS[day.month - 1].capitalize()} {day.year:04d}"
