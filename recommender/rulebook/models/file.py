"""A file of the rule book: any of these sections."""

from pydantic import Field

from recommender.reading.model import Model
from recommender.rulebook.models.common import Id, Word
from recommender.rulebook.models.grids import GridModel
from recommender.rulebook.models.limits import LimitModel
from recommender.rulebook.models.rules import RuleModel
from recommender.rulebook.models.shells import FitClassModel, StandardModel
from recommender.rulebook.models.stock import (
    BearingModel,
    CompoundModel,
    InstrumentModel,
    MaterialModel,
    PartModel,
    SpreadModel,
)
from recommender.rulebook.models.texts import CauseModel, RemedyModel, TableModel, WordingModel, WordList


class RuleFile(Model):
    """One file; each section may stand in several files, each id only once."""

    limits: dict[Id, LimitModel] = Field(default={}, description="named numbers")
    grids: dict[Id, GridModel] = Field(default={}, description="decision tables that answer a fact")
    rules: list[RuleModel] = Field(default=[], description="conditions and findings")
    remedies: dict[Word, RemedyModel] = Field(default={}, description="in the order they are considered")
    standards: dict[Word, StandardModel] = Field(default={}, description="shell standards")
    fit_classes: dict[Word, FitClassModel] = Field(default={}, description="interference windows by pair")
    materials: dict[Word, MaterialModel] = Field(default={}, description="stiffness and expansion")
    instruments: dict[Word, InstrumentModel] = Field(default={}, description="kinds of instrument")
    spreads: dict[Word, SpreadModel] = Field(default={}, description="default half-spreads")
    bearings: dict[Word, BearingModel] = Field(default={}, description="bearings by designation")
    compounds: dict[Word, CompoundModel] = Field(default={}, description="classes of retaining compound")
    parts: dict[Id, PartModel] = Field(default={}, description="generic parts")
    words: dict[Word, WordList] = Field(default={}, description="words a case may use")
    lists: dict[Word, list[Word]] = Field(default={}, description="named choices of those words")
    tables: dict[Word, TableModel] = Field(default={}, description="tables of standards")
    wording: WordingModel = Field(default=WordingModel(), description="sentences of the account")
    causes: dict[Word, CauseModel] = Field(default={}, description="what a bore may have come from")
