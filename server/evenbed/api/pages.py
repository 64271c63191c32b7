"""The app's own pages: the files that the web's build left, and index.html for every address of the app."""

from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import Any

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Receive, Scope, Send

TYPES: Mapping[str, str] = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".woff2": "font/woff2",
    ".zip": "application/zip",
    ".txt": "text/plain; charset=utf-8",
    ".py": "text/x-python; charset=utf-8",
}
PACKED = (("br", ".br"), ("gzip", ".gz"))
FOR_EVER = "public, max-age=31536000, immutable"
ASK_FIRST = "no-cache"
INDEX = "index.html"
HASHED = "assets"


class Pages(StaticFiles):
    """Serves the build. A missing build is told in words, for the service works without it."""

    def __init__(self, directory: Path) -> None:
        super().__init__(directory=directory, check_dir=False)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answers a request for a page or a file of the app."""
        await super().__call__(_whole(scope), receive, send)

    async def check_config(self) -> None:
        """Nothing at the start: the build may come later, so every request looks for itself."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, or the app's index for an address without one. Raises HTTPException 404 or 405."""
        path = path.replace("\\", "/")
        if path == "api" or path.startswith("api/"):
            raise HTTPException(404, "There is no such address in the service.")
        if scope["method"] not in ("GET", "HEAD"):
            raise HTTPException(405, headers={"Allow": "GET, HEAD"})
        name = self._file_for(path)
        packing, suffix = self._packing(name, Headers(scope=scope).get("accept-encoding", ""))
        response = await super().get_response(name + suffix, scope)
        response.headers.update(_headers(name, packing))
        return response

    def _file_for(self, path: str) -> str:
        if self._is_file(path):
            return path
        if PurePosixPath(path).suffix:
            raise HTTPException(404, "There is no such file in the app.")
        if not self._is_file(INDEX):
            raise HTTPException(404, "The app is not built yet: its index.html is not there.")
        return INDEX

    def _packing(self, name: str, accepted: str) -> tuple[str | None, str]:
        offered = {part.partition(";")[0].strip() for part in accepted.split(",") if not _is_refused(part)}
        for packing, suffix in PACKED:
            if packing in offered and self._is_file(name + suffix):
                return packing, suffix
        return None, ""

    def _is_file(self, path: str) -> bool:
        """False too for names that no file system takes: far too long, or with a zero in them."""
        try:
            found, about = self.lookup_path(path)
        except (OSError, ValueError):
            return False
        return about is not None and Path(found).is_file()


def _is_refused(part: str) -> bool:
    quality = part.partition(";")[2].strip().replace(" ", "")
    return quality in ("q=0", "q=0.0", "q=0.00", "q=0.000")


def _headers(name: str, packing: str | None) -> dict[str, Any]:
    where = PurePosixPath(name)
    headers = {
        "Cache-Control": FOR_EVER if where.parts[0] == HASHED else ASK_FIRST,
        "Content-Type": TYPES.get(where.suffix.lower(), "application/octet-stream"),
        "Vary": "Accept-Encoding",
    }
    return headers | ({"Content-Encoding": packing} if packing else {})


def _whole(scope: Scope) -> Scope:
    """The request without its wish for a part of the file, which the framework would answer in a shape of its own."""
    return {**scope, "headers": [header for header in scope["headers"] if header[0] != b"range"]}
