"""The digest is over one form only: the standard's, without floats."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.foundation.canonical import _text, canonical_bytes, digest_of

values = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=12,
)


def test_keys_are_sorted_by_utf16_code_units_as_in_the_standards_own_example():
    # RFC 8785, section 3.2.3 (example recalled from memory): the order of these seven keys.
    keys = ["\u20ac", "\r", "\ufb33", "1", "\U0001f600", "\u0080", "\u00f6"]
    text = canonical_bytes(dict.fromkeys(keys, 0)).decode()
    found = sorted(keys, key=lambda key: text.index(key if key != "\r" else "\\r"))
    assert found == ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\U0001f600", "\ufb33"]


def test_no_space_and_no_escape_that_is_not_needed():
    assert (
        canonical_bytes({"b": [1, True, None], "a": "é\n"})
        == '{"a":"é\\n","b":[1,true,null]}'.encode()
    )


@pytest.mark.parametrize("bad", [1.5, {"a": 0.1}, [object()], 2**53])
def test_what_a_core_may_not_hold_is_refused(bad):
    with pytest.raises(TypeError):
        canonical_bytes(bad)


@given(values)
def test_the_digest_does_not_depend_on_the_order_of_keys(value):
    def turned(item):
        if isinstance(item, dict):
            return {key: turned(item[key]) for key in reversed(list(item))}
        return [turned(part) for part in item] if isinstance(item, list) else item

    assert digest_of(turned(value)) == digest_of(value)


@given(values)
def test_the_quick_way_gives_the_same_bytes(value):
    assert canonical_bytes(value) == _text(value).encode("utf-8")
