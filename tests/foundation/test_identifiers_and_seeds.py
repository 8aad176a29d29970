"""Names, identifiers and draws repeat; nothing is global."""

import uuid

import pytest

from roundwright.foundation.identifiers import SeededIds, is_slug, nearest_names
from roundwright.foundation.seeds import generator
from roundwright.foundation.sensitive import Sensitive


@pytest.mark.parametrize("slug", ["ab", "step_up", "p001", "a" + "b" * 40])
def test_slugs(slug):
    assert is_slug(slug)


@pytest.mark.parametrize("slug", ["a", "1ab", "Step", "step-up", "a" + "b" * 41, "", "ab\n"])
def test_what_is_no_slug(slug):
    assert not is_slug(slug)


def test_ids_are_uuids_of_version_4_and_repeat():
    first, again = SeededIds(1, "plan"), SeededIds(1, "plan")
    ids = [first.new_id() for _ in range(5)]
    assert ids == [again.new_id() for _ in range(5)]
    assert len(set(ids)) == 5
    assert {uuid.UUID(i).version for i in ids} == {4}
    assert SeededIds(2, "plan").new_id() not in ids


def test_two_purposes_never_share_a_stream():
    draws = {generator(1, purpose).integers(2**62) for purpose in ("a", "b", "plan", "times")}
    assert len(draws) == 4
    assert generator(1, "a", 1).integers(2**62) not in draws


def test_nearest_names_help_with_a_slip():
    assert nearest_names("goblet_sqat", ["goblet_squat", "box_squat", "hinge"])[0] == "goblet_squat"
    assert nearest_names("zzz", ["goblet_squat"]) == ()


def test_a_health_value_never_prints():
    word = Sensitive("canary-word")
    assert "canary" not in f"{word} {word!r} {[word]} {{'x': {word}}}"
    assert word.reveal() == "canary-word"
    assert word == Sensitive("canary-word")
