"""What pages of certificates show, laid out from plain values; no query."""
