"""The interface under random requests: parts of addresses that exist, everything else drawn.

``python -m tests.interface.fuzzed [EXAMPLES]`` draws many more than the tests do and says which
operations were reached, and how often they answered with which status.
"""

import sys
from collections import Counter
from typing import Any
from zlib import crc32

import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis import Case
from schemathesis.checks import not_a_server_error
from schemathesis.core.failures import FailureGroup
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from roundwright.accounts.account import Role
from tests.house.a_house import ADDRESS, HALL, AHouse, a_house

MONDAY = "2026-03-02"
CHECKS = (
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
)


def _is_drawn(body: dict[str, Any]) -> bool:
    base = body.get("base_revision")
    return isinstance(base, int) and base % 4 != 0


class Fuzzed:
    """A house whose Monday class has a plan, with a token for each role."""

    def __init__(self, opened: AHouse) -> None:
        self.opened = opened
        self.tokens: dict[Role, str] = {}
        for role in Role:
            account = opened.keeping.accounts.by_sign_in_name(role.value)
            assert account is not None
            self.tokens[role] = opened.house.door.make_token(account, 30, opened.clock.now())
        client = opened.as_(Role.COACH)
        at = f"/api/v1/halls/{HALL}/classes/monday_seated/{MONDAY}/planning"
        assert client.post(at, json={"do": "fit"}).status_code == 202
        rooms = opened.house.rooms
        assert rooms is not None
        kept = opened.keeping.halls.opened(HALL)
        room = rooms.room(kept, "monday_seated", opened.clock.today().replace(day=2))
        assert room.desk.wait(60)
        self.plan_id = str(room.plan_id)
        self.schema = schemathesis.openapi.from_asgi(
            "/api/v1/openapi.json", opened.app, headers={"host": ADDRESS[7:]}
        )
        self.known: dict[str, str] = {
            "hall_id": HALL,
            "plan_id": self.plan_id,
            "class_id": "monday_seated",
            "on": MONDAY,
            "person_id": "p030",
            "slug": "goblet_squat",
            "key": "p030",
        }

    def operations(self) -> list[Any]:
        """Give every operation of the description."""
        return [found.ok() for found in self.schema.get_all_operations()]

    def call(self, case: Case, role: Role) -> Any:
        """Send a drawn request as somebody of a role; three of four parts of addresses exist."""
        parts = dict(case.path_parameters or {})
        for name in parts:
            known = self.known.get(name)
            if known is not None and crc32(str(parts[name]).encode(errors="replace")) % 4:
                parts[name] = known
        case.path_parameters = parts
        if isinstance(case.body, dict) and case.body.get("do") in ("propose", "another"):
            case.body = case.body | {"do": "fit"}  # a search would outlast the test
        if isinstance(case.body, dict) and _is_drawn(case.body):
            now = self.opened.keeping.plans.opened(HALL, self.plan_id).revisions.current
            case.body = case.body | {"base_revision": now}
        headers = {"authorization": f"Bearer {self.tokens[role]}", "host": ADDRESS[7:]}
        return case.call(headers=headers)


def fuzz(fuzzed: Fuzzed, operation: Any, role: Role, examples: int) -> Counter[int]:
    """Draw requests of one operation, check every answer, and count the statuses."""
    seen: Counter[int] = Counter()

    @settings(
        max_examples=examples,
        database=None,
        derandomize=True,
        deadline=None,
        phases=(Phase.generate,),
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy())
    def each(case: Case) -> None:
        answer = fuzzed.call(case, role)
        seen[answer.status_code] += 1
        case.validate_response(answer, checks=list(CHECKS))

    each()
    return seen


def main(examples: int) -> None:
    """Fuzz every operation as every role."""
    with a_house() as opened:
        fuzzed = Fuzzed(opened)
        for operation in fuzzed.operations():
            for role in Role:
                label = f"{operation.method.upper()} {operation.path}"
                try:
                    told = str(dict(sorted(fuzz(fuzzed, operation, role, examples).items())))
                except (FailureGroup, AssertionError) as error:
                    told = f"FAULT {error}"
                sys.stdout.write(f"{label:80} {role.value:10} {told}\n")
                sys.stdout.flush()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
