"""Phones that only follow: each asks for what is newer than the last number it knows, page by page, for ever."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import cycle
from threading import Event

import httpx

PAGE = 40
PATIENCE_S = 60.0
Seen = tuple[int, str, str]


@dataclass
class Puller:
    """Follows through several services by turns, as behind a proxy. `seen` is number, kind and id of all it got."""

    addresses: Sequence[str]
    token: str
    pause_s: float
    seen: list[Seen] = field(default_factory=list)
    pages: int = 0
    after: int = 0
    view: int = 0

    def follow(self, done: Event) -> None:
        """Pull until nothing more is coming and all of it is here."""
        headers = {"Authorization": f"Bearer {self.token}"}
        with httpx.Client(headers=headers, timeout=PATIENCE_S) as client:
            for address in cycle(self.addresses):
                nothing_comes = done.is_set()
                more = self._pull(client, address)
                if nothing_comes and not more:
                    return
                time.sleep(0 if more else self.pause_s)

    def _pull(self, client: httpx.Client, address: str) -> bool:
        told = {"after": self.after, "view": self.view, "limit": PAGE}
        reply = client.get(f"{address}/api/pull", params=told)
        assert reply.status_code == 200, reply.text
        page = reply.json()
        self.seen += [(one["sequence"], one["kind"], one["id"]) for one in page["records"]]
        self.after, self.view = page["next"], page["view"]
        self.pages += 1
        more: bool = page["more"]
        return more
