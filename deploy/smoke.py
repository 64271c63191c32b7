"""Is a running service fit for use? Asks it a few things that must be so, and says each one.

python deploy/smoke.py http://127.0.0.1:8765
"""

import sys
from collections.abc import Callable

import httpx

ROOM = {
    "document": 1,
    "outline": {"vertices": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]},
    "readings": [{"down": 1000 + n, "at": at} for n, at in enumerate([[0, 0], [3000, 0], [3000, 2000], [0, 2000]])],
}


def health(client: httpx.Client) -> bool:
    """The service and its database answer."""
    status: str = client.get("/api/health").json()["status"]
    return status == "ok"


def plan(client: httpx.Client) -> bool:
    """A room of 3 m by 2 m gets a plan with its area."""
    area: float = client.post("/api/plan", json=ROOM).json()["outline"]["area"]
    return abs(area - 6.0) < 1e-9


def bad_document(client: httpx.Client) -> bool:
    """A document without a room gets problems."""
    reply = client.post("/api/plan", json={})
    return reply.status_code == 422 and bool(reply.json()["problems"])


def closed_to_strangers(client: httpx.Client) -> bool:
    """Nobody reads or writes without having joined."""
    strange = {"protocol": 1, "changes": [], "device_time": "2026-05-04T00:00:00+00:00"}
    replies = client.get("/api/pull"), client.post("/api/push", json=strange)
    return all(reply.status_code == 401 for reply in replies)


def pages(client: httpx.Client) -> bool:
    """The app is served, and may load nothing from elsewhere."""
    reply = client.get("/")
    return reply.status_code == 200 and "default-src 'self'" in reply.headers["content-security-policy"]


CHECKS: tuple[Callable[[httpx.Client], bool], ...] = (health, plan, bad_document, closed_to_strangers, pages)


def main(address: str) -> int:
    """0 where every check holds, 1 otherwise."""
    with httpx.Client(base_url=address, timeout=20.0) as client:
        return max([_say(check, client) for check in CHECKS])


def _say(check: Callable[[httpx.Client], bool], client: httpx.Client) -> int:
    try:
        fits, why = check(client), ""
    except (httpx.HTTPError, KeyError, ValueError) as error:
        fits, why = False, f" ({error!r})"
    print(f"{'ok    ' if fits else 'FAILED'} {check.__doc__}{why}")
    return 0 if fits else 1


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
