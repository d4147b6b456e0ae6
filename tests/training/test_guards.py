"""Guards on rows: made as declared, missed by a check, and back after a migration rebuilt their table."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import FieldDoesNotExist
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, transaction
from django.db.migrations.recorder import MigrationRecorder

from tests.factories import HouseRuleSetFactory, RepairUnitFactory
from tests.training.guarded_rows import EXPECTED
from training import guards
from training.config.known_migrations import UnknownMigrations, refuse_unknown_migrations
from training.guards import NeverChanged, NeverDeleted
from training.models import RepairUnit

ROOT = Path(__file__).resolve().parents[2]
UNIT = "guard_training_repairunit_0"


def astray() -> list[str]:
    return [str(problem.msg).partition(":")[0] for problem in guards.check_guards(databases=["default"])]


@pytest.mark.django_db
class TestTheDeclaration:
    def test_names_every_guarded_table(self) -> None:
        declared = {
            model._meta.db_table: sorted({guard.act for guard in of_model})
            for model, of_model in guards.guards_by_model().items()
        }

        assert declared == EXPECTED

    def test_stands_after_migrations(self) -> None:
        assert astray() == []
        guards.refuse_unguarded()

    def test_is_missed_where_its_trigger_is_gone_and_made_again(self) -> None:
        guards.drop_guards(using="default", plan=["a migration"])

        assert len(astray()) == sum(map(len, guards.guards_by_model().values()))
        with pytest.raises(guards.Unguarded, match=rf"{UNIT}.* run manage.py migrate"):
            guards.refuse_unguarded()
        guards.make_guards(using="default")
        assert astray() == []

    def test_keeps_the_triggers_when_there_is_nothing_to_migrate(self) -> None:
        guards.drop_guards(using="default", plan=[])

        assert astray() == []

    def test_takes_effect_when_it_changes(self, monkeypatch) -> None:
        monkeypatch.setattr(RepairUnit, "guards", [NeverDeleted("kept: another sentence")])

        assert astray() == [UNIT]
        guards.make_guards(using="default")
        assert astray() == []

    def test_takes_its_trigger_along_when_it_goes(self, monkeypatch) -> None:
        unit = RepairUnitFactory.create()
        monkeypatch.delattr(RepairUnit, "guards")

        assert astray() == [UNIT]
        guards.make_guards(using="default")
        assert RepairUnit.objects.filter(pk=unit.pk).delete()[0] == 1

    def test_holds_where_a_new_row_would_take_the_place_of_an_old_one(self) -> None:
        HouseRuleSetFactory.create()
        instead = {
            "sqlite": "REPLACE INTO training_houseruleset SELECT * FROM training_houseruleset",
            "postgresql": "INSERT INTO training_houseruleset SELECT * FROM training_houseruleset "
            "ON CONFLICT (id) DO UPDATE SET reason = excluded.reason",
        }

        with pytest.raises(DatabaseError, match="kept: house rules"), transaction.atomic():
            connection.cursor().execute(instead[connection.vendor])

    def test_that_names_an_unknown_field_is_refused(self, monkeypatch) -> None:
        monkeypatch.setattr(RepairUnit, "guards", [NeverChanged("kept", but=["ended"])])

        with pytest.raises(FieldDoesNotExist, match="ended"):
            guards.make_guards(using="default")

    def test_is_missed_where_its_trigger_stands_but_refuses_nothing(self) -> None:
        idle = {
            "sqlite": f"DROP TRIGGER {UNIT}; CREATE TRIGGER {UNIT} BEFORE DELETE ON training_repairunit "
            "WHEN (FALSE) BEGIN SELECT 1; END",
            "postgresql": f"ALTER TABLE training_repairunit DISABLE TRIGGER {UNIT}",
        }
        with connection.cursor() as cursor:
            for statement in idle[connection.vendor].split("; ", 1):
                cursor.execute(statement)

        assert astray() == [UNIT]


@pytest.mark.django_db
def test_a_database_of_other_migrations_is_neither_migrated_nor_opened() -> None:
    MigrationRecorder(connection).record_applied("training", "0002_cache_table")

    refused = r"the database 'default' went through training\.0002_cache_table, which this version does not have"
    with pytest.raises(CommandError, match=refused):
        call_command("migrate", verbosity=0)
    with pytest.raises(UnknownMigrations, match=refused):
        refuse_unknown_migrations()


# an ordinary field of every guarded table takes NULL from now on: SQLite writes the table anew for it
WIDER = """
from django.db import migrations
from training.guards import guards_by_model

