"""What the company buys, and for how much: who reads it, who writes it, and how phones that were apart meet."""

from datetime import timedelta
from typing import Any

import pytest
from tests.askers import ASKERS, NEXT, Company, company_of
from tests.clients import Client, change
from tests.phones import uuid_text
from tests.stores import START

from evenbed.sync.proof import differences
from evenbed.wire.supplies import COMPANYS, PRICES_ID, SUPPLIES_ID

COST = 1234.5678
"""In every price; whoever may not see what things cost must never read it."""
PRICES = {"prices.cement_bag": COST, "prices.labour.hour": COST, "prices.currency": "Quince crowns"}
SUPPLIES = {"supplies.tile.box_area": 1.25, "supplies.membrane.lap": 150.0}


@pytest.fixture
def company(client: Client) -> Company:
    """One whose foreman has said what things cost, and in which packages they come."""
    company = company_of(client)
    said = [change(NEXT, "prices", PRICES_ID, PRICES), change(NEXT + 1, "supplies", SUPPLIES_ID, SUPPLIES)]
    results = company.clients["foreman"].push(*said).json()["results"]
    assert [one["outcome"] for one in results] == ["applied", "applied"]
    return company


def kinds_pulled(client: Client) -> set[str]:
    """The company's kinds among everything the client is told."""
    client.view = 0
    return {record["kind"] for record in client.pull().get("records", [])} & COMPANYS.keys()


def answer_to(client: Client, kind: str) -> int:
    return client.send("GET", f"/api/records/{kind}/{COMPANYS[kind]}/history").status_code


def test_foremen_alone_read_prices_and_everybody_who_joined_reads_the_packages(company: Company) -> None:
    pulled = {who: kinds_pulled(company.clients[who]) for who in ASKERS}
    assert [sorted(pulled[who]) for who in ("nobody", "nonsense", "removed")] == [[], [], []]
    assert [sorted(pulled[who]) for who in ("viewer", "outsider", "setter")] == [["supplies"]] * 3
    assert sorted(pulled["foreman"]) == ["prices", "supplies"]


def test_the_history_of_prices_is_foremens_and_that_of_packages_everybodys(company: Company) -> None:
    assert [answer_to(company.clients[who], "prices") for who in ASKERS] == [401, 401, 401, 404, 404, 404, 200]
    assert [answer_to(company.clients[who], "supplies") for who in ASKERS] == [401, 401, 401, 200, 200, 200, 200]


def test_a_price_stirs_no_phone_but_a_foremans(company: Company) -> None:
    with company.clients["nobody"].store.reading() as work:
        everybody = {person.name: person for person in work.people.all()}
        before = {who: work.archive.latest_for(person) for who, person in everybody.items()}
    company.clients["foreman"].push(change(NEXT + 2, "prices", PRICES_ID, {"prices.margin": 0.2}))
    with company.clients["nobody"].store.reading() as work:
        after = {who: work.archive.latest_for(person) for who, person in everybody.items()}
    stirred = {who for who in after if after[who] > before[who]}
    assert stirred == {name for name, person in everybody.items() if person.role == "foreman"}


@pytest.mark.parametrize("who", ["setter", "outsider"])
def test_whoever_is_no_foreman_writes_neither_and_learns_nothing_by_trying(company: Company, who: str) -> None:
    before = company.clients["foreman"].pull()["records"]
    tried: list[tuple[str, str, dict[str, Any]]] = [
        ("prices", PRICES_ID, {"prices.cement_bag": 1.0}),
        ("prices", PRICES_ID, {"prices.cement_bag": "dear"}),
        ("prices", uuid_text(77), {"prices.cement_bag": 1.0}),
        ("prices", PRICES_ID, {"deleted": True}),
        ("supplies", SUPPLIES_ID, {"supplies.tile.waste": 0.5}),
    ]
    changes = [change(n, *one, change_id=uuid_text(4000 + n)) for n, one in enumerate(tried, start=1)]
    mine = change(len(tried) + 1, "job", uuid_text(78), {"name": "mine"}, change_id=uuid_text(4100))
    reply = company.clients[who].push(*changes, mine)
    assert [one["reason"] for one in reply.json()["results"]] == ["foreman_only"] * len(tried) + [None]
    assert str(COST) not in reply.text
    after = company.clients["foreman"].pull()["records"]
    assert [record for record in after if record["id"] != uuid_text(78)] == before


def test_a_viewer_pushes_nothing_at_all(company: Company) -> None:
    reply = company.clients["viewer"].push(change(1, "prices", PRICES_ID, {"prices.margin": 0.1}))
    assert (reply.status_code, reply.json()["code"]) == (403, "viewer_only_looks")


def test_a_job_with_the_id_of_the_prices_opens_them_to_nobody(company: Company) -> None:
    setter = company.clients["setter"]
    made = setter.push(change(1, "job", PRICES_ID, {"name": "trick"}, change_id=uuid_text(4200)))
    assert made.json()["results"][0]["outcome"] == "applied"
    assert kinds_pulled(setter) == {"supplies"}
    assert answer_to(setter, "prices") == 404


def test_whoever_stops_being_a_foreman_is_told_a_snapshot_without_prices_and_a_new_one_with(company: Company) -> None:
    setter, foreman = company.clients["setter"], company.clients["foreman"]
    assert "prices" not in {record["kind"] for record in setter.pull()["records"]}
    path = f"/api/people/{company.people['setter']}"
    for role, expected in (("foreman", True), ("setter", False)):
        assert foreman.send("PATCH", path, json={"role": role}).status_code == 200
        told = setter.send("GET", "/api/pull", params={"after": 10**6, "view": setter.view}).json()
        assert told["view"] != setter.view
        assert ("prices" in {record["kind"] for record in told["records"]}) == expected
        setter.view = told["view"]


def test_phones_that_were_apart_meet_in_one_record_field_by_field(company: Company) -> None:
    foreman, other = company.clients["foreman"], company.clients["nobody"].joined(uuid_text(520), "Eva")
    later = (START + timedelta(hours=1)).isoformat()
    theirs = {"prices.cement_bag": 2.0, "prices.tile_box": 30.0}
    other.push(
        change(1, "prices", PRICES_ID, theirs, device_time=later, change_id=uuid_text(4300)), device_time=later
    )
    prices = next(record for record in foreman.pull()["records"] if record["kind"] == "prices")
    assert prices["fields"] == PRICES | theirs
    assert {name: [lost["value"] for lost in lost_ones] for name, lost_ones in prices["conflicts"].items()} == {
        "prices.cement_bag": [COST]
    }


def test_the_log_makes_the_companys_records_again(company: Company) -> None:
    with company.clients["nobody"].store.reading() as work:
        archive = work.archive
        count, wrong = differences(archive.log(), archive.records(), archive.assignments())
        kinds = {record.kind for record in archive.records()}
    assert wrong == []
    assert count > len(COMPANYS)
    assert kinds >= COMPANYS.keys()
