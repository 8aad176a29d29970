"""Before a house has an owner an invented hall is shown, and the way to one's own from there."""

from dataclasses import dataclass

from starlette.types import ASGIApp, Receive, Scope, Send

from roundwright.services.accounts.signing_in import Door

BEGIN_AT = "/first"
"""Where one's own house is begun."""
OWN_PATHS = (BEGIN_AT, "/sign-in")


@dataclass(frozen=True)
class FirstLook:
    """Serves the demonstration until the house has an owner, and the house from then on.

    Parameters
    ----------
    demonstration, own : ASGI application
        The invented hall, of which nothing is kept, and the house itself.
    door : Door
        Knows whether the house has an owner.
    """

    demonstration: ASGIApp
    own: ASGIApp
    door: Door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand a request on."""
        begins = scope["type"] != "http" or _is_own(str(scope["path"]))
        chosen = self.own if begins or self.door.has_owner else self.demonstration
        await chosen(scope, receive, send)


def _is_own(path: str) -> bool:
    return any(path == own or path.startswith(f"{own}/") for own in OWN_PATHS)
