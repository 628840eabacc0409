"""Symptoms: one fact for each that an owner or a bench may report."""

from recommender.facts.fact import Fact


def _symptom(word: str, name: str, meaning: str, settle: str) -> Fact:
    made_by = "symptoms written in the case"
    return Fact(f"symptom.{word}", "frame", "flag", f"{name} reported", meaning, made_by, "papers", settle)


FACTS: tuple[Fact, ...] = (
    _symptom("creak", "creak", "The owner or the bench reports a creak.", "ride it, and ask the owner"),
    _symptom(
        "cup_walks_out", "cup walking out", "A cup or bearing is reported to walk out of its bore.",
        "mark the flange against the shell and ride it",
    ),
    _symptom(
        "cup_falls_out", "cup falling out", "A cup or bearing is reported to come out by hand or by itself.",
        "ask the owner, and push the part out by hand",
    ),
    _symptom(
        "short_bearing_life", "short bearing life", "The owner reports bearings that did not last.",
        "ask the owner",
    ),
    _symptom(
        "stiff_after_pressing", "stiff after pressing", "Bearings turned stiff once they had been pressed in.",
        "turn the bearing by hand before and after the spindle goes in",
    ),
    _symptom(
        "play", "play", "The crank or the spindle has play.",
        "rock the crank and see what moves: the bearing in its bore, or its inner ring",
    ),
    _symptom(
        "spindle_binds", "binding spindle",
        "Each bearing turns free by hand, and both together drag with the spindle in.",
        "turn each bearing by hand, then both with the spindle in",
    ),
)
