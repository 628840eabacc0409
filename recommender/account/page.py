"""The page: one file that needs nothing else, for owner, shop, warranty desk and whoever retraces the decision."""

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from recommender.account import page_closing, page_owner, page_readings, page_reasoning, page_shop, page_warranty
from recommender.account.page_fits import fit_figures
from recommender.account.page_language import ENGLISH, Sentences
from recommender.account.page_matter import Matter
from recommender.account.page_photos import photos
from recommender.account.page_pictures import bore_figures
from recommender.account.page_told import Told, finalised, typeset

TEMPLATES = Path(__file__).with_name("templates")


def page(matter: Matter, language: str = ENGLISH) -> str:
    """Return the account as one page of HTML; the same advice, case and photographs give the same bytes.

    The owner's part is in the language asked for; raises KeyError where the book has no sentences in it.
    """
    advice, say = matter.advice, Sentences(matter.book, language)
    return _environment().get_template("page.html").render(
        advice=advice,
        case=matter.case,
        say=say,
        told_case=Told(matter.case.case, "case:case"),
        told_date=Told(advice.case.received, "case:received"),
        owner=page_owner.owner(matter, say),
        shop=page_shop.sheets(matter),
        warranty=page_warranty,
        readings=page_readings,
        reasoning=page_reasoning,
        closing=page_closing,
        matter=matter,
        bores=bore_figures(matter),
        fits=fit_figures(matter),
        photos=photos(matter),
        standing=matter.notices("standing"),
        warnings=matter.notices("book_edited", "house_changes", "house_void"),
    ) + "\n"  # fmt: skip


@cache
def _environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=finalised,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters["typeset"] = typeset
    return made
