"""A real browser and a served application, for the tests that look at pages."""

import shutil
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import uvicorn
from fastapi import FastAPI
from playwright.sync_api import Browser, Page, Request, sync_playwright

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
WIDTHS = {390: 844, 1280: 800, 1920: 1080}


class Served:
    """One application on a free loopback port, in a thread of its own."""

    def __init__(self, make: Callable[[int], FastAPI]) -> None:
        self._socket = socket.socket()
        self._socket.bind(("127.0.0.1", 0))
        self.port: int = self._socket.getsockname()[1]
        config = uvicorn.Config(make(self.port), log_level="error", lifespan="off")
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run, args=([self._socket],))

    def __enter__(self) -> str:
        self._socket.listen()
        self._thread.start()
        return f"http://127.0.0.1:{self.port}"

    def __exit__(self, *_: object) -> None:
        self._server.should_exit = True
        self._thread.join(10)
        self._socket.close()


@contextmanager
def a_browser() -> Iterator[Browser]:
    """Open the browser of the system."""
    path = shutil.which("chromium")
    assert path, "the browser tests need chromium (tools/system_packages.sh)"
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=path, args=FLAGS)
        yield opened
        opened.close()


def _failure_of(request: Request) -> list[str]:
    """Name a request that failed; one that a newer page left behind is no failure."""
    return [] if request.failure == "net::ERR_ABORTED" else [f"{request.url}: {request.failure}"]


@contextmanager
def a_quiet_page(browser: Browser) -> Iterator[Page]:
    """Open a page that must not complain: no error in its console, no request that fails."""
    context = browser.new_context()
    opened = context.new_page()
    complaints: list[str] = []
    opened.on("console", lambda m: complaints.append(m.text) if m.type == "error" else None)
    opened.on("pageerror", lambda error: complaints.append(str(error)))
    opened.on("requestfailed", lambda request: complaints.extend(_failure_of(request)))
    yield opened
    context.close()
    assert complaints == []
