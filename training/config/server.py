"""The site's one WSGI server, as the demo starts it: gunicorn with a few workers."""

from typing import Any

from gunicorn.app.base import BaseApplication


class Server(BaseApplication):  # type: ignore[misc]
    """Serves the site from this process until it is stopped."""

    def __init__(self, *, host: str, port: int, workers: int) -> None:
        self.options: dict[str, Any] = {
            "bind": f"{host}:{port}",
            "workers": workers,
            "worker_class": "gthread",
            "threads": 4,
            "limit_request_line": 8190,  # the address of a check holds all that was found
            "loglevel": "warning",
            "preload_app": True,
            "graceful_timeout": 5,
        }
        super().__init__()

    def load_config(self) -> None:
        for name, value in self.options.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        from training.config.wsgi import application

        return application
