"""Routes, headers and the host check of the class page."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from roundwright.foundation.errors import DocumentError
from roundwright.web.application import make_application
from roundwright.web.page_state import PageState
from roundwright.web.static_routes import FONTS
from roundwright.web.verdict_words import verdict_words
from tests.documents.hand_sheet import a_sheet
from tests.web.page_states import PORT, a_draft_state, a_ready_state, an_impossible_state

ROUTES = ("/", "/sheet.pdf", "/sheet.html", "/core.json", "/healthz", "/favicon.svg", "/nowhere")


def a_client(state: PageState) -> TestClient:
    app = make_application(state)
    return TestClient(app, base_url=f"http://127.0.0.1:{PORT}", raise_server_exceptions=False)


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient]:
    with a_client(a_ready_state()) as opened:
        yield opened


def test_the_page_gives_verdict_times_and_everyone(client: TestClient) -> None:
    text = client.get("/").text
    assert "Fits: everyone has a version, the kit suffices, ends 18:35 of 18:45." in text
    assert "18:17:00" in text
    for person in a_sheet(14).people:
        assert person.name in text
    assert "Two loads are assumed" in text


def test_someone_without_a_version_is_in_the_verdict() -> None:
    sheet = a_sheet(3)
    first = replace(sheet.exercises[0], sitting_out=("Ana R",))
    words = verdict_words(replace(sheet, exercises=(first, *sheet.exercises[1:])))
    assert words.startswith("Fits: 1 person without a version at some exercise")


@pytest.mark.parametrize("path", ROUTES)
def test_every_answer_carries_the_security_headers(client: TestClient, path: str) -> None:
    headers = client.get(path).headers
    assert headers["content-security-policy"].startswith("default-src 'self'")
    assert "frame-ancestors 'none'" in headers["content-security-policy"]
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"


@pytest.mark.parametrize("path", ["/", "/sheet.pdf", "/sheet.html", "/core.json"])
def test_personal_answers_are_never_kept(client: TestClient, path: str) -> None:
    assert client.get(path).headers["cache-control"] == "no-store"


@pytest.mark.parametrize(
    "host",
    ["example.org", f"example.org:{PORT}", "127.0.0.1:1", "127.0.0.1", f"127.0.0.1.x:{PORT}", ""],
)
def test_a_foreign_host_name_is_refused(client: TestClient, host: str) -> None:
    answer = client.get("/", headers={"host": host})
    assert answer.status_code == 400
    assert "only on this computer" in answer.text
    assert "Ana R" not in answer.text
    assert answer.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("host", [f"localhost:{PORT}", f"127.0.0.1:{PORT}", f"[::1]:{PORT}"])
def test_this_computer_s_own_names_are_served(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize("query", ["", "?paper=a4", "?paper=letter"])
def test_the_sheet_is_a_pdf(client: TestClient, query: str) -> None:
    answer = client.get(f"/sheet.pdf{query}")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF-")


def test_an_unknown_paper_is_a_problem_in_words(client: TestClient) -> None:
    answer = client.get("/sheet.pdf?paper=a3")
    assert answer.status_code == 422
    assert "A value in the address cannot be." in answer.text


def test_the_plain_page_allows_only_its_own_style(client: TestClient) -> None:
    answer = client.get("/sheet.html")
    assert "style-src 'sha256-" in answer.headers["content-security-policy"]
    assert "<style>" in answer.text


def test_only_the_core_leaves_and_it_has_no_names(client: TestClient) -> None:
    answer = client.get("/core.json")
    assert "class" in answer.json()
    assert "Ana R" not in answer.text
    assert "clearance" not in answer.text
    assert client.get("/plan.json").status_code == 404


def test_fonts_are_ours_and_no_other_file_is_served(client: TestClient) -> None:
    for name in FONTS:
        assert client.get(f"/static/fonts/{name}").headers["content-type"] == "font/ttf"
    assert client.get("/static/fonts/LICENSE").status_code == 404
    assert client.get("/static/fonts/..%2f..%2f__init__.py").status_code == 404


def test_faults_are_pages_for_people_and_details_for_programs(client: TestClient) -> None:
    page = client.get("/nowhere", headers={"accept": "text/html"})
    assert (page.status_code, page.headers["content-type"][:9]) == (404, "text/html")
    details = client.get("/nowhere", headers={"accept": "application/json"})
    assert details.headers["content-type"] == "application/problem+json"
    assert details.json()["status"] == 404
    own = {"origin": f"http://127.0.0.1:{PORT}"}
    assert client.post("/", headers=own).status_code == 405


@pytest.mark.parametrize("path", ["/docs", "/redoc", "/openapi.json"])
def test_no_foreign_reference_page_is_served(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


def test_a_draft_says_what_stops_it_and_offers_no_sheet() -> None:
    with a_client(a_draft_state()) as client:
        text = client.get("/").text
        assert "Squat needs 12 dumbbells of 8 kg at once; 10 are there." in text
        assert "/sheet.pdf" not in text
        for path in ("/sheet.pdf", "/sheet.html"):
            answer = client.get(path, headers={"accept": "application/json"})
            assert answer.status_code == 422
            assert answer.json()["type"] == "urn:roundwright:plan.refused"


def test_an_impossible_class_names_the_clash() -> None:
    with a_client(an_impossible_state()) as client:
        text = client.get("/").text
        assert "Low box, 20 cm at 3 (Step-up), 2 needed and 1 there: Ana R and Ben O." in text
        assert client.get("/core.json").status_code == 422
        assert client.get("/healthz").json() == {"serving": True, "standing": "impossible"}


def test_a_page_that_cannot_be_set_is_told_in_words() -> None:
    def broken(paper: str) -> bytes:
        raise DocumentError(f"The class sheet could not be set on {paper}.")

    with a_client(replace(a_ready_state(2), pdf=broken)) as client:
        answer = client.get("/sheet.pdf")
        assert answer.status_code == 500
        assert "The class sheet could not be set on a4." in answer.text


def test_an_unexpected_fault_shows_nothing_of_itself() -> None:
    def broken(paper: str) -> bytes:
        raise RuntimeError(f"canary {paper}")

    with a_client(replace(a_ready_state(2), pdf=broken)) as client:
        answer = client.get("/sheet.pdf")
        assert answer.status_code == 500
        assert "A fault of ours" in answer.text
        assert "canary" not in answer.text
