"""The rulebook: the trade's rules as data, and the engine that decides a tire by them. Pure: no Django, no clock."""

from training.rulebook.altering import Beliefs, named_clauses
from training.rulebook.audit_fault import FAULTS, Fault
from training.rulebook.audit_job import Job, JobError, LoggedStep, parse_job
from training.rulebook.audit_printing import audit_text
from training.rulebook.audit_telling import ToldFault, fault_title, step_titles, to_write_down, told_fault
from training.rulebook.audit_unstated import Unstated
from training.rulebook.audit_words import STEP_PARAMETERS, job_vocabulary
from training.rulebook.auditing import Audit, audit
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
from training.rulebook.case_words import FINDINGS, WORDS, severity
from training.rulebook.citations import Source
from training.rulebook.clauses import Clause, Criterion, Statement, Step, UnknownClause
from training.rulebook.compare import (
    Change,
    compare,
    compare_text,
    condition_text,
    crown_text,
    statement_text,
    whose,
)
from training.rulebook.dates import production_week, whole_years
from training.rulebook.decision import CAUTION, Decision, PlanEntry, Ruling
from training.rulebook.edition import Edition, in_force, procedure, read_edition, read_versions
from training.rulebook.engine import decide
from training.rulebook.geometry import (
    InjuryGeometry,
    Rectangle,
    half_crown_mm,
    place_injury,
    station_deg,
    tread_circumference_mm,
)
from training.rulebook.header import Scope
from training.rulebook.house import (
    HouseRule,
    HouseRuleError,
    HouseRules,
    adjustable_clauses,
    effective,
    in_words,
    lay_over,
    limits_from_text,
    settle,
    words_to_choose,
)
from training.rulebook.house_text import read_house_rules, write_house_rules
from training.rulebook.loader import RulebookError
from training.rulebook.measures import MEASURES, NOT_LOGGED, Measure
from training.rulebook.one_case import OneCase
from training.rulebook.planning import as_drawn, buff_size, injury_geometry, measured, outline_margin
from training.rulebook.printing import decision_text, lacks_injury
from training.rulebook.provenance import Unread, cited_sources, from_memory, is_unread
from training.rulebook.quantities import (
    UNITS,
    Quantity,
    accepted_form,
    in_unit,
    length_mm,
    mm,
    parse_quantity,
    quantity,
    read_off,
    show,
)
from training.rulebook.reading import parse_case, vocabulary
from training.rulebook.registry import (
    EDITIONS,
    UnreadableEdition,
    broken_editions,
    default_edition,
    edition_language,
    edition_names,
    edition_scopes,
    edition_title,
    edition_versions,
    editions_in,
    load_edition,
    unreadable_edition,
)
from training.rulebook.sizes import Model
from training.rulebook.telling import ToldRuling, in_order, meaning_of, said_by, to_rely_on, told
from training.rulebook.typed import read_as, typed_quantities, typed_quantity, unit_label, units_offered
from training.rulebook.units import (
    OnShelf,
    RepairUnit,
    Stem,
    UnitsError,
    fitting_stem,
    read_units,
    smallest_unit,
    units_from,
)
from training.rulebook.verdict_telling import besides, is_tire_rejected, not_needed, to_do, words_of
from training.trade.words import CASINGS, PURPOSES, VERDICTS
