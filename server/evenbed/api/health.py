"""Is the service up, and does its database answer?"""

from fastapi import APIRouter

from evenbed.api.problems import STORE_CODES, declared
from evenbed.api.service import TheService
from evenbed.wire.exchange import HealthReply

router = APIRouter(prefix="/api", tags=["service"])


@router.get("/health", operation_id="health", responses=declared(*STORE_CODES))
def health(service: TheService) -> HealthReply:
    """The service is up and its database answers."""
    with service.store.reading() as work:
        return HealthReply(version=service.version, database=work.founding.identity())
