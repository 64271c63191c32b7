"""The app's files at an address where no office answers: what a phone meets behind a proxy whose service is down."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread


class _Files(SimpleHTTPRequestHandler):
    """Files as they lie there; whatever is asked of the office is answered by a page that is not the office's."""

    def do_GET(self) -> None:
        if self.path.startswith("/api/"):
            self._refuse()
        else:
            super().do_GET()

    def _refuse(self) -> None:
        self.close_connection = True
        self.send_error(HTTPStatus.SERVICE_UNAVAILABLE)

    do_POST = do_PUT = do_PATCH = do_DELETE = _refuse  # noqa: N815 (the server looks for these names)

    def log_message(self, format: str, *args: object) -> None:
        """Tells nobody."""


@contextmanager
def bare_files(folder: Path, port: int) -> Iterator[None]:
    """The folder's files at that port. Raises OSError where something listens there already."""
    with ThreadingHTTPServer(("127.0.0.1", port), partial(_Files, directory=str(folder))) as server:
        thread = Thread(target=server.serve_forever)
        thread.start()
        try:
            yield
        finally:
            server.shutdown()
            thread.join()
