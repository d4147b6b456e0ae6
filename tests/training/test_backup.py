"""A backup is opened and read back: a copy nobody can open is none."""

import hashlib
import json
import sqlite3
import stat
from contextlib import closing
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command

from training.management.backup import BackupRefused, back_up

AT = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)


@pytest.fixture
def database(tmp_path: Path) -> dict[str, str]:
    """A small database that another process has open and has just written to (its log is not yet folded in)."""
    path = tmp_path / "live.sqlite3"
    with closing(sqlite3.connect(path)) as made:
        made.execute("PRAGMA journal_mode=WAL")
        made.execute("CREATE TABLE training_user (id INTEGER PRIMARY KEY, name TEXT)")
        made.execute("CREATE TABLE django_session (key TEXT)")
        made.executemany("INSERT INTO training_user (name) VALUES (?)", [("Dana Reyes",), ("Lee Okafor",)])
        made.commit()
    return {"ENGINE": "django.db.backends.sqlite3", "NAME": str(path)}


def test_the_copy_opens_and_holds_every_row(database, tmp_path) -> None:
    writer = sqlite3.connect(database["NAME"])
    writer.execute("INSERT INTO training_user (name) VALUES ('Noor Haddad')")
    writer.commit()

    manifest = back_up(database=database, secret_key="the secret", target=tmp_path / "copy", at=AT)

    with closing(sqlite3.connect(tmp_path / "copy" / "sound-casing.sqlite3")) as copy:
        names = [row[0] for row in copy.execute("SELECT name FROM training_user ORDER BY id")]
    writer.close()
    assert names == ["Dana Reyes", "Lee Okafor", "Noor Haddad"]
    assert manifest["rows"] == {"django_session": 0, "training_user": 3}


def test_the_secret_is_kept_with_it_for_its_owner_only(database, tmp_path) -> None:
    target = tmp_path / "copy"

    back_up(database=database, secret_key="the secret", target=target, at=AT)

    assert (target / "secret-key").read_text() == "the secret"
    for name in ("secret-key", "sound-casing.sqlite3"):
        assert stat.S_IMODE((target / name).stat().st_mode) == 0o600
    assert stat.S_IMODE(target.stat().st_mode) == 0o700


def test_the_manifest_names_each_file_with_its_digest(database, tmp_path) -> None:
    target = tmp_path / "copy"

    back_up(database=database, secret_key="the secret", target=target, at=AT)

    manifest = json.loads((target / "manifest.json").read_text())
    assert manifest["made_at"] == "2026-11-25T15:00:00+00:00"
    digests = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in target.iterdir()}
    assert manifest["files"] == {name: digests[name] for name in ("secret-key", "sound-casing.sqlite3")}


def test_a_folder_with_something_in_it_is_refused_and_left_alone(database, tmp_path) -> None:
    target = tmp_path / "copy"
    target.mkdir()
    (target / "older").write_text("keep me")

    with pytest.raises(BackupRefused, match="exists and is not empty; name a new folder"):
        back_up(database=database, secret_key="x", target=target, at=AT)

    assert [path.name for path in target.iterdir()] == ["older"]


def test_an_empty_folder_is_taken(database, tmp_path) -> None:
    target = tmp_path / "copy"
    target.mkdir()

    assert back_up(database=database, secret_key="x", target=target, at=AT)["files"]


def test_no_database_is_said_in_words(tmp_path) -> None:
    missing = {"ENGINE": "django.db.backends.sqlite3", "NAME": str(tmp_path / "none.sqlite3")}

    with pytest.raises(BackupRefused, match="there is no database yet"):
        back_up(database=missing, secret_key="x", target=tmp_path / "copy", at=AT)

    assert not (tmp_path / "none.sqlite3").exists()


def test_a_reference_that_leads_nowhere_is_not_called_a_good_copy(database, tmp_path) -> None:
    with closing(sqlite3.connect(database["NAME"])) as made:
        made.execute("CREATE TABLE membership (user INTEGER REFERENCES training_user (id))")
        made.execute("INSERT INTO membership VALUES (99)")
        made.commit()

    with pytest.raises(BackupRefused, match="do not rely on it"):
        back_up(database=database, secret_key="x", target=tmp_path / "copy", at=AT)


def test_without_the_programs_of_postgresql_it_says_what_to_do(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))

    with pytest.raises(BackupRefused, match="install PostgreSQL's client programs"):
        back_up(database={"ENGINE": "django.db.backends.postgresql"}, secret_key="x", target=tmp_path / "copy", at=AT)


@pytest.fixture
def visitors(tmp_path: Path) -> dict[str, str]:
    """A store of visitors in which somebody is logged in."""
    path = tmp_path / "live-visitors.sqlite3"
    with closing(sqlite3.connect(path)) as made:
        made.execute("CREATE TABLE django_session (key TEXT)")
        made.execute("INSERT INTO django_session VALUES ('somebody')")
        made.commit()
    return {"ENGINE": "django.db.backends.sqlite3", "NAME": str(path)}


def test_the_store_of_visitors_is_copied_beside_it(database, visitors, tmp_path) -> None:
    manifest = back_up(database=database, visitors=visitors, secret_key="x", target=tmp_path / "copy", at=AT)

    with closing(sqlite3.connect(tmp_path / "copy" / "visitors.sqlite3")) as copy:
        assert copy.execute("SELECT key FROM django_session").fetchall() == [("somebody",)]
    assert set(manifest["files"]) == {"sound-casing.sqlite3", "visitors.sqlite3", "secret-key"}
    assert manifest["rows"] == {"django_session": 0, "training_user": 2}


def test_the_command_copies_and_ends_with_2_when_refused(database, visitors, tmp_path, monkeypatch) -> None:
    monkeypatch.setitem(settings.DATABASES, "default", database)
    monkeypatch.setitem(settings.DATABASES, "visitors", visitors)
    out = StringIO()

    call_command("backup", str(tmp_path / "copy"), stdout=out)

    assert "opened and checked: 2 rows" in out.getvalue()
    with pytest.raises(CommandError, match="not empty") as refused:
        call_command("backup", str(tmp_path / "copy"))
    assert refused.value.returncode == 2
