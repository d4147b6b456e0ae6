"""Settings of the demo: its own folder and database whatever the environment says, mail on the console."""

import os
from pathlib import Path

DEMO_DIR = Path(__file__).resolve().parents[2] / ".demo"
os.environ["SOUND_CASING_DATA"] = os.environ.get("SOUND_CASING_DEMO", str(DEMO_DIR))
for _name in ("DATABASE_URL", "SOUND_CASING_VISITORS_URL", "SOUND_CASING_SECRET_KEY", "SOUND_CASING_MAIL_HOST"):
    os.environ.pop(_name, None)

from training.config.settings import *  # noqa: E402, F403

IS_DEMO = True
WHITENOISE_USE_FINDERS = True
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
STATIC_ROOT = None  # nothing is collected: files are served from where they stand
