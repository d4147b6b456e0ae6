"""What pages of assessments show, laid out from plain values; no query."""
