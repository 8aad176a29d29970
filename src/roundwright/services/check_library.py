"""Check library files of one's own on top of the library that is shipped."""

from collections.abc import Mapping

from roundwright.foundation.errors import BadInputError
from roundwright.library.catalogue import Catalogue
from roundwright.library.catalogue_text import read_catalogue


def check_library(texts: Mapping[str, str], base: Catalogue) -> dict[str, int]:
    """Give how many entries there are with these files added.

    Parameters
    ----------
    texts : mapping of str to str
        File names to their text; empty: only the base is counted.
    base : Catalogue
        The shipped library, already without faults.

    Raises
    ------
    BadInputError
        With every fault of all files.
    """
    return _counts(_with_own(texts, base) if texts else base)


def _with_own(texts: Mapping[str, str], base: Catalogue) -> Catalogue:
    catalogue, faults = read_catalogue(texts, base)
    if catalogue is None:
        raise BadInputError(faults)
    return catalogue


def _counts(catalogue: Catalogue) -> dict[str, int]:
    return {
        "movements": len(catalogue.movements),
        "lines": len(catalogue.lines),
        "combinations": len(catalogue.combinations),
    }
