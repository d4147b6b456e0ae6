"""Records as JSON data and back: dataclasses as objects of their fields, lists for tuples, text for days.

What is written otherwise registers how, beside its class.
"""

from datetime import date

from cattrs import Converter

RECORDS = Converter(detailed_validation=False, unstruct_collection_overrides={tuple: list})
RECORDS.register_unstructure_hook(date, date.isoformat)
RECORDS.register_unstructure_hook(str, str)  # a text that waits for its language is told in the one spoken
RECORDS.register_structure_hook(date, lambda text, _: date.fromisoformat(text))
RECORDS.register_structure_hook_func(lambda kind: kind is object, lambda value, _: value)  # JSON data as it is
