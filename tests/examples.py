"""How many random cases a property is tried on: the tests' own number, or a multiple for a long run.

`SOUND_CASING_EXAMPLES=50 python -m pytest tests/rulebook/test_properties.py` tries fifty times as many;
a share such as 0.3 tries fewer.
"""

import os


def times(count: int) -> int:
    """The number of examples to try where the tests alone try `count`."""
    return max(1, int(count * float(os.environ.get("SOUND_CASING_EXAMPLES", "1"))))
