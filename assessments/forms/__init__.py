"""The forms of the assessments app."""
