"""The application of the interface, mounted into a house, with its own description."""

from typing import Any

from fastapi import FastAPI
from pydantic.json_schema import models_json_schema

from roundwright.web.interface import archives, classes, halls, keepers, movements, people, plans
from roundwright.web.interface.problems import MEDIA_TYPE, Problem, add_problems

AT = "/api/v1"
DESCRIPTION = """Everything that the pages do, for programs.

Call with the cookie of a signed-in browser, or with `Authorization: Bearer` and a token that an
account makes for itself in Settings. Rights are those of the account: an assistant sees what people
do, never why. A write names the version it was made on; who is late gets 409 with what was done
since. Faults are problem details (RFC 9457) with every fault at once."""
ROUTERS = (
    halls.router,
    archives.router,
    people.router,
    classes.router,
    plans.router,
    movements.router,
    keepers.router,
)


def make_interface(version: str) -> FastAPI:
    """Make the application; whoever mounts it gives it its house."""
    app = FastAPI(
        title="Roundwright",
        version=version,
        description=DESCRIPTION,
        docs_url=None,
        redoc_url=None,
        openapi_url="/openapi.json",
        servers=[{"url": AT}],
        redirect_slashes=False,
    )
    for router in ROUTERS:
        app.include_router(router)
    add_problems(app)
    made = app.openapi

    def described() -> dict[str, Any]:
        if app.openapi_schema is None:
            document = made()
            _, schemas = models_json_schema(
                [(Problem, "serialization")], ref_template="#/components/schemas/{model}"
            )
            document["components"]["schemas"] |= schemas["$defs"]
            document["components"]["securitySchemes"] = {
                "token": {"type": "http", "scheme": "bearer"},
                "visit": {"type": "apiKey", "in": "cookie", "name": "roundwright_visit"},
            }
            _as_local_times(document)
            document["security"] = [{"token": []}, {"visit": []}]
            for path in document["paths"].values():
                for operation in path.values():
                    _without_default_422(operation)
            document["components"]["schemas"].pop("HTTPValidationError", None)
            document["components"]["schemas"].pop("ValidationError", None)
        assert app.openapi_schema is not None
        return app.openapi_schema

    app.openapi = described  # type: ignore[method-assign]
    return app


LOCAL_TIME = r"^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?$"
"""A time of the day as clocks at the hall show it; the format `time` would ask for an offset."""


def _as_local_times(value: Any) -> None:
    """Describe every time of the day as a local one."""
    if isinstance(value, dict):
        if value.get("format") == "time" and value.get("type") == "string":
            del value["format"]
            value["pattern"] = LOCAL_TIME
        for each in value.values():
            _as_local_times(each)
    elif isinstance(value, list):
        for each in value:
            _as_local_times(each)


def _without_default_422(operation: dict[str, Any]) -> None:
    """Leave our own problem alone where the framework puts its own form beside it."""
    for response in operation["responses"].values():
        content = response.get("content", {})
        if MEDIA_TYPE in content:
            content.pop("application/json", None)
