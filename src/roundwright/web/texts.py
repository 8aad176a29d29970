"""The words of the pages in each language: English is the source, others are catalogues.

A text is looked up by its English words; places in it are written `{name}`. Catalogues are
gettext files in `words/`, read once.
"""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from io import BytesIO

from babel.messages.pofile import read_po
from starlette.requests import Request

from roundwright.foundation.errors import BadInputError

SOURCE_LANGUAGE = "en-GB"
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


LANGUAGE = "roundwright.language"
"""In the scope of a request: the language of who asks; the source's where it is not said."""


def words_for(request: Request) -> "Words":
    """Give the words in which a request is answered."""
    return words_of(str(request.scope.get(LANGUAGE, SOURCE_LANGUAGE)))


@cache
def words_of(language: str) -> Words:
    """Give the words of a language; the source's where there is no catalogue of it."""
    short = language.split("-")[0]
    if short not in CATALOGUES:
        return Words(SOURCE_LANGUAGE, {})
    return Words(short, catalogue(short))


@cache
def catalogue(short: str) -> Mapping[str, str]:
    """Read the catalogues of a language: texts by their English words."""
    folder = files("roundwright.web") / "words" / short
    texts: dict[str, str] = {}
    for file in sorted(folder.iterdir(), key=lambda each: each.name):
        if file.name.endswith(".po"):
            entries = read_po(BytesIO(file.read_bytes()), locale=short, domain="pages")
            texts |= {str(e.id): str(e.string) for e in entries if e.id and e.string}
    return texts
