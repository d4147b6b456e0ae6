"""Settings of the tests: the site's own, with a throw-away database, quick password hashes and mail kept in memory."""

import os

os.environ.setdefault("SOUND_CASING_SECRET_KEY", "only-for-tests-" + "x" * 50)

from training.config.settings import *  # noqa: F403
from training.config.settings import DATABASES

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
STATIC_ROOT = None  # nothing is collected: files are served from where they stand
if DATABASES["default"]["ENGINE"] == "training.config.sqlite_in_turn":
    # in memory nobody else waits for a turn; pytest-django knows Django's own name for each worker's database
    DATABASES["default"]["ENGINE"] = "django.db.backends.sqlite3"
