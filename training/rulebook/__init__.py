"""The rulebook: the trade's rules as data, and the engine that decides a tire by them. Pure: no Django, no clock."""

from training.rulebook.case import (
    Case,
    CaseError,
    DualMate,
    EarlierRepair,
    Injury,
    Position,
    Pressure,
    Tire,
    TreadReading,
    UnitSize,
)  # fmt: skip
from training.rulebook.clauses import Clause, Criterion, Statement, Step, UnknownClause
from training.rulebook.decision import CAUTION, Decision, PlanEntry, Ruling, decision_text
from training.rulebook.edition import Edition, edition_names, load_edition, procedure, read_edition
from training.rulebook.engine import decide
from training.rulebook.geometry import InjuryGeometry, Rectangle
from training.rulebook.loader import RulebookError
from training.rulebook.measures import MEASURES, Measure
from training.rulebook.planning import buff_size, injury_geometry, outline_margin
from training.rulebook.quantity import Quantity, in_unit, length_mm, mm, parse_quantity, quantity, show
from training.rulebook.reading import parse_case
from training.rulebook.units import RepairUnit, UnitsError, default_units, read_units, smallest_unit
from training.rulebook.vocabulary import CASINGS, FINDINGS, PURPOSES, VERDICTS, WORDS, severity, vocabulary

__all__ = [
    "CASINGS",
    "CAUTION",
    "FINDINGS",
    "MEASURES",
    "PURPOSES",
    "VERDICTS",
    "WORDS",
    "Case",
    "CaseError",
    "Clause",
    "Criterion",
    "Decision",
    "DualMate",
    "EarlierRepair",
    "Edition",
    "Injury",
    "InjuryGeometry",
    "Measure",
    "PlanEntry",
    "Position",
    "Pressure",
    "Quantity",
    "Rectangle",
    "RepairUnit",
    "RulebookError",
    "Ruling",
    "Statement",
    "Step",
    "Tire",
    "TreadReading",
    "UnitSize",
    "UnitsError",
    "UnknownClause",
    "buff_size",
    "decide",
    "decision_text",
    "default_units",
    "edition_names",
    "in_unit",
    "injury_geometry",
    "length_mm",
    "load_edition",
    "mm",
    "outline_margin",
    "parse_case",
    "parse_quantity",
    "procedure",
    "quantity",
    "read_edition",
    "read_units",
    "severity",
    "show",
    "smallest_unit",
    "vocabulary",
]
