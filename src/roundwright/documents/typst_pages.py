"""Typst sets pages from words that come in as data; a warning is a failure."""

import json
from collections.abc import Mapping, Sequence
from importlib.resources import as_file, files
from pathlib import Path
from typing import Literal

import fontpkg_barlow
import fontpkg_barlow_condensed
import typst

from roundwright.documents.typst_words import TEXTS
from roundwright.foundation.errors import DocumentError
from roundwright.foundation.words import say, speech

Paper = Literal["a4", "letter"]
PAPER_NAMES: dict[str, str] = {"a4": "a4", "letter": "us-letter"}


def set_pages(
    template: str,
    inputs: Mapping[str, object],
    paper: str,
    *,
    what: str,
    ppi: float | None = None,
    fonts: Sequence[Path] | None = None,
) -> list[bytes]:
    """Set pages: one PDF (PDF/UA-1), or with `ppi` one PNG a page, for looking at.

    Parameters
    ----------
    template : str
        File name in the folder of page templates.
    inputs : mapping
        What the page asks for by name: words, or a value that is handed over as JSON.
    paper : {'a4', 'letter'}
        The paper.
    what : str
        What it is, to begin an error with: 'The class sheet'.
    ppi : float, optional
        Dots an inch of the pictures; none gives a PDF.
    fonts : sequence of Path, optional
        Folders of typefaces; the project's own when left out.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    if paper not in PAPER_NAMES:
        raise DocumentError(f"There is no paper called {paper!r}.", "Choose a4 or letter.")
    words = {
        name: value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
        for name, value in inputs.items()
    }
    try:
        with as_file(files("roundwright.documents") / "typst") as folder:
            made, warnings = typst.compile_with_warnings(
                folder / template,
                format="pdf" if ppi is None else "png",
                ppi=ppi,
                font_paths=list(font_folders() if fonts is None else fonts),
                sys_inputs={
                    **words,
                    "paper": PAPER_NAMES[paper],
                    "lang": speech().language[:2],
                    "said": json.dumps({text: say(text) for text in TEXTS}, ensure_ascii=False),
                },
                pdf_standards=["ua-1"] if ppi is None else [],
            )
    except typst.TypstError as error:
        raise DocumentError(
            f"{what} could not be set: {error.message}.",
            "Use the plain page instead; it shows every letter. The class can go on.",
        ) from error
    if warnings:
        raise DocumentError(f"{what} was set with a warning: {warnings[0].message}.")
    return made if isinstance(made, list) else [made]


def font_folders() -> list[Path]:
    """Give the folders of the project's typeface, upright and condensed."""
    packages = (fontpkg_barlow, fontpkg_barlow_condensed)
    return [Path(str(package.__file__)).parent / "files" for package in packages]
