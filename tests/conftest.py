"""What several folders of tests share: a PostgreSQL of their own, begun when first asked for."""

from collections.abc import Iterator

import pytest

from roundwright.bootstrap.keeping import keeping_at
from tests.support.postgres import Cluster, a_cluster


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """Give a running PostgreSQL with a database of today's form to copy."""
    with a_cluster() as running:
        running.run("CREATE DATABASE prepared")
        keeping_at(running.url("prepared")).close()
        yield running
