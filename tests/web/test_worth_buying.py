"""What is worth buying is found out when it is asked for, and never changes the class."""

from dataclasses import dataclass, field, replace
from threading import Event

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError, UndecidedError
from tests.web.a_desk import a_desk, another_class
from tests.web.page_states import a_draft_state, a_ready_state
from tests.web.test_planning_pages import OWN, a_client, press

LINE = "One more pair of 8 kg and six people stop compromising."
ASKED = "What is worth buying</button>"


@dataclass
class Shop:
    """Says its line when it is let go, or fails."""

    line: str = LINE
    error: Exception | None = None
    let_go: Event = field(default_factory=Event)
    times: int = 0

    def __call__(self):
        self.times += 1
        assert self.let_go.wait(20)
        if self.error is not None:
            raise self.error
        return self.line


def shopping_desk(shop, *answers):
    return a_desk(*answers, first=replace(a_ready_state(), worth_buying=shop))


def open_shop(**values):
    shop = Shop(**values)
    shop.let_go.set()
    return shop


def asked(shop):
    desk, _ = shopping_desk(shop)
    desk.shop(desk.view().token)
    assert desk.wait(20)
    return desk.view().notice


def test_the_line_comes_as_a_notice_and_the_class_stays():
    desk, chooser = shopping_desk(open_shop())
    token = desk.view().token
    desk.shop(token)
    assert desk.wait(20)
    view = desk.view()
    assert (view.notice.title, view.notice.lines) == ("Worth buying for this class:", (LINE,))
    assert (view.token, view.may_go_back, chooser.asked) == (token, False, [])


def test_nothing_worth_buying_is_said():
    assert asked(open_shop(line="")).title.startswith("Nothing that could be bought")


def test_a_search_that_was_given_up_is_said():
    notice = asked(open_shop(error=UndecidedError("The search took longer than it may.")))
    assert notice.title == "The search took longer than it may."


def test_meanwhile_the_page_says_what_is_looked_for_and_nothing_else_can_begin():
    shop = Shop()
    desk, chooser = shopping_desk(shop, another_class())
    client = a_client(desk)
    token = desk.view().token
    desk.shop(token)
    desk.another(token)
    waiting = client.get("/planning").text
    assert "Trying more kit…" in waiting
    assert "Stop trying" in waiting
    assert "Planning…" not in waiting
    assert "Trying more kit: look again" in client.get("/").text
    shop.let_go.set()
    assert desk.wait(20)
    assert (shop.times, chooser.asked) == (1, [])
    assert not desk.view().is_shopping
    desk.another(token)
    assert desk.wait(20)
    assert desk.view().notice is None


def test_pressed_it_stands_on_the_page():
    desk, _ = shopping_desk(open_shop())
    client = a_client(desk)
    assert ASKED in client.get("/").text
    answer = press(client, f"/class/{desk.view().token}/worth-buying")
    assert answer.headers["location"] == "/"
    assert LINE in client.get("/").text


@pytest.mark.parametrize("first", [a_ready_state(), a_draft_state()])
def test_where_nobody_can_be_asked_there_is_no_button(first):
    desk, _ = a_desk(first=first)
    client = a_client(desk)
    assert ASKED not in client.get("/").text
    with pytest.raises(NotFoundError):
        desk.shop(desk.view().token)


def test_only_this_page_and_this_class_can_ask():
    shop = open_shop()
    desk, _ = shopping_desk(shop)
    client = a_client(desk)
    path = f"/class/{desk.view().token}/worth-buying"
    assert client.post(path).status_code == 403
    assert client.get(path).status_code == 405
    assert press(client, "/class/another/worth-buying").status_code == 409
    with pytest.raises(ChangedMeanwhileError):
        desk.shop("another")
    assert client.post(path, headers=OWN | {"sec-fetch-site": "cross-site"}).status_code == 403
    assert shop.times == 0
