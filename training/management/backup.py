"""A copy of everything an installation cannot do without: the database and its secret, with a list to check them by."""

import hashlib
import json
import os
import shutil
import sqlite3
import subprocess
from collections.abc import Mapping
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Any

MANIFEST = "manifest.json"
KEY_FILE = "secret-key"
# tables that change by themselves while people are at work: sessions, and the counters of login limits
RESTLESS = {"django_session", "cache"}


class BackupRefused(Exception):
    """No copy was made, or the copy is not good: the words say what to do."""


def back_up(
    *,
    database: Mapping[str, Any],
    secret_key: str,
    target: Path,
    at: datetime,
    visitors: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """Write a verified copy into `target`, which must be new or empty, and return its manifest.

    `database` is Django's settings of the database, `visitors` those of the store of visitors where it is another.
    Raises BackupRefused.
    """
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise BackupRefused(f"{target}: it exists and is not empty; name a new folder")
    stores = [
        (database, "sound-casing", "training_user"),
        *([(visitors, "visitors", "django_session")] if visitors else ()),
    ]
    for store, _, _ in stores:
        if store["ENGINE"] not in _COPIES:
            raise BackupRefused(f"{store['ENGINE']}: no way to copy this kind of database is known; use its own tools")
    target.mkdir(mode=0o700, parents=True, exist_ok=True)
    copies: list[Path] = []
    rows: dict[str, int] = {}
    for store, name, table in stores:
        copy, counted = _COPIES[store["ENGINE"]](store, target / name, table)
        copy.chmod(0o600)
        copies.append(copy)
        rows |= {} if store is visitors else counted
    key = target / KEY_FILE
    key.touch(mode=0o600)
    key.write_text(secret_key, encoding="utf-8")
    manifest = {
        "made_at": at.isoformat(),
        "files": {path.name: _sha256(path) for path in (*copies, key)},
        "rows": rows,
    }
    (target / MANIFEST).write_text(json.dumps(manifest, indent=2) + "\n", encoding="utf-8")
    return manifest


def _copy_sqlite(database: Mapping[str, Any], place: Path, table: str) -> tuple[Path, dict[str, int]]:
    copy = place.with_suffix(".sqlite3")
    source = Path(str(database["NAME"]))
    if not source.is_file():
        raise BackupRefused(f"{source}: there is no database yet; run manage.py migrate first")
    with closing(sqlite3.connect(f"file:{source}?mode=rw", uri=True, timeout=60)) as live:
        before = _row_counts(live)
        live.execute("VACUUM INTO ?", (str(copy),))
        after = _row_counts(live)
    with closing(sqlite3.connect(f"file:{copy}?mode=ro", uri=True)) as copied:
        answer = [row[0] for row in copied.execute("PRAGMA integrity_check")]
        broken = list(copied.execute("PRAGMA foreign_key_check"))
        rows = _row_counts(copied)
    if answer != ["ok"] or broken:
        raise BackupRefused(f"{copy}: the copy is damaged ({'; '.join(answer)}); do not rely on it, and make another")
    # people may be at work: each count must lie between the one before the copy and the one after
    odd = [
        table
        for table in sorted({*before, *rows, *after} - RESTLESS)
        if not before.get(table, -1) <= rows.get(table, -2) <= after.get(table, -3)
    ]
    if odd:
        raise BackupRefused(f"{copy}: its rows differ from those of {source} in {', '.join(odd)}; make another")
    return copy, rows


def _copy_postgresql(database: Mapping[str, Any], place: Path, table: str) -> tuple[Path, dict[str, int]]:
    program, reader = shutil.which("pg_dump"), shutil.which("pg_restore")
    if program is None or reader is None:
        raise BackupRefused(
            "pg_dump and pg_restore are not both on this machine; install PostgreSQL's client programs, "
            "or make the copy with pg_dump where the database runs, and keep the secret with it"
        )
    copy = place.with_suffix(".dump")
    places = {"PGHOST": "HOST", "PGPORT": "PORT", "PGUSER": "USER", "PGPASSWORD": "PASSWORD", "PGDATABASE": "NAME"}
    where = {name: str(database[key]) for name, key in places.items() if database.get(key)}
    done = _run([program, "--format=custom", f"--file={copy}"], where)
    if done.returncode:
        raise BackupRefused(f"pg_dump failed: {done.stderr.strip()}")
    listed = _run([reader, "--list", str(copy)], {})
    if listed.returncode or table not in listed.stdout:
        raise BackupRefused(f"{copy}: the copy cannot be read back: {listed.stderr.strip()}")
    return copy, {}


def _run(words: list[str], where: Mapping[str, str]) -> subprocess.CompletedProcess[str]:
    # the password goes by the environment, so that it stays out of the list of processes
    environment = {**os.environ, **where}
    return subprocess.run(words, env=environment, capture_output=True, text=True, check=False)  # noqa: S603


def _row_counts(connection: sqlite3.Connection) -> dict[str, int]:
    tables = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    names = sorted(row[0] for row in tables)
    return {name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0] for name in names}  # noqa: S608


def _sha256(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


_COPIES = {
    "django.db.backends.sqlite3": _copy_sqlite,
    "training.config.sqlite_in_turn": _copy_sqlite,
    "django.db.backends.postgresql": _copy_postgresql,
}
