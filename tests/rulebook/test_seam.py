"""Every text of the rulebook passes the seam for language: told in a language without words, none is left but proper
names and what a case, a log or a shelf states as data."""

import ast
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest import mock

import pytest

from tests.rulebook.cases import CLEAN, SHELF, a_case, an_examined_case
from tests.rulebook.jobs import a_job, a_log, moved, swapped, without
from tests.speaking import Bracketed, bracketed, outside
from tests.strings import strings
from training.rulebook import (
    CaseError,
    Edition,
    HouseRule,
    HouseRuleError,
    HouseRules,
    JobError,
    adjustable_clauses,
    audit,
    audit_text,
    compare_text,
    decide,
    decision_text,
    edition_names,
    edition_scopes,
    edition_title,
    in_words,
    job_vocabulary,
    lay_over,
    load_edition,
    meaning_of,
    parse_case,
    parse_job,
    statement_text,
    typed_quantities,
    typed_quantity,
    vocabulary,
    whose,
)
from training.rulebook.clauses import HOUSE
from training.trade.quantity_words import CONDITION_WORDS, QUANTITY_WORDS
from training.trade.words import (
    CASING_WORDS,
    FINDING_WORDS,
    KIND_WORDS,
    LOOK_WORDS,
    METHOD_WORDS,
    PURPOSE_WORDS,
    SKILLS,
    VERDICT_WORDS,
    casings_in_words,
    tires_in_words,
)

TRAINING = Path(__file__).parents[2] / "training"
each_edition = pytest.mark.parametrize("name", edition_names())


def _blank(text: str) -> str:
    """The text without its words; its places stay."""
    return re.sub(r"\{[^}]*\}|[^\W\d_]+", lambda found: found[0] if found[0].startswith("{") else "·", text)


@contextmanager
def blanked() -> Iterator[None]:
    """Inside, no word of what passes the seam is left, so that what filled a place shows too if it never passed."""
    one = mock.patch.object(Bracketed, "gettext", lambda _, text: _blank(text))
    many = mock.patch.object(Bracketed, "ngettext", lambda _, one, many, count: _blank(one if count == 1 else many))
    with one, many, bracketed():
        yield


def _names(edition: Edition) -> tuple[str, ...]:
    """How publishers name their texts, and the parts of them: these are no sentences of ours."""
    cited = [one.cited for clause in edition.clauses.values() for one in clause.statements]
    cited += [one.cited for step in edition.procedure for one in step.criteria]
    cited += [crown.cited for crown in edition.crowns.values()]
    cited += list(edition.work.cited) if edition.work else []
    named = {one.named for each in cited if each is not None for one in each.citations}
    return tuple(sorted(map(str, named), key=len, reverse=True))


def _strange(texts: Any, names: tuple[str, ...] = (), data: frozenset[str] = frozenset()) -> dict[str, str]:
    """The words that never passed the seam, each with a text it stands in."""
    found: dict[str, str] = {}
    for text in strings(texts):
        told = text
        for name in names:
            told = told.replace(name, " ")
        found |= {word: text for word in outside(told) if word not in data}
    return found


# what a case states as data, and a shelf: markings as molded, units, and the names of units and stems
STATED = frozenset(
    ["R16", "R17", "R22", "LT245", "R1", "R2", "mi", *["patch", "stem", "one-piece", "small", "medium", "large"]]
)


@each_edition
def test_every_text_of_an_edition_passes_the_seam(name: str) -> None:
    with blanked():
        edition = load_edition(name)
        told: list[Any] = [edition_title(name), edition.title, [one.title for one in edition_scopes(name)]]
        for clause in edition.clauses.values():
            told += [clause.title, clause.because, clause.condition, clause.usually,
                     clause.printed_limit(), whose(clause, edition), meaning_of(clause.quantity, edition)]  # fmt: skip
            told += [statement_text(clause, one, edition) for one in clause.statements]
            told += [one.source for one in clause.statements]
        for step in edition.procedure:
            told += [step.title, step.instruction, step.tools]
            told += [(one.text, one.source) for one in step.criteria]
        told += [(fact.words, fact.why) for fact in edition.essentials.facts.values()]
        told += [one.why for one in (*edition.essentials.optional, *edition.essentials.unused)]
        work = edition.work
        assert work is not None
        for rules in (work.once, work.cured, work.before, work.gravest):
            told += [rule.reason.because for rule in rules]
        told += [need.reason.because for need in work.needs.values()]
        told += [one.because for one in work.critical] + [one.because for one in work.plausible]
        assert not _strange(told, _names(edition), STATED)


