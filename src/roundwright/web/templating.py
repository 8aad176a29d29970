"""How the pages are filled in: escaped, and only with what a template names."""

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.responses import HTMLResponse

from roundwright.foundation.words import SOURCE_LANGUAGE
from roundwright.web.texts import words_of


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("roundwright.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def page(template: str, status: int = 200, **values: object) -> HTMLResponse:
    """Fill in one page; in the source's words where none are given as `_`."""
    values.setdefault("_", words_of(SOURCE_LANGUAGE))
    return HTMLResponse(_environment().get_template(template).render(**values), status)