def wider(model):
    plain = next(one for one in model._meta.concrete_fields if not (one.primary_key or one.is_relation))
    field = plain.clone()
    field.null = True
    return migrations.AlterField(model._meta.model_name, plain.name, field)

class Migration(migrations.Migration):
    dependencies = [("APP", "0001_initial")]
    operations = [wider(model) for model in guards_by_model() if model._meta.app_label == "APP"]
"""
STOPS_HALFWAY = """
from django.db import migrations

def stop(apps, schema_editor):
    raise RuntimeError("the power is gone")

class Migration(migrations.Migration):
    dependencies = [("training", "0002_wider")]
    operations = [migrations.RunPython(stop, migrations.RunPython.noop)]
"""


@pytest.fixture
def database_url(tmp_path: Path) -> Iterator[str]:
    """An empty database of the kind that the tests run on."""
    given = os.environ.get("DATABASE_URL", "")
    if not given.startswith("postgres"):
        yield f"sqlite:///{tmp_path / 'later.sqlite3'}"
        return
    import psycopg

    name = f"guards_{uuid4().hex}"
    with psycopg.connect(given, autocommit=True) as server:
        server.execute(f"CREATE DATABASE {name}")
        yield f"{given.rpartition('/')[0]}/{name}"
        server.execute(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def take(tmp_path: Path, database_url: str) -> Callable[..., list[Any]]:
    """`take("later", "migrate", "try")`: steps of `guarded_rows` with our migrations ("now") or more ("later")."""
    apps = ("training", "assessments", "certificates")
    base = "from training.config.settings_test import *\n"
    (tmp_path / "settings_now.py").write_text(base)
    own = {app: f"later_{app}" for app in apps}
    (tmp_path / "settings_later.py").write_text(f"{base}MIGRATION_MODULES = {own}\n")
    for app in apps:
        shutil.copytree(ROOT / app / "migrations", tmp_path / f"later_{app}")
        (tmp_path / f"later_{app}" / "0002_wider.py").write_text(WIDER.replace("APP", app))
    environment = os.environ | {
        "DATABASE_URL": database_url,
        "PYTHONPATH": f"{tmp_path}{os.pathsep}{ROOT}",
        "SOUND_CASING_DATA": str(tmp_path),
    }

    def do(when: str, *steps: str) -> list[Any]:
        done = subprocess.run(
            [sys.executable, "-m", "tests.training.guarded_rows", *steps],
            cwd=ROOT,
            env=environment | {"DJANGO_SETTINGS_MODULE": f"settings_{when}"},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        found: list[Any] = json.loads(done.stdout)
        return found

    return do


def test_a_migration_that_rebuilds_every_guarded_table_loses_no_guard(
    tmp_path: Path, take: Callable[..., list[Any]]
) -> None:
    empty, *made = take("now", "open", "migrate", "make", "try", "open")
    assert empty.startswith("Unguarded: not as declared")
    assert made == ["", "", EXPECTED, ""]

    assert take("later", "migrate", "try", "open") == ["", EXPECTED, ""]

    # a migration that stops halfway leaves the guards off; the site stays closed until one has run through
    halfway = tmp_path / "later_training" / "0003_stops_halfway.py"
    halfway.write_text(STOPS_HALFWAY)
    stopped, closed, checked = take("later", "migrate", "open", "check")
    assert stopped == "RuntimeError: the power is gone"
    assert closed.startswith("Unguarded: not as declared")
    assert "training.E010" in checked
    halfway.unlink()
    assert take("later", "migrate", "try", "open") == ["", EXPECTED, ""]
