"""No request brings the interface down, and every answer is as it is described."""

from collections import Counter
from collections.abc import Iterator

import pytest
from fastapi.routing import APIRoute

from roundwright.accounts.account import Role
from roundwright.web.interface.application import ROUTERS
from tests.house.a_house import a_house
from tests.interface.fuzzed import Fuzzed, fuzz

EXAMPLES = 4
OPERATIONS = sorted(
    str(route.operation_id)
    for router in ROUTERS
    for route in router.routes
    if isinstance(route, APIRoute)
)


@pytest.fixture(scope="module")
def fuzzed() -> Iterator[Fuzzed]:
    with a_house() as opened:
        yield Fuzzed(opened)


def test_every_operation_is_described(fuzzed: Fuzzed) -> None:
    described = [one.definition.raw["operationId"] for one in fuzzed.operations()]
    assert sorted(described) == OPERATIONS
    assert len(set(OPERATIONS)) == len(OPERATIONS) > 25
    assert all(one.definition.raw.get("description") for one in fuzzed.operations())


@pytest.mark.parametrize("name", OPERATIONS)
def test_drawn_requests_get_answers_as_described(fuzzed: Fuzzed, name: str) -> None:
    (operation,) = [one for one in fuzzed.operations() if one.definition.raw["operationId"] == name]
    seen = sum((fuzz(fuzzed, operation, role, EXAMPLES) for role in Role), start=Counter())
    assert sum(seen.values()) >= len(Role)
