"""One suite on three databases: a SQLite file, SQLite in memory, PostgreSQL."""

import pytest

from roundwright.bootstrap.keeping import Keeping, keeping_at
from tests.store_database.a_kept_hall import LIBRARY

EVERY = ("file", "memory", "postgresql")


@pytest.fixture(params=EVERY)
def url(request, tmp_path) -> str:
    return url_for(request, request.param, tmp_path)


@pytest.fixture(params=("file", "postgresql"))
def shared_url(request, tmp_path) -> str:
    """Databases that two programs can use at once."""
    return url_for(request, request.param, tmp_path)


def url_for(request, which, tmp_path) -> str:
    if which == "memory":
        return "sqlite://"
    if which == "file":
        return f"sqlite:///{tmp_path / 'house.db'}"
    running = request.getfixturevalue("cluster")
    return running.url(running.emptied("prepared"))


@pytest.fixture
def opening():
    """Open databases by address; all are closed at the end."""
    opened: list[Keeping] = []

    def one(url: str) -> Keeping:
        opened.append(keeping_at(url, lambda: LIBRARY))
        return opened[-1]

    yield one
    for each in opened:
        each.close()


@pytest.fixture
def kept(url, opening) -> Keeping:
    return opening(url)
