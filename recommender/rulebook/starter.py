"""A small commented house folder to begin with: one changed limit, one added rule with its limit, one added part."""

from collections.abc import Mapping
from datetime import date

from recommender.ground.quantity import show
from recommender.rulebook.book import Limit, Rulebook

CHANGED = "polymer_cup.aim_low"
STEP_UM = 5.0

LIMITS = """\
# yaml-language-server: $schema=schemas/house.schema.json
# Limits of this shop. Each act names one shipped limit and is signed; `rules limits` lists them all.
house:
  - change: {limit}
    to: {to}                       # stricter is {side}; a shop may {may} this one
    was: {was}                      # the shipped value; when that moves, this act has to be looked at again
    reason: "light fits came back creaking"
    by: workshop lead
    dated: {dated}
    review_by: {review}          # the last day it stands without being looked at again
"""

RULES = """\
# yaml-language-server: $schema=schemas/house.schema.json
# Rules of this shop. Their ids start with `house.`; the number they compare with is a limit of its own.
limits:
  house.sides.apart:
    meaning: Difference of the two bores from which both sides are looked at again before parts are ordered
    unit: um
    safe_side: lower                # a lower number is stricter: the advice is given sooner
    shop_may: move
    value: 40
    source: {{kind: shop, text: "own returns"}}
    added: {added}

rules:
  - id: house.sides-apart
    title: The two bores differ much
    about: frame                    # frame, side, {{remedies: [...]}} or {{cause: ...}}
    holds_if: {{fact: evidence.sides_difference, above: house.sides.apart}}
    finding: {{stance: advises_against}}
    because: "The bores differ by {{evidence.sides_difference}}, more than {{house.sides.apart}}; order for each side."
    source: {{kind: shop, text: "own returns"}}
    added: {added}
    examples:                       # one on each side of the limit; they are run whenever the rules are loaded
      - {{name: just too far apart, facts: {{evidence.sides_difference: 41 um}}, expect: holds}}
      - {{name: just close enough, facts: {{evidence.sides_difference: 39 um}}, expect: fails}}
      - {{name: one side not read, facts: {{}}, expect: undecided}}
"""

PARTS = """\
# yaml-language-server: $schema=schemas/house.schema.json
# Parts of this shop, beside those of the shipped rules. A case names them by id.
parts:
  house.polymer_cup_46_03:
    title: Polymer cup of 46.03 mm
    kind: cup
    material: polymer
    od: {{nominal: 46.03 mm, lower: 46.025 mm, upper: 46.035 mm}}   # null for both ends where no band is known
    contact_length: 10 mm
    seat: 42 mm
    seat_interference: {{low: 0 um, high: 30 um}}
    bearing: "6806"
    turnable: false
    standards: [pf30]               # the shells it belongs to
    source: {{kind: shop, text: "supplier's drawing"}}
    added: {added}
"""


def starter_files(book: Rulebook, today: date) -> Mapping[str, str]:
    """Return the text of each file of a small house folder, signed on a day and due for review a year later."""
    limit = book.limits[CHANGED]
    review = date(today.year + 1, today.month, min(today.day, 28))
    added = f"{{reason: \"an example to begin with\", by: workshop lead, dated: {today}, review_by: {review}}}"
    return {
        "limits.yaml": LIMITS.format(
            limit=limit.id, to=show(_stricter(limit), limit.unit), was=limit.shown, side=limit.safe_side,
            may=limit.shop_may, dated=today, review=review,
        ),
        "rules.yaml": RULES.format(added=added),
        "parts.yaml": PARTS.format(added=added),
    }  # fmt: skip


def _stricter(limit: Limit) -> float:
    return limit.value + (STEP_UM if limit.safe_side == "higher" else -STEP_UM)
