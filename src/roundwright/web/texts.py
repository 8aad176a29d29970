"""The words of pages, papers and findings in each language: English, and its catalogues.

A text is looked up by its English words; places in it are written `{name}`. Catalogues are
gettext files in `words/`, read once. What the domain says is said by `foundation.words`, for
which whoever answers a request says the language.
"""

import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from io import BytesIO

from babel.messages.pofile import read_po
from starlette.requests import Request

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.words import ENGLISH, SOURCE_LANGUAGE, Speech, speech

CATALOGUES = ("de",)
"""Languages beside the source, each a folder `words/<language>/` of catalogues."""


class Words:
    """Gives texts in one language."""

    def __init__(self, language: str, texts: Mapping[str, str]) -> None:
        self.language = language
        self._texts = texts

    def __call__(self, text: str, **values: object) -> str:
        """Give a text in this language, with its places filled."""
        found = self._texts.get(text) or text
        return found.format(**values) if values else found

    def one_or_more(self, number: int, one: str, more: str, **values: object) -> str:
        """Give the text for one, or for another number, which fills `{n}`."""
        return self(one if number == 1 else more, n=number, **values)


def told(say: Words, error: BadInputError) -> dict[str, str]:
    """Give each fault of a form in words, by its field."""
    return {f.field: say("Expected: {what}.", what=say(f.expected)) for f in error.faults}


def say_again(english: str) -> str:
    """Say a whole English sentence that was made elsewhere, as a fault's, in the language spoken.

    A sentence with something in it is found by a text with places; one that no catalogue has stays.
    """
    spoken = speech()
    if not spoken.texts or english in spoken.texts:
        return spoken.say(english)
    for text, form in _forms(spoken.language):
        found = form.fullmatch(english)
        if found:
            return spoken.say(text, **found.groupdict())
    return english


@cache
def _forms(short: str) -> tuple[tuple[str, re.Pattern[str]], ...]:
    """Give the texts of faults that hold places, each with what a filled one looks like."""
    texts = [text for text in _read(short, "faults.po") if "{" in text]
    return tuple((text, _filled_form(text)) for text in sorted(texts, key=len, reverse=True))


def _filled_form(text: str) -> re.Pattern[str]:
    parts = re.split(r"\{(\w+)\}", text)
    plain, named = parts[::2], [*(f"(?P<{name}>.*)" for name in parts[1::2]), ""]
    both = zip(plain, named, strict=True)
    return re.compile("".join(re.escape(words) + place for words, place in both))


LANGUAGE = "roundwright.language"
"""In the scope of a request: the language of who asks; the source's where it is not said."""
DECIMALS = {"de": ","}
"""The mark before decimals of a language, where it is not a point."""
CAPITAL_NOUNS = ("de",)
"""Languages in which a noun keeps its capital within a sentence."""


def words_for(request: Request) -> "Words":
    """Give the words in which a request is answered."""
    return words_of(str(request.scope.get(LANGUAGE, SOURCE_LANGUAGE)))


@cache
def words_of(language: str) -> Words:
    """Give the words of a language; the source's where there is no catalogue of it."""
    spoken = speech_of(language)
    return Words(spoken.language, spoken.texts)


@cache
def speech_of(language: str, units: str = "") -> Speech:
    """Give how the domain speaks to somebody of a language, who weighs in these units."""
    short = language.split("-")[0]
    if short not in CATALOGUES:
        return Speech(units=units) if units else ENGLISH
    return Speech(short, catalogue(short), DECIMALS.get(short, "."), short in CAPITAL_NOUNS, units)


@cache
def catalogue(short: str) -> Mapping[str, str]:
    """Read the catalogues of a language: texts by their English words."""
    folder = files("roundwright.web") / "words" / short
    texts: dict[str, str] = {}
    for file in sorted(folder.iterdir(), key=lambda each: each.name):
        if file.name.endswith(".po"):
            texts |= _read(short, file.name)
    return texts


def _read(short: str, name: str) -> dict[str, str]:
    file = files("roundwright.web") / "words" / short / name
    entries = read_po(BytesIO(file.read_bytes()), locale=short, domain="pages")
    return {str(e.id): str(e.string) for e in entries if e.id and e.string}
