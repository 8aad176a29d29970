"""Who may ask, and what every answer carries: host and origin check, security headers."""

from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LOOPBACK_NAMES = ("127.0.0.1", "localhost", "[::1]")
READING = ("GET", "HEAD")
HEADERS = {
    "content-security-policy": (
        "default-src 'self'; base-uri 'none'; form-action 'self'; object-src 'none'; "
        "frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}


class Guard:
    """Refuse foreign hosts and foreign buttons; set headers that a route did not set itself.

    Parameters
    ----------
    app : ASGIApp
        What is guarded.
    port : int
        The one port that the Host header may name.
    public_url : str
        The address that people are given; its host may be named too.
    """

    def __init__(self, app: ASGIApp, port: int, public_url: str = "") -> None:
        self._app = app
        self._hosts = {f"{name}:{port}" for name in LOOPBACK_NAMES}
        public = urlsplit(public_url).netloc.lower()
        if public:
            self._hosts.add(public)
        self._public = f"{urlsplit(public_url).scheme}://{public}" if public else ""

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or hand it on."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
            await send(message)

        given = Headers(scope=scope)
        host = given.get("host", "").lower()
        if host not in self._hosts:
            refusal = PlainTextResponse(
                "This page answers only on this computer, at the address it was opened with.\n",
                status_code=400,
            )
            await refusal(scope, receive, send_with_headers)
            return
        if scope["method"] not in READING and not self._is_own_button(given, scope, host):
            refusal = PlainTextResponse(
                "This was not pressed on the page itself, so nothing was done.\n", status_code=403
            )
            await refusal(scope, receive, send_with_headers)
            return
        await self._app(scope, receive, send_with_headers)

    def _is_own_button(self, given: Headers, scope: Scope, host: str) -> bool:
        """Say whether a request that changes something comes from a page of this address.

        A program that shows a token of its own is no page: browsers never add one by themselves.
        """
        if given.get("authorization", "").lower().startswith("bearer "):
            return True
        site, origin = given.get("sec-fetch-site", "same-origin"), given.get("origin", "")
        ours = origin in (f"{scope['scheme']}://{host}", self._public or None)
        return ours and site == "same-origin"
