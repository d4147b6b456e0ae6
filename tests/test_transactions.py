"""What every act does while it holds the writer's lock: rows read, checked and written, and nothing computed.

On SQLite one lock stands before all writers, so what one act does under it everybody else waits for. The time is held
by calls of Python functions, which a busy machine does not change.
"""

import inspect
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType, ModuleType
from typing import Any

import pytest
from django.db import connection, transaction

import assessments.acts
import certificates.acts
import training.acts
from tests.presses import Press, Shopfloor, in_assessments, in_certificates, in_training
from training.models import Shop, User

ROOT = Path(__file__).resolve().parents[1]
# what computes, and must be done before the lock is taken
COMPUTING = tuple(
    str(ROOT / place)
    for place in (
        "assessments/questions/cases",
        "assessments/questions/diagnosis",
        "assessments/questions/draws",
        "assessments/questions/families",
        "assessments/questions/items/marking",
        "assessments/questions/work",
        "certificates/documents",
        "training/course",
        "training/drawings",
        "training/pages",
        "training/pictures",
        "training/rulebook",
    )
)
# On one core of a small server a thousand calls inside an act take 0.7 to 1 ms of CPU, and 5 ms is the most of all.
MOST_CALLS = {
    1_000: "put_away_notice withdraw_assignment withdraw_invitation end_unit switch_family_on settle_flag note_shown "
    "read_taught",
    2_000: "confirm_photograph take_back_photograph discard_photograph "
    "clear_photograph_drafts mark_lesson_read end_role keep_late_answer record_response flag_draw type_answers "
    "withdraw_paper choose_scopes record_hands_on",
    3_000: "keep_photograph give_role assign switch_family_off",
    4_000: "flag_question withdraw_question take_back_withdrawal "
    "change_shop set_house_rules accept_invitation invite close_overdue hand_in hand_in_paper start_practice "
    "suspend revoke restore",
    5_000: "bring_photograph add_unit open_shop keep_check give_extra_round start_assessment make_paper "
    "answer_practice issue_certificate",
}
BOUNDS = {name: most for most, names in MOST_CALLS.items() for name in names.split()}


pytestmark = pytest.mark.django_db


@dataclass
class Held:
    """What ran while a transaction was open that the act had begun."""

    calls: int = 0
    computing: set[str] = field(default_factory=set)
    in_the_way: set[str] = field(default_factory=set)  # locks that whoever adds a row referring to theirs waits for


@pytest.fixture
def held() -> Callable[[Press], Held]:
    """`held(press)` presses, and says what ran under the lock."""

    def pressed(press: Press, look: Callable[[FrameType, str, object], None] | None) -> None:
        with transaction.atomic():
            sys.setprofile(look)
            try:
                press()
            finally:
                sys.setprofile(None)
            transaction.set_rollback(True)

    def watch(press: Press) -> Held:
        seen, outside = Held(), len(connection.atomic_blocks) + 1

        def look(frame: FrameType, event: str, _: object) -> None:
            if event != "call" or len(connection.atomic_blocks) <= outside:
                return
            code = frame.f_code
            seen.calls += "/psycopg/" not in code.co_filename  # which waits for the server, as SQLite's does not
            if code.co_filename.startswith(COMPUTING):
                seen.computing.add(f"{Path(code.co_filename).relative_to(ROOT)}: {code.co_qualname}")

        def read(execute: Any, sql: str, *given: Any) -> Any:
            if "FOR UPDATE" in sql:
                seen.in_the_way.add(sql)
            return execute(sql, *given)

        with connection.execute_wrapper(read):
            pressed(press, None)  # what a process does only once is done before
        pressed(press, look)
        return seen

    return watch


@pytest.fixture
def floor(own_shop: Shop, apprentice: User, trainer: User, owner: User) -> Shopfloor:
    return Shopfloor(own_shop, apprentice, trainer, owner)


APPS = {training.acts: in_training, assessments.acts: in_assessments, certificates.acts: in_certificates}


def is_act(exported: object) -> bool:
    """An act takes its arguments by keyword alone; what only reads or names a thing does not."""
    if not inspect.isfunction(exported):
        return False
    return all(one.kind is one.KEYWORD_ONLY for one in inspect.signature(exported).parameters.values())


@pytest.mark.parametrize(("module", "ready"), APPS.items(), ids=("training", "assessments", "certificates"))
def test_every_act_reads_checks_and_writes_under_the_lock_and_computes_nothing(
    module: ModuleType, ready: Callable[[Shopfloor], dict[Any, Press]], floor: Shopfloor, held: Callable[[Press], Held]
) -> None:
    presses = ready(floor)

    assert presses.keys() == {one for one in vars(module).values() if is_act(one)}
    seen = {act.__name__: held(press) for act, press in presses.items()}
    assert {name: sorted(one.computing) for name, one in seen.items() if one.computing} == {}
    assert {name: one.in_the_way for name, one in seen.items() if one.in_the_way} == {}
    assert {name: one.calls for name, one in seen.items() if not 0 < one.calls <= BOUNDS[name]} == {}
