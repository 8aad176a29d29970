"""Words of limits and ways out that hold a number: for one, and for another number."""

AT_MOST = {
    "pattern_cap": (
        "at most one exercise of one kind, here {kind}",
        "at most {number} exercises of one kind, here {kind}",
    ),
    "jumping_cap": ("at most one exercise with jumps", "at most {number} exercises with jumps"),
    "loaded_least": (
        "at least one exercise with dumbbells",
        "at least {number} exercises with dumbbells",
    ),
    "combinations_cap": ("at most one combination", "at most {number} combinations"),
    "accessories_cap": (
        "at most one exercise for one muscle or one elbow alone",
        "at most {number} exercises for one muscle or one elbow alone",
    ),
    "line_cap": (
        "at most one exercise with a part of one progression line",
        "at most {number} exercises with a part of one progression line",
    ),
}
"""Limits of a class that is chosen, by kind of clash."""

ALLOW = {
    "more_jumping": ("allow one exercise with jumps", "allow {number} exercises with jumps"),
    "more_of_a_pattern": (
        "allow one exercise of one kind, here {kind}",
        "allow {number} exercises of one kind, here {kind}",
    ),
    "more_combinations": ("allow one combination", "allow {number} combinations"),
    "more_accessories": (
        "allow one exercise for one muscle or one elbow alone",
        "allow {number} exercises for one muscle or one elbow alone",
    ),
    "more_of_a_line": (
        "allow one exercise with a part of one progression line",
        "allow {number} exercises with a part of one progression line",
    ),
    "places": ("plan one exercise a round", "plan {number} exercises a round"),
    "round_less": ("do one round", "do {number} rounds"),
    "longer_slot": ("book one more minute", "book {number} more minutes"),
}
"""What is allowed or booked, by kind of way out."""
