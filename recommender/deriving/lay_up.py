"""The laminate of a shell: from its lay-up where somebody knows it, else as wide as laminates are."""

from dataclasses import replace

from recommender.bench.case import Case
from recommender.bench.frame import Layup
from recommender.mechanics.laminate import Lamina, Laminate, Ply, laminate
from recommender.rulebook.book import Material, Range, Rulebook

PPM, PERCENT = 1e-6, 100
POISSON_MOST = 0.49


def material_of(material: str, case: Case, book: Rulebook) -> Material:
    """Return a material of the book; a laminate whose lay-up the case tells has the moduli that follow from it.

    The modulus is that round the shell. Source: classical lamination theory.
    """
    known, layup = book.materials[material], case.frame.layup
    if layup is None or known.kind != "laminate":
        return known
    found = made_of(layup)
    share, growth = (book.limits[f"layup.{each}"].value for each in ("modulus_doubt", "expansion_doubt"))
    modulus = Range(found.x, found.x * (1 - share), found.x * (1 + share))
    expansion = Range(found.expansion_x, found.expansion_x - growth * PPM, found.expansion_x + growth * PPM)
    return replace(known, modulus=modulus, poisson=min(found.poisson, POISSON_MOST), expansion=expansion)


def made_of(layup: Layup) -> Laminate:
    """Return what a lay-up does in its plane, x round the shell."""
    one = layup.lamina
    lamina = Lamina(
        one.along, one.across, one.shear, one.poisson, one.expansion_along * PPM, one.expansion_across * PPM
    )
    return laminate(lamina, [Ply(each.angle, each.share / PERCENT) for each in layup.plies])
