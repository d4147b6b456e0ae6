"""Mistakes in an edition's rules of the work: one small broken file for each, and the words of its message."""

from pathlib import Path

import pytest

from tests.rulebook.jobs import a_job, a_log
from training.rulebook import RulebookError, audit, edition_names, load_edition
from training.rulebook.audit_rules import read_work
from training.rulebook.clauses import KINDS
from training.rulebook.loader import read_toml

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

BROKEN = Path(__file__).with_name("broken") / "audits"
ORDERS = {"two-piece": ("deflate", "buff")}
MESSAGES = {
    "no-need": 'no-need.toml: need: step "buff" of the procedure has none; say why it must be there',
    "against-the-procedure": 'before: "air-first" puts buff before deflate; the two-piece procedure does not',
    "unknown-step": 'before "air-first", then: "polish" is not accepted; choose deflate or buff',
    "no-source": 'before "air-first", cites: nothing is not accepted; give',
    "no-reason": 'need "buff", because: nothing is not accepted; give a text',
    "unknown-kind": 'once "once", kind: "hearsay" is not accepted; choose law, standard, guidance',
    "unknown-method": 'mixed, methods: "string" is not accepted; choose one-piece, two-piece or surface-fill',
    "no-mixed": "mixed, methods: missing; give a [mixed] table",
    "again-in-words": 'before "air-first", again: "yes" is not accepted; give true or false',
    "bare-share": "about_within: 50 is not a percentage; give a number and a unit",
    "unknown-waiver": 'need "deflate", unless: "job.weather" is not accepted; choose ',
    "unknown-field": 'once "once", color: is not a field; the fields here are after, because',
    "critical-of-nothing": 'critical "buff", says: "polish" is not accepted; choose speed, texture or first',
    "critical-word-unknown": 'critical "buff", says_nothing: "shiny" is not accepted; choose No. 1, ',
    "cured-by-nothing": 'cured "worn", by: "polish" is not accepted; choose ',
    "cured-of-two": 'cured "worn", found: is not accepted; give one quantity with its words, such as ',
    "critical-without-reason": 'critical "buff", because: nothing is not accepted; give a text',
    "plausible-upside-down": 'plausible "job.buffer_speed", most: "50 rpm" is not above least, "5000 rpm"',
    "plausible-word": 'plausible, quantity: "job.buff_texture" is not accepted; choose ',
    "gravest-of-no-step": 'gravest "worst", first: "polish" is not accepted; choose deflate or buff',
    "unrepaired-in-words": 'unrepaired, kind: "hearsay" is not accepted; choose law, standard, guidance',
}


@pytest.mark.parametrize("name", sorted(MESSAGES))
def test_a_mistake_is_refused_with_file_rule_and_field(name: str) -> None:
    with pytest.raises(RulebookError) as refused:
        read_work(read_toml(BROKEN / f"{name}.toml"), ORDERS, f"{name}.toml")

    assert str(refused.value).startswith(f"{name}.toml: ")
    assert MESSAGES[name] in str(refused.value)


def test_the_file_without_a_mistake_is_read_and_every_broken_one_has_its_words() -> None:
    rules = read_work(read_toml(BROKEN / "good.toml"), ORDERS, "good.toml")

    assert rules.order("two-piece", ORDERS["two-piece"]).must_precede("deflate", "buff")
    assert {path.stem for path in BROKEN.glob("*.toml")} == {"good", *MESSAGES}


@pytest.mark.parametrize("name", edition_names())
def test_every_rule_of_the_work_says_why_and_on_what_it_rests(name: str) -> None:
    rules = load_edition(name).work
    if rules is None:
        # Without rules an edition must release no work.
        job = a_job(a_log())
        assert not audit({**job, "edition": name}).sound
        return

    reasons = [rules.mixed.reason, *(one.reason for one in rules.needs.values())]
    reasons += [one.reason for one in rules.before] + [one.reason for one in rules.once]
    reasons += [one.reason for one in rules.gravest]
    reasons += [one for one in (rules.smaller, rules.unrepaired) if one is not None]
    assert len({reason.id for reason in reasons}) == len(reasons)
    assert not {reason.id for reason in reasons} & set(load_edition(name).clauses)
    for reason in reasons:
        assert reason.because.endswith(".")
        assert reason.kind in KINDS
        assert reason.source
