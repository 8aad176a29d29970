"""What several files share: a house of their own for each test."""

from collections.abc import Iterator

import pytest

from tests.house.a_house import AHouse, a_house


@pytest.fixture
def opened() -> Iterator[AHouse]:
    """Give a house in memory with its accounts and the demonstration hall."""
    with a_house() as made:
        yield made
