"""How the pages are filled in: escaped, and only with what a template names."""

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.responses import HTMLResponse


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
    """Fill in one page."""
    return HTMLResponse(_environment().get_template(template).render(**values), status)
