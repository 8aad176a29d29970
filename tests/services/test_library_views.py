"""Looking into the library, and checking files on top of it."""

import pytest

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.services.check_library import check_library
from roundwright.services.list_library import list_library, show_entry
from tests.support import worked_count

LIBRARY = worked_count.library()


def test_the_list_has_three_kinds_with_names():
    listed = list_library(LIBRARY)
    assert list(listed) == ["movements", "lines", "combinations"]
    assert {e["slug"] for e in listed["movements"]} == set(LIBRARY.movements)
    line = next(e for e in listed["lines"] if e["slug"] == "step_up_line")
    assert line["versions"] == ["step_up", "box_jump"]
    assert all(entry["name"] for kind in listed.values() for entry in kind)


@pytest.mark.parametrize(
    ("slug", "kind"),
    [("squat", "movement"), ("squat_line", "line"), ("split_squats_press", "combination")],
)
def test_each_kind_of_entry_is_shown_whole(slug, kind):
    entry = show_entry(LIBRARY, slug)
    assert (entry["kind"], entry["slug"]) == (kind, slug)


def test_an_unknown_entry_names_the_nearest():
    with pytest.raises(NotFoundError) as caught:
        show_entry(LIBRARY, "sqat")
    assert "squat" in caught.value.next_step


def test_without_files_the_base_is_counted():
    assert check_library({}, LIBRARY) == {"movements": 11, "lines": 10, "combinations": 3}


def test_every_fault_of_own_files_comes_at_once():
    texts = {
        "one.toml": 'schema = "roundwright.library/1"\n[movement.Bad Slug]\n',
        "two.toml": 'schema = "roundwright.library/1"\n[line.mine]\nname = "Mine"\n',
    }
    with pytest.raises(BadInputError) as caught:
        check_library(texts, LIBRARY)
    assert {f.file for f in caught.value.faults} == {"one.toml", "two.toml"}
