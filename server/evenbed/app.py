"""The only wiring: settings in, a ready application out."""

from collections.abc import AsyncIterator, Callable
from concurrent.futures import Executor, ThreadPoolExecutor
from contextlib import AbstractAsyncContextManager, asynccontextmanager

from fastapi import FastAPI
from fastapi.routing import APIRoute

from evenbed import __version__
from evenbed.access.tries import Tries
from evenbed.api import (
    calendars,
    events,
    exchange,
    forecast,
    health,
    history,
    jobfiles,
    people,
    photos,
    plans,
    problems,
    scans,
    sessions,
)
from evenbed.api.bodies import BodyLimit
from evenbed.api.description import description_of
from evenbed.api.feed import Keeping
from evenbed.api.headers import SafeHeaders
from evenbed.api.pages import Pages
from evenbed.api.places import Places
from evenbed.api.scanning import Scanning
from evenbed.api.service import Service
from evenbed.jobfile.parts import MOST_BYTES
from evenbed.settings import Settings
from evenbed.store.work import Store


def create_app(settings: Settings) -> FastAPI:
    """The application over a database that is already migrated and founded."""
    store, looking = Store(settings.database_url, settings.busy_timeout_s), ThreadPoolExecutor(max_workers=1)
    app = FastAPI(
        title="Evenbed",
        version=__version__,
        lifespan=_closing(store, looking),
        redirect_slashes=False,
        openapi_url="/api/openapi.json",
        docs_url=None,  # the framework's pages would load scripts from elsewhere
        redoc_url=None,
    )
    app.state.service = Service(settings, store, Tries(), app.version, looking, Keeping(), Scanning(), Places(1))
    rooms = (health, plans, sessions, people, exchange, events, history, photos, scans, calendars, forecast, jobfiles)
    for room in rooms:
        app.include_router(room.router)
    app.router.default = Pages(settings.web)
    problems.install(app, [route for room in rooms for route in room.router.routes if isinstance(route, APIRoute)])
    larger = {scans.ADDRESSES: settings.scan_limit, jobfiles.ADDRESS: MOST_BYTES}
    app.add_middleware(BodyLimit, limit=settings.body_limit, larger=larger)
    app.add_middleware(SafeHeaders)
    app.openapi = lambda: description_of(app)  # type: ignore[method-assign]
    return app


def _closing(store: Store, looking: Executor) -> Callable[[FastAPI], AbstractAsyncContextManager[None]]:
    @asynccontextmanager
    async def lifespan(_app: FastAPI) -> AsyncIterator[None]:
        yield
        looking.shutdown()
        store.close()

    return lifespan
