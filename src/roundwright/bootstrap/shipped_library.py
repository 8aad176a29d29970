"""Which library the package ships with: its own files, read once."""

from functools import cache
from importlib.resources import files

from roundwright.bootstrap.shipped_bodies import shipped_degrees
from roundwright.foundation.errors import BadInputError
from roundwright.library.catalogue import Catalogue
from roundwright.library.catalogue_text import read_catalogue

PACKAGE = "roundwright.library.movements"


def shipped_texts() -> dict[str, str]:
    """Give the shipped library files: name to TOML text."""
    return {
        resource.name: resource.read_text(encoding="utf-8")
        for resource in files(PACKAGE).iterdir()
        if resource.name.endswith(".toml")
    }


@cache
def shipped_catalogue() -> Catalogue:
    """Give the shipped library, with the body model's higher degrees of demand laid over it.

    Raises
    ------
    BadInputError
        When a shipped file has faults: the installation is damaged.
    """
    return authored_catalogue().with_model(shipped_degrees().by_movement)


@cache
def authored_catalogue() -> Catalogue:
    """Give the shipped library as its authors wrote it.

    Raises
    ------
    BadInputError
        When a shipped file has faults: the installation is damaged.
    """
    catalogue, faults = read_catalogue(shipped_texts())
    if catalogue is None:
        raise BadInputError(faults)
    return catalogue
