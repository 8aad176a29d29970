"""The reference page of rights: every address of a house, and who gets an answer to it."""

from collections.abc import Iterable, Iterator

from fastapi import APIRouter
from fastapi.routing import APIRoute

from roundwright.accounts.account import ALLOWED, May, Role
from roundwright.web.house.class_rooms import ClassDoor
from roundwright.web.house.house import ROUTERS
from roundwright.web.house.visit import Needs
from roundwright.web.interface import application

HEAD = """# Who may do what

Made from the routes themselves by `python -m tools.write_reference`; a test asks each of them as a
stranger, as every role, and as a forged request.

* *stranger*: nobody is signed in; a page shows the way to sign in, the interface answers 401.
  `/first` is open until there is an owner, from this machine alone.
* *no*: 403, and nothing is done. An assistant is never told why somebody must not do something.
* *forged*: a button of another site, a wrong `Origin`, or another `Host`: 403 or 400 for everybody,
  the owner too. A `GET` changes nothing and can't be forged. The interface takes a token without
  an `Origin`; with the cookie of a browser it asks for it as pages do.
"""
COLUMNS = "| address | right | stranger | assistant | coach | owner | forged |"
ROLES = (Role.ASSISTANT, Role.COACH, Role.OWNER)


def rights_page() -> str:
    """Give the page as Markdown."""
    pages = list(_stated(ROUTERS, ""))
    at = "/at/{hall_id}/class/{class_id}/{on}/"
    pages.append(("GET", f"{at}…", ClassDoor.right_to_look))
    pages.append(("POST", f"{at}…", ClassDoor.right_to_press))
    asked = list(_stated(application.ROUTERS, application.AT))
    lines = [HEAD, f"## Pages ({len(pages)})\n", *_table(pages)]
    lines += ["", f"## The JSON interface ({len(asked)})\n", *_table(asked)]
    return "\n".join(lines)


def _stated(routers: Iterable[APIRouter], at: str) -> Iterator[tuple[str, str, May | None]]:
    for router in routers:
        for route in router.routes:
            if isinstance(route, APIRoute):
                calls = (d.call for d in route.dependant.dependencies)
                needs = [call.right for call in calls if isinstance(call, Needs)]
                for method in sorted(route.methods or ()):
                    yield method, at + route.path, needs[0] if needs else None


def _table(rows: Iterable[tuple[str, str, May | None]]) -> list[str]:
    lines = [COLUMNS, "| --- " * 7 + "|"]
    for method, path, right in sorted(rows, key=lambda row: (row[1], row[0])):
        may = ["yes" if right is None or right in ALLOWED[role] else "no" for role in ROLES]
        stranger = "yes" if right is None else "no"
        forged = "" if method == "GET" else "no"
        name = f"`{right.value}`" if right else "open"
        lines.append(f"| `{method} {path}` | {name} | {stranger} | {' | '.join(may)} | {forged} |")
    return lines
