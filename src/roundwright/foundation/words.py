"""The language in which the domain speaks: sentences are written in English and said in it.

Whoever answers somebody says first, for the work that follows, in which language and in which
units of mass: `speak_to`, or for a while `spoken_to`. Where nobody did, it is English and what the
hall weighs in. Nothing that is kept or judged may depend on it: only what is shown.
"""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field

SOURCE_LANGUAGE = "en-GB"


@dataclass(frozen=True, slots=True)
class Speech:
    """A language: its texts by their English words, and how it writes figures.

    Attributes
    ----------
    language : str
        A tag as 'en-GB' or 'de'.
    texts : mapping
        By the English text; what is missing is said in English.
    decimal : str
        The mark before decimals.
    nouns_are_capital : bool
        Whether a name keeps its capital within a sentence.
    units : str
        kg or lb of whoever listens; empty: those of the hall.
    """

    language: str = SOURCE_LANGUAGE
    texts: Mapping[str, str] = field(default_factory=dict)
    decimal: str = "."
    nouns_are_capital: bool = False
    units: str = ""

    def say(self, text: str, **values: object) -> str:
        """Give a text in this language, with its places `{name}` filled."""
        found = self.texts.get(text) or text
        return found.format(**values) if values else found


ENGLISH = Speech()
_SPEECH: ContextVar[Speech] = ContextVar("roundwright_speech", default=ENGLISH)


def speech() -> Speech:
    """Give the language that is spoken here."""
    return _SPEECH.get()


def speak_to(listener: Speech) -> None:
    """Speak so from here on, in this task and in what it starts."""
    _SPEECH.set(listener)


@contextmanager
def spoken_to(listener: Speech) -> Iterator[None]:
    """Speak so for a while."""
    before = _SPEECH.set(listener)
    try:
        yield
    finally:
        _SPEECH.reset(before)


def say(text: str, **values: object) -> str:
    """Give an English text in the language that is spoken, with its places filled."""
    return _SPEECH.get().say(text, **values)


_FEW = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)


def number_word(value: int) -> str:
    """Give a number up to twelve in words, a larger one in figures.

    Examples
    --------
    >>> number_word(3), number_word(13)
    ('three', '13')
    """
    return say(_FEW[value]) if 0 <= value < len(_FEW) else str(value)


def one_or_more(number: int, one: str, more: str, /, **values: object) -> str:
    """Give the text for one, or for another number: `{n}` in figures, `{number}` in words."""
    return say(one if number == 1 else more, n=number, number=number_word(number), **values)


def shown_units(of_the_hall: str) -> str:
    """Give kg or lb: what whoever listens chose, else what the hall weighs in."""
    return _SPEECH.get().units or of_the_hall


def in_sentence(name: str) -> str:
    """Give a name as it stands within a sentence: 'standing press' for 'Standing press'."""
    return name if _SPEECH.get().nouns_are_capital else name[:1].lower() + name[1:]


def capital(words: str) -> str:
    """Give words with a capital first letter, as a sentence begins."""
    return words[:1].upper() + words[1:]


def say_number(figure: str) -> str:
    """Give a number written with a decimal point as the language writes it."""
    return figure.replace(".", _SPEECH.get().decimal)


def listed(texts: Iterable[str]) -> str:
    """Give texts as a list in a sentence: 'a', 'a and b', 'a, b and c'; empty for none.

    Examples
    --------
    >>> listed(["Ada", "Ben", "Cleo"])
    'Ada, Ben and Cleo'
    """
    *most, last = list(texts) or [""]
    return say("{most} and {last}", most=", ".join(most), last=last) if most else last
