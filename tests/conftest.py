"""What several folders of tests share: a PostgreSQL of their own, begun when first asked for."""

from collections.abc import Iterator

import pytest

from roundwright.bootstrap.keeping import keeping_at
from roundwright.foundation.collecting import collect_seldom
from tests.support.postgres import Cluster, a_cluster


def pytest_configure() -> None:
    """Collect garbage as seldom as the program does, while tests are gathered too."""
    collect_seldom()


def pytest_collection_finish() -> None:
    """Leave what was gathered out of every collection."""
    collect_seldom()


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """Give a running PostgreSQL with a database of today's form to copy."""
    with a_cluster() as running:
        running.run("CREATE DATABASE prepared")
        keeping_at(running.url("prepared")).close()
        yield running
