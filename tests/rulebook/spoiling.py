"""Good data made bad, and data that was never good."""

import json
from typing import Any

from hypothesis import strategies as st


@st.composite
def spoiled(draw: st.DrawFn, good: st.SearchStrategy[Any], anything: st.SearchStrategy[Any], *, most: int) -> Any:
    """Good data in which up to `most` values, at any depth, are replaced by anything."""
    data = json.loads(json.dumps(draw(good)))
    for _ in range(draw(st.integers(1, most))):
        place = data
        while True:
            keys = list(place) if isinstance(place, dict) else list(range(len(place)))
            if not keys:
                break
            key = draw(st.sampled_from(keys))
            if isinstance(place[key], dict | list) and draw(st.booleans()):
                place = place[key]
                continue
            place[key] = draw(anything)
            break
    return data
