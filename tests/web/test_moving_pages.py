"""Pictures and moving figures of the class page: what is served, and what is refused."""

from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from roundwright.bootstrap.shipped_pictures import ShippedPictures
from roundwright.documents.sheet_parts import Move
from roundwright.web.application import make_application
from roundwright.web.page_state import PageState
from tests.web.page_states import a_draft_state, a_ready_state

PORT = 8737
SQUAT = Move("dumbbell_squat", "Squat with two dumbbells", "both", "<svg/>", 3.0)
LUNGE = Move("split_squat", "Split squat", "left", "<svg/>", 3.0)
OTHER = Move("split_squat", "Split squat", "right", "", 3.0)


def a_state(*moves: Move) -> PageState:
    state = a_ready_state()
    assert state.sheet is not None
    first, *rest = state.sheet.exercises
    sheet = replace(state.sheet, exercises=(replace(first, moves=moves), *rest))
    return replace(state, sheet=sheet, pictures=ShippedPictures())


def client(state: PageState) -> TestClient:
    return TestClient(make_application(state), base_url=f"http://127.0.0.1:{PORT}")


def test_the_page_shows_each_movement_once_and_can_play_all_of_them() -> None:
    page = client(a_state(SQUAT, LUNGE, OTHER)).get("/").text
    assert page.count('src="/pictures/dumbbell_squat/') == 2
    assert page.count('src="/pictures/split_squat/') == 2
    assert 'data-moving="/moving/1.json"' in page
    assert page.count('<script src="/static/moving.js" defer>') == 1
    assert 'alt="Split squat"' in page


def test_a_moving_figure_names_each_side_and_its_seconds() -> None:
    made = client(a_state(SQUAT, LUNGE, OTHER)).get("/moving/1.json").json()
    assert [s["name"] for s in made["stretches"] if s["name"]] == [
        "Squat with two dumbbells",
        "Split squat, left",
        "Split squat, right",
    ]
    assert [s["seconds"] for s in made["stretches"] if s["name"]] == [3.0, 3.0, 3.0]
    assert made["stretches"][-1]["last"] == len(made["frames"]) - 1


def test_pictures_and_script_are_served_as_what_they_are() -> None:
    asked = client(a_state(SQUAT))
    picture = asked.get("/pictures/dumbbell_squat/2.svg")
    assert picture.headers["content-type"].startswith("image/svg+xml")
    assert "default-src 'self'" in picture.headers["content-security-policy"]
    script = asked.get("/static/moving.js")
    assert script.headers["content-type"].startswith("text/javascript")
    assert "prefers-reduced-motion" in script.text
    assert script.text.count("\n") <= 140


@pytest.mark.parametrize(
    "path",
    ["/pictures/dumbbell_squat/3.svg", "/pictures/dumbbell_squat/0.svg", "/pictures/of_mine/1.svg",
     "/moving/9.json", "/moving/2.json"],
)  # fmt: skip
def test_what_is_not_there_is_not_found(path: str) -> None:
    assert client(a_state(SQUAT)).get(path).status_code == 404


def test_a_class_without_pictures_or_sheet_has_no_script() -> None:
    without = replace(a_state(SQUAT), pictures=None)
    assert "moving.js" not in client(without).get("/").text
    own = replace(SQUAT, movement_id="of_mine")
    assert "data-moving" not in client(a_state(own)).get("/").text
    assert client(a_draft_state()).get("/moving/1.json").status_code == 404