def test_every_word_of_the_trade_passes_the_seam() -> None:
    with blanked():
        told: list[Any] = [list(table.values()) for table in (FINDING_WORDS, KIND_WORDS, LOOK_WORDS, METHOD_WORDS,
                           PURPOSE_WORDS, SKILLS, QUANTITY_WORDS, CONDITION_WORDS)]  # fmt: skip
        told += [(one.one, one.many, one.short, one.label, one.meaning) for one in CASING_WORDS.values()]
        told += [(one.name, one.todo, one.opening) for one in VERDICT_WORDS.values()]
        told += [casings_in_words(CASING_WORDS), tires_in_words(CASING_WORDS)]
        told += [meaning for _, _, meaning in (*vocabulary(), *job_vocabulary(load_edition("north-america")))]
        assert not _strange(told)


INJURIES = [
    {"id": "A", "kind": "puncture", "diameter": "5 mm", "lateral": "0 mm", "station": "90 deg", "angle": "0 deg"},
    {"id": "B", "kind": "puncture", "diameter": "5 mm", "lateral": "5 mm", "station": "93 deg", "angle": "0 deg"},
    {"id": "C", "kind": "cut", "length": "40 mm", "reaches": "cord", "zone": "sidewall"},
    {"id": "D", "kind": "surface", "reaches": "rubber", "zone": "shoulder"},
]
REPAIRS = [
    {"id": "R", "kind": "string", "zone": "crown", "sound": False},
    {"id": "Q", "kind": "two-piece", "lateral": "5 mm", "station": "92 deg"},
]
CASES: dict[str, dict[str, Any]] = {
    "sound": an_examined_case(),
    "truck": an_examined_case("truck"),
    "motorcycle": an_examined_case("motorcycle"),
    "nothing-said": a_case(),
    "steer-axle": a_case("truck", purpose="service", position={"vehicle": "truck", "axle": "front", "dual": True},
                         tread_depths=["3/32 in"]),
    "large-and-steep": an_examined_case(injury={"diameter": "12 mm", "angle": "40 deg"}),
    "string": an_examined_case(proposed="string"),
    "one-piece": an_examined_case(proposed="one-piece"),
    "far-out": an_examined_case(injury={"lateral": "75 mm"}),
    "sidewall": an_examined_case(injury={"lateral": None, "zone": "sidewall"}),
    "repaired": an_examined_case(earlier_repairs=REPAIRS),
    "bulge-and-doubt": an_examined_case(findings={**CLEAN, "bulge": True, "liner-cracked": "doubt"}),
    "tubed-and-old": an_examined_case(tire={"build": "tubed", "date_code": "0408", "designation": "unreadable"}),
    "used": an_examined_case(purpose="fit-used", tire={"date_code": "unreadable"}),
    "flat": an_examined_case(pressure={"recommended": "230 kPa", "found": "0 kPa"}),
    "utah": an_examined_case(jurisdiction="US-UT"),
    "several": an_examined_case(injuries=INJURIES),
    "roadside": an_examined_case(roadside={"means": "sealant", "driven": "30 mi"}),
    "pair": a_case("truck", dual_mate={"own_diameter": "1050 mm", "diameter": "1058 mm"},
                   position={"axle": "drive", "vehicle": "trailer", "dual": True, "asked_load": "9000 lb"}),
    "ply-not-read": an_examined_case("light-truck"),
    "truck-marked-passenger": a_case(tire={"casing": "truck", "designation": "205/55R16 91V"}),
}  # fmt: skip


@each_edition
@pytest.mark.parametrize("which", CASES)
def test_a_printed_decision_passes_the_seam(name: str, which: str) -> None:
    with blanked():
        edition, case = load_edition(name), parse_case(CASES[which])
        for units in (SHELF, None):
            for prefer in ("mm", "in"):
                decision = decide(case, edition=edition, units=units, prefer=prefer)
                text = decision_text(decision, case, edition=edition, units=units)
                assert not _strange(text, _names(edition), STATED)


# ids and quantities as a case names them: what was found is told by them, and put in words where it is printed
FOUND = re.compile(r"[a-z]+(-[a-z]+)*|[A-Z]{2}|[0-9.]+ years")


