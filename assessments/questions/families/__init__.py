"""One file a family: it registers itself with `item_family` and is found by being here."""
