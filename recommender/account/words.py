"""The words of the account: verdicts, sides, outcomes and sources as a bench engineer says them."""

from collections.abc import Iterable, Sequence

from recommender.deciding.answer import Advice
from recommender.facts.catalogue import CATALOGUE

SIDES = {"drive": "drive side", "non_drive": "non-drive side"}
FRAME = {
    "proceed": "go ahead with the work named for each side",
    "measure_again": "measure again before anything is pressed",
    "refuse": "nothing may be pressed into this frame",
}
SIDE = {
    "measure_again": "measure again before anything is pressed",
    "refuse": "nothing may be pressed here",
}
OUTCOMES = {
    "cleared": "cleared",
    "cleared_with_cautions": "cleared, with cautions",
    "unsettled": "not settled",
    "ruled_out": "ruled out",
    "not_applicable": "no reason to use it here",
}
CONFORMITY = {
    "proved_conforming": "proved to conform",
    "proved_not_conforming": "proved not to conform",
    "not_proved": "proved neither way",
    "no_published_limit": "no published limit",
    "not_judged": "not judged while the standard itself is in doubt",
}

CAUSES = {
    "made_so": "being made this size",
    "worn": "wear",
    "installer_damage": "damage while a part was fitted or taken out",
    "interference_overload": "stretching by a part that was too tight",
    "corrosion": "corrosion",
    "misalignment": "bores out of line",
    "tight_bearing_fit": "a bearing fit that was too tight",
    "loose_fit": "a part that never held in the bore",
    "loose_insert": "an insert that has come loose",
    "noise_from_elsewhere": "a noise from elsewhere",
    "crack": "a crack in the frame",
    "worn_bearing": "a worn bearing",
    "axial_squeeze": "bearings squeezed from the side",
    "small_bearing": "a bearing too small for its load",
}

HOUSE_ACTS = {"change": "changed", "withdraw": "withdrawn", "replace": "replaced", "add": "added"}


def frame_verdict(advice: Advice) -> str:
    """Return the verdict of the frame in plain words; work that is not released yet is never told without that."""
    waiting = any(side.make is not None and not side.make.released for side in advice.sides.values())
    if advice.frame.verdict == "proceed" and waiting:
        return "go ahead, but only once what is listed before work is done"
    return FRAME.get(advice.frame.verdict, readable(advice.frame.verdict))


def side_verdict(advice: Advice, name: str) -> str:
    """Return the verdict of a side in plain words, with the remedy by its title."""
    side = next(each for key, each in advice.sides.items() if key == name)
    titles = {each.id: each.title for each in side.remedies}
    if side.verdict == "held":
        return f"held; by itself: {lower(titles.get(side.remedy or '', 'a remedy'))}"
    return SIDE.get(side.verdict) or lower(titles.get(side.verdict, side.verdict.replace("_", " ")))


def fact_name(fact: str) -> str:
    """Return the phrase people read for a fact."""
    known = CATALOGUE.get(fact)
    return known.name if known is not None else fact.replace(".", " ").replace("_", " ")


def readable(word: str) -> str:
    """Return an id as people read it: `turned_part` as `turned part`, `house.cup_46` as `cup 46`."""
    return word.removeprefix("house.").replace("_", " ")


def both_sides(sides: Iterable[str]) -> str:
    """Return the side a sentence is for, in front of it; nothing when it is for both or for the frame."""
    named = distinct(sides)
    return f"{capital(SIDES[named[0]])}: " if len(named) == 1 and named[0] in SIDES else ""


def distinct(texts: Iterable[str]) -> list[str]:
    """Return the texts, each once, in their order."""
    return list(dict.fromkeys(texts))


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence: `size, envelope and form`."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def lower(text: str) -> str:
    """Return a sentence's text with a small first letter, acronyms left alone."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text.startswith("A ") else text


def capital(text: str) -> str:
    """Return a text with a capital first letter."""
    return text[:1].upper() + text[1:]


def stop(text: str) -> str:
    """Return a text ending in a full stop."""
    return text if text.endswith((".", "!", "?")) else f"{text}."
