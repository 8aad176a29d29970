"""Changing a plan from the coach's side: judged answers, effects, sentences, undo, late."""
