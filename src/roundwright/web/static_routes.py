"""Style, script, mark and typeface of the pages: the same for everybody, and kept by browsers."""

from importlib.resources import files
from pathlib import Path

import fontpkg_barlow
from fastapi import FastAPI
from starlette.exceptions import HTTPException
from starlette.responses import FileResponse, Response

FONTS = ("Barlow-Regular.ttf", "Barlow-Medium.ttf", "Barlow-SemiBold.ttf", "Barlow-Italic.ttf")
LASTING = {"cache-control": "public, max-age=86400"}
STYLES = ("page.css", "house.css")
SCRIPTS = (
    "beneath.js",
    "floor.js",
    "house.js",
    "looking.js",
    "moving.js",
    "order.js",
    "planning.js",
    "rehearsal.js",
)


def add_static_routes(app: FastAPI) -> None:
    """Add what every page needs and nobody is asked for."""

    @app.get("/static/{name}.css")
    def style(name: str) -> Response:
        """Give a style of the pages."""
        return _file(f"{name}.css", STYLES, "text/css")

    @app.get("/static/{name}.js")
    def script(name: str) -> Response:
        """Give a script of the pages."""
        return _file(f"{name}.js", SCRIPTS, "text/javascript")

    @app.get("/favicon.svg")
    @app.get("/favicon.ico")
    def favicon() -> Response:
        """Give the mark of the product."""
        text = (files("roundwright.web") / "static" / "favicon.svg").read_text("utf-8")
        return Response(text, media_type="image/svg+xml", headers=LASTING)

    @app.get("/static/fonts/{name}")
    def font(name: str) -> FileResponse:
        """Give one cut of the page's typeface."""
        if name not in FONTS:
            raise HTTPException(404)
        folder = Path(fontpkg_barlow.__file__).parent / "files"
        return FileResponse(folder / name, media_type="font/ttf", headers=LASTING)


def _file(name: str, known: tuple[str, ...], media_type: str) -> Response:
    if name not in known:
        raise HTTPException(404)
    text = (files("roundwright.web") / "static" / name).read_text("utf-8")
    return Response(text, media_type=media_type, headers=LASTING)
