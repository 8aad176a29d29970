"""The class sheet on paper: typst sets it, the words come in as data."""

import json
from dataclasses import asdict
from importlib.resources import as_file, files
from pathlib import Path
from typing import Literal

import fontpkg_barlow
import fontpkg_barlow_condensed
import typst

from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.sheet_parts import SheetContent
from roundwright.documents.standing_words import STOP_SIGNS_SOURCE
from roundwright.foundation.errors import DocumentError

Paper = Literal["a4", "letter"]
PAPER_NAMES: dict[str, str] = {"a4": "a4", "letter": "us-letter"}


def class_sheet_pdf(content: SheetContent, paper: Paper = "a4") -> bytes:
    """Set the class sheet as an accessible PDF (PDF/UA-1).

    Parameters
    ----------
    content : SheetContent
        What it says.
    paper : {'a4', 'letter'}
        The paper.

    Returns
    -------
    bytes
        Two pages for up to 16 people and an ordinary class, else annex pages after them;
        the same content gives the same bytes.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    return _compiled(content, paper, form="pdf", ppi=None)[0]


def class_sheet_png(content: SheetContent, paper: Paper = "a4", ppi: float = 110) -> list[bytes]:
    """Set the class sheet as one picture a page, for looking at.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    return _compiled(content, paper, form="png", ppi=ppi)


def _compiled(
    content: SheetContent, paper: str, *, form: Literal["pdf", "png"], ppi: float | None
) -> list[bytes]:
    if paper not in PAPER_NAMES:
        raise DocumentError(f"There is no paper called {paper!r}.", "Choose a4 or letter.")
    inputs = {
        "content": json.dumps(asdict(content), ensure_ascii=False),
        "floor_svg": floor_plan_svg(content.floor),
        "stop_source": STOP_SIGNS_SOURCE,
        "paper": PAPER_NAMES[paper],
    }
    try:
        with as_file(files("roundwright.documents") / "typst" / "class_sheet.typ") as source:
            made, warnings = typst.compile_with_warnings(
                source,
                format=form,
                ppi=ppi,
                font_paths=font_folders(),
                sys_inputs=inputs,
                pdf_standards=["ua-1"] if form == "pdf" else [],
            )
    except typst.TypstError as error:
        raise DocumentError(
            f"The class sheet could not be set: {error.message}.",
            "Use the plain page instead; it shows every letter. The class can go on.",
        ) from error
    if warnings:
        raise DocumentError(f"The class sheet was set with a warning: {warnings[0].message}.")
    return made if isinstance(made, list) else [made]


def font_folders() -> list[Path]:
    """Give the folders of the project's typeface, upright and condensed."""
    packages = (fontpkg_barlow, fontpkg_barlow_condensed)
    return [Path(str(package.__file__)).parent / "files" for package in packages]