@each_edition
@pytest.mark.parametrize("which", CASES)
def test_a_decision_as_json_is_plain_text_in_the_language_spoken(name: str, which: str) -> None:
    with blanked():
        edition, case = load_edition(name), parse_case(CASES[which])
        decision = decide(case, edition=edition, units=SHELF).to_json()
    assert {type(one) for one in strings(decision)} == {str}
    for ruling in decision["rulings"]:
        told = {"limit": ruling["limit"], "because": ruling["because"], "source": ruling["source"]}
        assert not _strange(told, _names(edition))
        assert FOUND.fullmatch(ruling["found"]) or not _strange(ruling["found"], (), STATED)
    assert not _strange([decision["conditions"], [look["words"] for look in decision["to_look_at"]]])


@each_edition
@pytest.mark.parametrize("which", CASES)
def test_a_language_changes_no_ruling(name: str, which: str) -> None:
    """Whatever was decided in between in another language: nothing that is kept for the next case holds its words."""
    edition, case = load_edition(name), parse_case(CASES[which])
    before = decide(case, edition=edition, units=SHELF).to_json()
    with bracketed():
        other = decide(case, edition=edition, units=SHELF).to_json()
    assert decide(case, edition=edition, units=SHELF).to_json() == before
    assert [_ids(one) for one in other["rulings"]] == [_ids(one) for one in before["rulings"]]
    assert (other["verdict"], other["missing"], other["unexamined"]) == (
        before["verdict"],
        before["missing"],
        before["unexamined"],
    )


