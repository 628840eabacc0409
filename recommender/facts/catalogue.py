"""The catalogue: every fact by its id."""

from types import MappingProxyType

from recommender.facts import (
    bearing,
    bore,
    by_grid,
    cause,
    conformity,
    damage,
    evidence,
    frame,
    making,
    option,
    pressing,
    symptom,
)
from recommender.facts.fact import Fact

FAMILIES = (
    frame.FACTS,
    symptom.FACTS,
    damage.FACTS,
    evidence.FACTS,
    conformity.FACTS,
    bore.FACTS,
    option.FACTS,
    making.FACTS,
    pressing.FACTS,
    bearing.FACTS,
    cause.FACTS,
    by_grid.FACTS,
)
CATALOGUE: MappingProxyType[str, Fact] = MappingProxyType({fact.id: fact for family in FAMILIES for fact in family})
