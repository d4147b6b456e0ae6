"""The site as a WSGI application; it does not open over a database it does not know, or without its guards."""

import os

from django.core.wsgi import get_wsgi_application
from django.db import connections

from training.config.known_migrations import refuse_unknown_migrations
from training.guards import refuse_unguarded

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "training.config.settings")
application = get_wsgi_application()
refuse_unknown_migrations()
refuse_unguarded()
connections.close_all()  # a worker must not share a connection that was open before the fork
