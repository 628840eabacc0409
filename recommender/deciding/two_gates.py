"""The two gates of a fit: the window of its fit class, and what it does to shell and bearing. Where they disagree."""

from collections.abc import Sequence

from recommender.deciding.contest import excused, of_stance
from recommender.deciding.runs import Run
from recommender.rulebook.book import Rulebook

PHYSICS = ("strain.", "bearing.ring", "bearing.clearance", "fit.cold", "fit.hot")


def disagreement(runs: Sequence[Run], book: Rulebook) -> str:
    """Return in words how fit class and physics disagree on an option; nothing where they agree or one is open."""
    bars = of_stance(runs, "rules_out")
    of_class = {limit for each in book.fit_classes.values() for limit in each.limits.values()}
    trade = [run for run in bars if of_class & set(run.rule.limits)]
    physics = [run for run in bars if any(fact.startswith(PHYSICS) for fact in run.rule.facts)]
    barred = [run.rule.title for run in physics if run.outcome == "holds"]
    if trade and all(run.outcome == "fails" for run in trade):
        named = "; ".join(f"{title[:1].lower()}{title[1:]}" for title in barred)
        return f"The fit class allows this part; the physics bars it: {named}." if named else ""
    alone = any(run.outcome == "holds" for run in trade)
    if alone and not barred and all(run.outcome == "fails" or excused(run) for run in physics):
        return "The fit class alone bars this part; the physics of shell and bearing does not."
    return ""
