"""The buttons of the class page: who may press them, and where they lead."""

from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from roundwright.web.application import make_application
from tests.web.a_desk import a_desk, another_class, no_class
from tests.web.page_states import PORT, a_draft_state, a_ready_state

OWN = {"origin": f"http://127.0.0.1:{PORT}"}


def a_client(desk, state=None):
    app = make_application(state or desk.state, desk)
    return TestClient(
        app,
        base_url=f"http://127.0.0.1:{PORT}",
        raise_server_exceptions=False,
        follow_redirects=False,
    )


def press(client, path, **headers):
    return client.post(path, headers=OWN | headers)


def test_each_exercise_and_the_class_have_their_buttons():
    desk, _ = a_desk()
    text = a_client(desk).get("/").text
    places = len(desk.state.core.exercises)
    assert text.count(">Keep<") == text.count(">Not this one<") == places
    assert text.count("Another class</button>") == 1
    assert "Back to the one before" not in text


def test_a_page_without_a_desk_has_no_buttons():
    client = TestClient(make_application(a_ready_state()), base_url=f"http://127.0.0.1:{PORT}")
    assert "<button" not in client.get("/").text
    assert client.post("/class/x/another", headers=OWN).status_code == 404


def test_another_class_comes_back_to_the_page_with_the_new_one_and_a_way_back():
    desk, _ = a_desk(another_class("new"))
    client = a_client(desk)
    answer = press(client, f"/class/{desk.view().token}/another")
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    assert client.get("/core.json").json()["plan_id"] == "new"
    assert "Back to the one before" in client.get("/").text
    press(client, f"/class/{desk.view().token}/back")
    assert client.get("/core.json").json()["plan_id"] != "new"


def test_while_it_is_planned_the_page_says_so_looks_again_and_can_be_stopped():
    desk, chooser = a_desk(another_class(), held=True)
    client = a_client(desk)
    answer = press(client, f"/class/{desk.view().token}/another")
    assert answer.headers["location"] == "/planning"
    waiting = client.get("/planning")
    assert '<noscript><meta http-equiv="refresh" content="1"></noscript>' in waiting.text
    assert "Planning…" in waiting.text
    assert "Stop planning" in waiting.text
    text = client.get("/").text
    assert "Planning another class: look again" in text
    assert "Not this one" not in text
    stopped = press(client, "/planning/stop")
    assert stopped.headers["location"] == "/"
    assert "Stopped. The class is as it was." in client.get("/").text
    assert chooser.stops == 1
    assert client.get("/planning").headers["location"] == "/"


def test_keep_is_a_toggle_that_the_page_shows():
    desk, _ = a_desk()
    client = a_client(desk)
    token = desk.view().token
    answer = press(client, f"/class/{token}/keep/2")
    assert answer.headers["location"] == "/#place-2"
    text = client.get("/").text
    assert text.count('aria-pressed="true"') == 1
    assert ">Kept<" in text
    press(client, f"/class/{token}/keep/2")
    assert 'aria-pressed="true"' not in client.get("/").text


def test_why_there_is_no_other_class_stands_on_the_page():
    desk, _ = a_desk(no_class())
    client = a_client(desk)
    press(client, f"/class/{desk.view().token}/instead/1")
    text = client.get("/").text
    assert "No other class is possible that way." in text
    assert "Do not insist on Step-up." in text
    assert "Fits: everyone has a version" in text


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"origin": "null"},
        {"origin": "http://example.org"},
        {"origin": f"https://127.0.0.1:{PORT}"},
        {"origin": f"http://localhost:{PORT}"},
        OWN | {"sec-fetch-site": "cross-site"},
        OWN | {"sec-fetch-site": "same-site"},
    ],
)
@pytest.mark.parametrize("what", ["another", "keep/1", "instead/1", "back", "worth-buying"])
def test_a_button_that_is_not_on_this_page_does_nothing(headers, what):
    desk, chooser = a_desk(another_class())
    client = a_client(desk)
    answer = client.post(f"/class/{desk.view().token}/{what}", headers=headers)
    assert answer.status_code == 403
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert chooser.asked == []
    assert desk.view().kept == frozenset()


def test_reading_never_presses_a_button():
    desk, chooser = a_desk(another_class())
    client = a_client(desk)
    for what in ("another", "keep/1", "instead/1", "back"):
        assert client.get(f"/class/{desk.view().token}/{what}").status_code == 405
    assert client.get("/planning/stop").status_code == 405
    assert chooser.asked == []


def test_a_button_of_an_earlier_page_is_told_that_the_class_has_changed():
    desk, _ = a_desk(another_class())
    client = a_client(desk)
    old = desk.view().token
    press(client, f"/class/{old}/another")
    answer = press(client, f"/class/{old}/keep/1", accept="text/html")
    assert answer.status_code == 409
    assert "Another class has come onto the page meanwhile." in answer.text


def test_a_draft_can_be_followed_by_another_class():
    desk, _ = a_desk(first=a_draft_state())
    text = a_client(desk).get("/").text
    assert "A draft" in text
    assert "Another class</button>" in text


def test_forms_go_to_this_address_only():
    desk, _ = a_desk()
    policy = a_client(desk).get("/").headers["content-security-policy"]
    assert "form-action 'self'" in policy


def test_rounds_and_work_are_taken_from_lists_beside_another_class():
    desk, chooser = a_desk(another_class(), first=replace(a_ready_state(), is_timed=True))
    client = a_client(desk)
    text = client.get("/").text
    assert '<label class="taken">Rounds <select name="rounds"' in text
    assert '<option value="any">the best of 2 to 4</option>' in text
    assert '<option value="any">what fits who is there</option>' in text
    path = f"/class/{desk.view().token}/another"
    answer = client.post(path, headers=OWN, data={"rounds": "4", "work_rest": "30:30"})
    assert answer.status_code == 303
    assert (chooser.asked[0].rounds, chooser.asked[0].work_rest) == ((4,), (30, 30))
    assert '<option value="4" selected>4</option>' in client.get("/").text


def test_what_the_lists_do_not_hold_is_refused():
    desk, chooser = a_desk(another_class())
    client = a_client(desk)
    path = f"/class/{desk.view().token}/another"
    for sent in ({"rounds": "lots"}, {"work_rest": "<b>"}):
        answer = client.post(path, headers=OWN, data=sent)
        assert answer.status_code == 422
        assert "<b>" not in answer.text
    assert client.post(path, headers=OWN, content=b"\xff=1").status_code == 422
    assert client.post(path, headers=OWN, content=b"a=1&b=2&c=3&d=4&e=5").status_code == 422
    assert chooser.asked == []


def test_a_counted_class_has_no_list_of_work_and_rest():
    desk, _ = a_desk()
    assert 'name="work_rest"' not in a_client(desk).get("/").text
