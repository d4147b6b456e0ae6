"""The installation's secret: made once, kept in a file that only its owner reads."""

import os
import secrets
import tempfile
from contextlib import suppress
from pathlib import Path


def secret_from(folder: Path) -> str:
    """Return the secret kept in `folder`, making it on first use; processes that start at once agree on one."""
    path = folder / "secret-key"
    if not path.exists():
        folder.mkdir(parents=True, exist_ok=True)
        handle, draft = tempfile.mkstemp(dir=folder)  # mode 0600
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(secrets.token_urlsafe(50))
        with suppress(FileExistsError):
            os.link(draft, path)  # whoever links first has made the secret
        os.unlink(draft)
    return path.read_text(encoding="ascii").strip()
