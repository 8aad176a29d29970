"""Two versions side by side on one plain page: pictures, bands in words, what may be said."""

from importlib.resources import files

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from roundwright.foundation.words import say, speech
from roundwright.services.compare_versions import Comparison
from roundwright.services.ports import Pictures


def comparison_html(comparison: Comparison, pictures: Pictures) -> str:
    """Write the page; pictures are set in, nothing is fetched."""
    folder = files("roundwright.documents") / "templates"
    template = Environment(autoescape=True, undefined=StrictUndefined).from_string(
        (folder / "comparison.html").read_text("utf-8")
    )
    return template.render(
        _=say,
        _language=speech().language[:2],
        both=comparison,
        style=Markup((folder / "class_sheet.css").read_text("utf-8")),
        versions=[
            (version, [Markup(svg) for svg in pictures.key_pictures(version.movement_id)])
            for version in (comparison.one, comparison.other)
        ],
    )