def _ids(ruling: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(ruling[name] for name in ("clause", "subject", "holds", "consequence", "kind", "between_statements"))


LOG = a_log()
JOBS: dict[str, dict[str, Any]] = {
    "sound": a_job(LOG),
    "one-piece": a_job(a_log("one-piece")),
    "fast-cutter": a_job(a_log(remove_damage={"speed": "1500 rpm", "direction": "counterclockwise", "passes": 1})),
    "left-out": a_job(without(LOG, "seal", "leak-test")),
    "too-early": a_job(moved(LOG, "apply-unit", before="dry")),
    "swapped": a_job(swapped(LOG, "buff", "outline")),
    "twice": a_job([*LOG[:26], *LOG[20:]]),
    "large": a_job(LOG, injury={"diameter": "12 mm"}),
    "fast-drying": a_job(a_log(dry={"time": "1 min", "state": "wet", "heat": "forced heat"})),
    "pressure": a_job(a_log(inflate={"pressure": "120 kPa"}, seat_beads={"pressure": "60 psi"})),
    "nothing-stated": a_job([{"step": step["step"]} for step in LOG]),
    "nothing-said": {"case": a_case(), "steps": [{"step": "deflate"}]},
    "several": a_job(LOG, injuries=INJURIES),
    "each-named": a_job([{**step, "injury": "A"} for step in LOG], injuries=INJURIES[:2]),
    "string": a_job(LOG, proposed="string"),
    "smaller": a_job(a_log(measure_injury={"size": "6 mm"}, measure_prepared={"size": "3 mm"})),
}  # fmt: skip


@each_edition
@pytest.mark.parametrize("which", JOBS)
def test_a_printed_audit_passes_the_seam(name: str, which: str) -> None:
    with blanked():
        edition = load_edition(name)
        job = parse_job(JOBS[which] | {"edition": name}, edition=edition)
        answer = audit(job, units=SHELF)
        assert not _strange(audit_text(answer, job), _names(edition), STATED)


@each_edition
@pytest.mark.parametrize("which", JOBS)
def test_an_audit_as_json_is_plain_text_and_the_same_faults(name: str, which: str) -> None:
    edition = load_edition(name)
    job = parse_job(JOBS[which] | {"edition": name}, edition=edition)
    before = audit(job, units=SHELF).to_json()
    with blanked():
        other = audit(job, units=SHELF).to_json()
    assert {type(one) for one in strings(other)} <= {str}
    assert audit(job, units=SHELF).to_json() == before
    told: Any = (before, other)
    first, second = (
        [(one["step"], one["name"], one["clause"], one["fault"]) for one in each["faults"]] for each in told
    )
    assert first == second
    assert before["sound"] == other["sound"]
    for fault in told[1]["faults"]:
        assert not _strange([fault["because"], fault["source"]], _names(edition))


def test_what_changed_between_two_rulebooks_passes_the_seam() -> None:
    with blanked():
        first, other = map(load_edition, ("north-america", "united-kingdom"))
        ids = {*first.clauses, *other.clauses, *(step.id for step in (*first.procedure, *other.procedure))}
        # ids and units of the files stand beside the titles
        parts = {part for id in (*ids, first.name, other.name) for part in (id, *id.split("-"))}
        text = compare_text(first, other)
        assert not _strange(text, (*_names(first), *_names(other)), frozenset(parts))


def test_house_rules_pass_the_seam() -> None:
    with blanked():
        edition = load_edition("north-america")
        size = HouseRules((HouseRule("injury-size", ("4 mm",)), HouseRule("cutter-speed", ("900 rpm",))))
        shop = lay_over(edition, size)
        changed = [shop.clause(one.clause) for one in size]
        assert all(clause.kind == HOUSE for clause in changed)
        told = [(clause.because, clause.printed_limit(), clause.source) for clause in changed]
        assert not _strange([told, in_words(edition, size)])
        for limits in (("9 mm",), (), ("4",), ("0 mm",), ("4 mm", "3 mm"), ("1 mm", "2 in", "3 m", "4 cm", "5 mm")):
            with pytest.raises(HouseRuleError) as refused:
                lay_over(edition, HouseRules((HouseRule("injury-size", limits),)))
            assert not _strange(str(refused.value).replace("injury-size", ""))
        assert adjustable_clauses(edition)


@pytest.mark.parametrize("typed", ["7,5 kg", "1,234", "seven", "1/4"])
def test_a_refusal_of_what_was_typed_passes_the_seam(typed: str) -> None:
    with blanked():
        with pytest.raises(ValueError) as refused:
            typed_quantity(typed, "mm", "length")
        assert not _strange(str(refused.value).replace(typed, ""))
        with pytest.raises(ValueError) as both:
            typed_quantities("6,5", "mm", "length")
        assert not _strange(str(both.value))


BROKEN: list[Any] = [
    7,
    {"tire": {"casing": "rubber"}},
    {"tire": {"casing": "passenger", "designation": 5, "date_code": "9999", "tread_width": "wide"}},
    {"tire": {"casing": "passenger"}, "injuries": [{"kind": "hole", "angle": "x"}, 5], "findings": {"rust": 1}},
    {"tire": {"casing": "passenger"}, "injuries": 5, "findings": 5, "on": "today", "tread_depths": [None, "1"]},
    {"tire": {"casing": "passenger"}, "color": "red", "on_wheel": "yes", "position": {"asked_load_index": 999}},
]


@pytest.mark.parametrize("data", BROKEN)
def test_a_refused_case_is_told_in_the_language_spoken(data: Any) -> None:
    """What was typed, and the names of fields and words of a case, stand as they are."""
    with bracketed():
        with pytest.raises(CaseError) as refused:
            parse_case(data)
        for problem in refused.value.problems:
            assert "⟦" in problem, problem


def test_a_refused_job_is_told_in_the_language_spoken() -> None:
    steps = [
        5,
        {"step": "weld"},
        {"step": "seal", "covers": "all"},
        {"step": "buff", "speed": "fast", "note": 5},
        {"step": "clean-liner", "times": "often"},
        {"step": "dry", "humidity": "120 %", "injury": "Z"},
    ]
    with bracketed():
        for data in (7, {}, {"case": 5, "steps": 5}, {"case": a_case(injuries=[]), "steps": steps, "who": 1}):
            with pytest.raises(JobError) as refused:
                parse_job(data)
            for problem in refused.value.problems:
                assert "⟦" in problem, problem


SOURCES = [path for folder in ("rulebook", "trade") for path in sorted((TRAINING / folder).rglob("*.py"))]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_no_text_stands_inside_an_f_string(path: Path) -> None:
    """Whatever reads the code for catalogues does not look into an f-string before Python 3.12 (PEP 701)."""
    told = [node for one in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(one, ast.JoinedStr)
            for node in ast.walk(one) if isinstance(node, ast.Call)]  # fmt: skip
    named = [node.func.id for node in told if isinstance(node.func, ast.Name)]

    assert not {"say", "saying", "say_many"} & set(named)
