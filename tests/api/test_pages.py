"""The app's own pages: right types, right caching, packed where the browser takes it."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from tests.clients import Client, service

FILES = {
    "index.html": b"<!doctype html><title>Evenbed</title>",
    "sw.js": b"self",
    "manifest.webmanifest": b"{}",
    "assets/app-1a2b.js": b"let plain",
    "assets/app-1a2b.js.br": b"packed by brotli",
    "assets/app-1a2b.js.gz": b"packed by gzip",
    "assets/engine-3c4d.wasm": b"\x00asm",
}


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Client]:
    """A service with a small build."""
    for name, content in FILES.items():
        (tmp_path / "dist" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "dist" / name).write_bytes(content)
    (tmp_path / "secret.txt").write_text("not for you")
    with service(tmp_path) as fresh:
        yield fresh


@pytest.mark.parametrize(
    ("path", "kind", "kept"),
    [
        ("/", "text/html; charset=utf-8", "no-cache"),
        ("/index.html", "text/html; charset=utf-8", "no-cache"),
        ("/sw.js", "text/javascript; charset=utf-8", "no-cache"),
        ("/manifest.webmanifest", "application/manifest+json", "no-cache"),
        ("/assets/engine-3c4d.wasm", "application/wasm", "public, max-age=31536000, immutable"),
        ("/jobs/7/rooms/3", "text/html; charset=utf-8", "no-cache"),
    ],
)
def test_types_and_caching(client: Client, path: str, kind: str, kept: str) -> None:
    reply = client.send("GET", path, headers={"Accept-Encoding": "identity"})
    assert (reply.status_code, reply.headers["content-type"], reply.headers["cache-control"]) == (200, kind, kept)
    assert "script-src 'self' 'wasm-unsafe-eval'" in reply.headers["content-security-policy"]
    assert reply.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(
    ("accepted", "packing", "content"),
    [
        ("br, gzip", "br", b"packed by brotli"),
        ("gzip;q=1.0, identity", "gzip", b"packed by gzip"),
        ("br;q=0, gzip", "gzip", b"packed by gzip"),
        ("identity", None, b"let plain"),
    ],
)
def test_a_packed_file_is_sent_where_it_is_taken(
    client: Client, accepted: str, packing: str | None, content: bytes
) -> None:
    reply = raw(client, "/assets/app-1a2b.js", {"Accept-Encoding": accepted})
    assert (reply[0].get("content-encoding"), reply[1]) == (packing, content)
    assert reply[0]["content-type"] == "text/javascript; charset=utf-8"
    assert reply[0]["vary"] == "Accept-Encoding"


def raw(client: Client, path: str, headers: dict[str, str]) -> tuple[dict[str, str], bytes]:
    """Headers and body as they were sent, without unpacking."""

    async def ask() -> tuple[dict[str, str], bytes]:
        transport = httpx.ASGITransport(client.app)
        async with (
            httpx.AsyncClient(transport=transport, base_url="http://evenbed.test") as asking,
            asking.stream("GET", path, headers=headers) as reply,
        ):
            return dict(reply.headers), b"".join([part async for part in reply.aiter_raw()])

    return asyncio.run(ask())


@pytest.mark.parametrize(
    "path", ["/assets/gone-9f9f.js", "/../secret.txt", "/%2e%2e/secret.txt", "/api", "/api/x.js"]
)
def test_what_is_not_in_the_build_is_not_found(client: Client, path: str) -> None:
    reply = client.send("GET", path)
    assert (reply.status_code, reply.json()["code"]) == (404, "not_found")


@pytest.mark.parametrize("path", ["/%00", "/" + "a" * 5_000, "/%ff%fe", "/con:/x"])
def test_strange_addresses_are_the_apps_to_answer(client: Client, path: str) -> None:
    assert client.send("GET", path).content == FILES["index.html"]


def test_an_unchanged_page_is_not_sent_again(client: Client) -> None:
    tag = client.send("GET", "/").headers["etag"]
    assert client.send("GET", "/", headers={"If-None-Match": tag}).status_code == 304


def test_without_a_build_the_service_says_so(tmp_path: Path) -> None:
    (tmp_path / "bare").mkdir()
    with service(tmp_path / "bare") as bare:
        reply = bare.send("GET", "/")
        assert (reply.status_code, reply.json()["code"]) == (404, "not_found")
        assert "not built" in reply.json()["detail"]


@pytest.mark.parametrize("wish", ["bytes=0-1", "bytes=abc", "bytes=999999-"])
def test_a_file_is_answered_whole_whatever_part_is_asked_for(client: Client, wish: str) -> None:
    reply = client.send("GET", "/sw.js", headers={"Range": wish, "Accept-Encoding": "identity"})
    assert (reply.status_code, reply.content) == (200, b"self")
