"""Documents draw what they are given: no Django, no clock, no settings."""

import subprocess
import sys
from pathlib import Path


def test_documents_import_without_django() -> None:
    script = (
        "import sys, certificates.documents.certificate; "
        "assert not any(name.split('.')[0] == 'django' for name in sys.modules), 'django was imported'"
    )

    subprocess.run([sys.executable, "-c", script], cwd=Path(__file__).parents[2], check=True)
