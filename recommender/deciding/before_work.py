"""What is missing before work may begin on a side that has a remedy."""

from collections.abc import Iterator, Set

from recommender.deciding.options import OptionResult
from recommender.facts.value import FactValue
from recommender.rulebook.book import Remedy

WARRANTY = "history.warranty_open"
PART_FIRST, CONSENT_FIRST, WARRANTY_FIRST = (
    "Measure the part", "The owner's written agreement to this work", "An answer to the warranty question",
)  # fmt: skip


def before_work(
    remedy: Remedy, chosen: OptionResult, warranty: FactValue | None, consent: Set[str]
) -> tuple[str, ...]:
    """Return what must come first, in words: the part measured, the owner's consent, the warranty question answered.

    The warranty question comes before work that cannot be undone, and before every remedy about which a rule asks
    it; unknown counts as open.
    """
    return tuple(_missing(remedy, chosen, warranty, consent))


def _missing(remedy: Remedy, chosen: OptionResult, warranty: FactValue | None, consent: Set[str]) -> Iterator[str]:
    if chosen.option.condition:
        yield f"{PART_FIRST}: {chosen.option.part} may be used only {chosen.option.condition}."
    if (remedy.consent or not remedy.reversible) and remedy.id not in consent:
        yield f"{CONSENT_FIRST}: {remedy.title}."
    if _waits_for_warranty(remedy, chosen) and (warranty is None or warranty.word is not False):
        state = "is open" if warranty is not None and warranty.word is True else "has not been asked"
        yield f"{WARRANTY_FIRST}, which {state}: nothing is cut, glued or coated before it."


def _waits_for_warranty(remedy: Remedy, chosen: OptionResult) -> bool:
    return not remedy.reversible or any(WARRANTY in run.rule.facts for run in chosen.runs)
