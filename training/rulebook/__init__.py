"""The rulebook: the trade's rules as data, and the engine that decides a tire by them. Pure: no Django, no clock."""

from training.rulebook.altering import Beliefs
from training.rulebook.audit import Audit, audit, audit_text
from training.rulebook.audit_fault import FAULTS, Fault
from training.rulebook.audit_job import Job, JobError, LoggedStep, parse_job
from training.rulebook.audit_words import job_vocabulary
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
from training.rulebook.compare import (
    Change,
    clause_lines,
    compare,
    compare_text,
    condition_text,
    crown_text,
    statement_text,
    whose,
)
from training.rulebook.decision import CAUTION, Decision, PlanEntry, Ruling, decision_text
from training.rulebook.edition import Edition, in_force, procedure, read_edition, read_versions
from training.rulebook.engine import decide
from training.rulebook.geometry import InjuryGeometry, Rectangle
from training.rulebook.header import Scope
from training.rulebook.house import (
    HouseRule,
    HouseRuleError,
    HouseRules,
    adjustable_clauses,
    effective,
    in_words,
    lay_over,
    settle,
)
from training.rulebook.house_text import read_house_rules, write_house_rules
from training.rulebook.loader import RulebookError
from training.rulebook.measures import MEASURES, Measure
from training.rulebook.planning import buff_size, injury_geometry, outline_margin
from training.rulebook.provenance import Unread, from_memory, is_unread
from training.rulebook.quantity import Quantity, in_unit, length_mm, mm, parse_quantity, quantity, show
from training.rulebook.reading import parse_case, vocabulary
from training.rulebook.registry import (
    EDITIONS,
    broken_editions,
    default_edition,
    edition_names,
    edition_scopes,
    edition_versions,
    editions_in,
    load_edition,
)
from training.rulebook.sizes import Model
from training.rulebook.units import RepairUnit, UnitsError, default_units, read_units, smallest_unit
from training.rulebook.vocabulary import FINDINGS, WORDS, severity
from training.trade.words import CASINGS, PURPOSES, VERDICTS

__all__ = [
    "CASINGS",
    "CAUTION",
    "EDITIONS",
    "FAULTS",
    "FINDINGS",
    "MEASURES",
    "PURPOSES",
    "VERDICTS",
    "WORDS",
    "Audit",
    "Beliefs",
    "Case",
    "CaseError",
    "Change",
    "Clause",
    "Criterion",
    "Decision",
    "DualMate",
    "EarlierRepair",
    "Edition",
    "Fault",
    "HouseRule",
    "HouseRuleError",
    "HouseRules",
    "Injury",
    "InjuryGeometry",
    "Job",
    "JobError",
    "LoggedStep",
    "Measure",
    "Model",
    "PlanEntry",
    "Position",
    "Pressure",
    "Quantity",
    "Rectangle",
    "RepairUnit",
    "RulebookError",
    "Ruling",
    "Scope",
    "Statement",
    "Step",
    "Tire",
    "TreadReading",
    "UnitSize",
    "UnitsError",
    "UnknownClause",
    "Unread",
    "adjustable_clauses",
    "audit",
    "audit_text",
    "broken_editions",
    "buff_size",
    "clause_lines",
    "compare",
    "compare_text",
    "condition_text",
    "crown_text",
    "decide",
    "decision_text",
    "default_edition",
    "default_units",
    "edition_names",
    "edition_scopes",
    "edition_versions",
    "editions_in",
    "effective",
    "from_memory",
    "in_force",
    "in_unit",
    "in_words",
    "injury_geometry",
    "is_unread",
    "job_vocabulary",
    "lay_over",
    "length_mm",
    "load_edition",
    "mm",
    "outline_margin",
    "parse_case",
    "parse_job",
    "parse_quantity",
    "procedure",
    "quantity",
    "read_edition",
    "read_house_rules",
    "read_units",
    "read_versions",
    "settle",
    "severity",
    "show",
    "smallest_unit",
    "statement_text",
    "vocabulary",
    "whose",
    "write_house_rules",
]
