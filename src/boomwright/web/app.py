"""The page as an ASGI application: routes in, HTML, JSON, files and one socket out."""

from __future__ import annotations

import asyncio
import json
import re
import secrets
from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager
from dataclasses import asdict
from functools import partial
from importlib.resources import files
from itertools import groupby
from typing import TYPE_CHECKING, get_args

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route, WebSocketRoute
from starlette.types import Receive, Scope, Send
from starlette.websockets import WebSocket

from boomwright.base import BoomwrightError, PlanError, UnitSystem
from boomwright.cost import AskedPrice
from boomwright.plan import written_system
from boomwright.report.glossary import GLOSSARY, explained
from boomwright.web.autosave import WATCH
from boomwright.web.colours import colour_sheet
from boomwright.web.desk_plans import DeskPlans
from boomwright.web.downloads import FILES, Downloads, FileKind, file_name
from boomwright.web.form_edits import table_path
from boomwright.web.frame import frame_context, frame_numbers
from boomwright.web.guard import HEADERS, LOOPBACK_HOSTS, UPLOAD_LIMIT, UPLOAD_TIME, Guard
from boomwright.web.homes import home_of, roots_of
from boomwright.web.live import LiveWindow
from boomwright.web.measuring import TYPED, read_role, refuse_role, sweep_offer, take_offer
from boomwright.web.mending import asks, mended
from boomwright.web.password import PasswordCheck
from boomwright.web.plan_forms import sheet_tables, table_form
from boomwright.web.refusing import refusal, told
from boomwright.web.service import PlanDesk
from boomwright.web.sheets import SHEETS, Sheet
from boomwright.web.sheets.frame_context import FrameContext
from boomwright.web.sheets.start import start_context, stations_shown
from boomwright.web.sheets.work_context import tick_name
from boomwright.web.start_window import StartWindow
from boomwright.web.stations import Stations
from boomwright.web.view import View
from boomwright.web.windows import Windows
from boomwright.web.workers import BusyError, Crew
from boomwright.web.works import Works

if TYPE_CHECKING:
    from boomwright.session.plan_library import PlanLibrary

_KINDS = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}


def _load_static() -> dict[str, tuple[str, bytes]]:
    """Read every static file once, so that no path of a request ever reaches the disk."""
    folder = files("boomwright.web") / "static"
    loaded = {
        item.name: (_KINDS[item.name[item.name.rindex(".") :]], item.read_bytes())
        for item in folder.iterdir()
        if item.name.endswith(tuple(_KINDS))
    }
    loaded["colours.css"] = ("text/css", colour_sheet().encode())
    return loaded


def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("boomwright.web", "templates"),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["mended"] = mended
    made.globals["asks"] = asks
    made.globals["explained"] = explained
    made.globals["tick_name"] = tick_name
    made.globals["has_tables"] = lambda slug: bool(roots_of(slug, beam=0))
    return made


def _system(request: Request | WebSocket, desk: PlanDesk | None) -> UnitSystem:
    """Read the units that a window wants; those of the plan when it has not said."""
    asked = request.cookies.get("boomwright-units")
    if asked in get_args(UnitSystem):
        return "us" if asked == "us" else "metric"
    return "metric" if desk is None else written_system(desk.text)


def _view_of(request: Request | WebSocket, desk: PlanDesk) -> View:
    """Read what a window looks at from its cookies and query; anything odd counts as unset."""
    number = request.query_params.get("of", "0")
    beam = int(number) if re.fullmatch(r"\d{1,3}", number) else 0
    if beam >= len(desk.plan.beams):
        raise HTTPException(404, f"the plan has no beam number {beam}")
    narrow = request.query_params.get("narrow") == "1"
    return View(
        beam=beam,
        system=_system(request, desk),
        narrow=narrow,
        other=request.query_params.get("with", "")[:100],
    )


def _at_home(place: str, slug: str) -> bool:
    """Whether the form of a table holds the keys that a sheet changes."""
    return home_of(table_path(place) or ()) == slug


def _group(row: AskedPrice) -> str:
    return row.group or "not in this bill"


async def _body(request: Request) -> bytes:
    """Take the file that a request brings, as large and as slow as one may be."""
    content = bytearray()
    try:
        async with asyncio.timeout(UPLOAD_TIME):
            async for chunk in request.stream():
                content += chunk
                if len(content) > UPLOAD_LIMIT:
                    raise HTTPException(413, "the file is larger than 4 MB")
    except TimeoutError:
        raise HTTPException(408, "the file did not come in time") from None
    return bytes(content)


def _scheme(request: Request) -> str:
    """Read the colours that a window wants: ``light``, ``dark``, or empty for its own."""
    asked = request.cookies.get("boomwright-scheme", "")
    return asked if asked in {"light", "dark"} else ""


class _Pages:
    """The handlers, with the desk and what they draw with."""

    def __init__(self, *, desk: PlanDesk | None, library: PlanLibrary | None) -> None:
        self.windows = Windows()
        self.crew = Crew()
        self.works = Works(self.windows)
        self.plans = DeskPlans(
            desk, library=library, crew=self.crew, windows=self.windows, works=self.works
        )
        self.stations = Stations(self.plans, crew=self.crew, windows=self.windows, works=self.works)
        self._downloads = Downloads(self.crew.long)
        self._static = _load_static()
        self._templates = _environment()

    @property
    def desk(self) -> PlanDesk:
        """The plan on the desk.

        Raises:
            HTTPException: while none is open
        """
        if self.plans.desk is None:
            raise HTTPException(409, "no plan is open")
        return self.plans.desk

    async def first(self, request: Request) -> Response:
        """Send the reader to the first sheet."""
        slug = "start" if self.plans.desk is None else SHEETS[0].slug
        return RedirectResponse(f"/{slug}", status_code=303)

    async def start(self, request: Request) -> Response:
        """Answer the Start sheet, which needs no plan."""
        html = await self.crew.quick(
            self._render_start,
            system=_system(request, self.plans.desk),
            scheme=_scheme(request),
        )
        return Response(html, media_type="text/html")

    def _render_start(self, *, system: UnitSystem, scheme: str) -> str:
        return self._templates.get_template("start.html").render(
            sheet=start_context(self.plans),
            nouns=[(sheet.noun, f"/{sheet.slug}") for sheet in SHEETS],
            system=system,
            scheme=scheme,
            svg=Markup,
        )

    async def start_data(self, request: Request) -> Response:
        """Answer the Start sheet as JSON."""
        context = await self.crew.quick(start_context, self.plans)
        return _json_response(asdict(context), status=200)

    async def start_live(self, socket: WebSocket) -> None:
        """Serve the socket of a window that shows the Start sheet."""
        await socket.accept()
        await StartWindow(
            socket=socket,
            plans=self.plans,
            stations=self.stations,
            stations_html=self._stations_html,
            works=self.works,
            windows=self.windows,
            system=_system(socket, self.plans.desk),
            narrow=socket.query_params.get("narrow") == "1",
        ).run()

    def _stations_html(self, system: UnitSystem, narrow: bool) -> str:
        """Write the stations that were found last; empty when there are none."""
        found = stations_shown(self.stations, system=system, narrow=narrow)
        if found is None:
            return ""
        return self._templates.get_template("stations.html").render(found=found, svg=Markup)

    async def page(self, request: Request, *, sheet: Sheet) -> Response:
        """Answer a sheet as HTML, with the figures that are quick."""
        if self.plans.desk is None:
            return RedirectResponse("/start", status_code=303)
        view = _view_of(request, self.desk)
        html = await self.crew.quick(
            self._render, sheet, view, whole=False, scheme=_scheme(request)
        )
        return Response(html, media_type="text/html")

    async def words(self, request: Request) -> Response:
        """Answer the words of the trade, each with the sheet that works with it."""
        html = self._templates.get_template("words.html").render(
            terms=GLOSSARY,
            nouns={sheet.slug: sheet.noun for sheet in SHEETS},
            scheme=_scheme(request),
        )
        return Response(html, media_type="text/html")

    async def tables(self, request: Request) -> Response:
        """Answer the tables of a sheet that can be changed, added and taken out."""
        view, slug = _view_of(request, self.desk), request.query_params.get("sheet", "")
        branches, additions = sheet_tables(self.desk.text, slug=slug, beam=view.beam)
        html = self._templates.get_template("tables.html").render(
            branches=branches,
            additions=additions,
            opens=lambda each: each.place if _at_home(each.place, slug) else each.first,
        )
        return Response(html, media_type="text/html")

    async def form(self, request: Request) -> Response:
        """Answer the form of one table of the plan."""
        view = _view_of(request, self.desk)
        place = request.query_params.get("place", "")
        form, key = table_form(self.desk.text, place, system=view.system, beam=view.beam)
        html = self._templates.get_template("form.html").render(form=form, key=key)
        return Response(html, media_type="text/html")

    def _frame(self, sheet: Sheet, view: View, *, whole: bool) -> FrameContext:
        return frame_context(self.desk, view, sheet=sheet, sheets=SHEETS, whole=whole)

    def _render(self, sheet: Sheet, view: View, *, whole: bool, scheme: str) -> str:
        context = sheet.context(self.desk, view, whole=whole)
        frame = self._frame(sheet, view, whole=whole)
        return self._templates.get_template(sheet.template).render(
            sheet=context,
            frame=frame,
            numbers=lambda: frame.numbers,
            slug=sheet.slug,
            scheme=scheme,
            doing=sheet.doing,
            bare=False,
            # The figures room escapes every name it draws; its SVG goes in as it is.
            svg=Markup,
        )

    def block(self, sheet: Sheet, view: View) -> str:
        """Write a sheet's own block anew, all of it computed."""
        return self._templates.get_template(sheet.template).render(
            sheet=sheet.context(self.desk, view, whole=True),
            numbers=partial(frame_numbers, self.desk, view),
            slug=sheet.slug,
            doing=sheet.doing,
            bare=True,
            svg=Markup,
        )

    def _document(self, sheet: Sheet, view: View) -> dict[str, object]:
        context = sheet.context(self.desk, view, whole=True)
        return asdict(context) | {"frame": asdict(self._frame(sheet, view, whole=True))}

    async def data(self, request: Request, *, sheet: Sheet) -> Response:
        """Answer the same sheet as JSON, all figures computed."""
        view = _view_of(request, self.desk)
        document = await self.crew.long(self._document, sheet, view)
        return _json_response(document, status=200)

    async def share(self, request: Request) -> Response:
        """Answer one self-contained page to show others; nothing in it can be changed."""
        view = _view_of(request, self.desk)
        html = await self.crew.long(self._shared, view)
        name = file_name(self.desk.name, ".html")
        headers = {"content-disposition": f'attachment; filename="{name}"'}
        return Response(html, media_type="text/html", headers=headers)

    def _shared(self, view: View) -> str:
        sheet = SHEETS[0]
        style = "\n".join(
            self._static[name][1].decode()
            for name in ("colours.css", "page.css", "instruments.css")
        )
        return self._templates.get_template("share.html").render(
            sheet=sheet.context(self.desk, view, whole=True),
            frame=self._frame(sheet, view, whole=True),
            style=style,
            svg=Markup,
        )

    async def measured(self, request: Request) -> Response:
        """Take a measured sweep into the folder of the plans, and name it in the plan."""
        desk, library = self.desk, self.desk.library
        if library is None:
            raise HTTPException(404, "this page shows one plan only")
        role = read_role(request.query_params.get("as", "file"))
        refuse_role(desk, role)
        beam = _view_of(request, desk).beam
        content = await _body(request)
        name = request.query_params.get("name", "")
        typed = {key: request.query_params.get(key, "")[:64] for key in TYPED}
        # What the plan refuses is said before a file is written.
        offer, said = await self.crew.quick(
            sweep_offer, desk, name, role=role, beam=beam, typed=typed
        )
        try:
            text = await self.crew.long(library.keep_sweep, name, content)
        except OSError as error:
            reason = error.strerror or type(error).__name__
            raise HTTPException(507, f"the file could not be written: {reason}") from None
        if offer is not None:
            await self.crew.quick(take_offer, desk, offer)
        self._changed()
        return _json_response({"text": text, "said": said}, status=200)

    async def prices(self, request: Request) -> Response:
        """Answer the rows of the price list, to be typed into."""
        desk, view = self.desk, _view_of(request, self.desk)
        said = ""
        rows: tuple[AskedPrice, ...] = ()
        try:
            rows = await self.crew.long(
                desk.session.price_list.asked, desk.plan, system=view.system
            )
        except (BoomwrightError, OSError) as error:
            said = refusal(error, desk.text)
        listed = desk.plan.prices.price_list if desk.plan.prices is not None else ""
        html = self._templates.get_template("prices.html").render(
            groups=[(group, tuple(members)) for group, members in groupby(rows, _group)],
            said=said,
            listed=listed,
        )
        return Response(html, media_type="text/html")

    async def take_prices(self, request: Request) -> Response:
        """Take a price list into the folder of the plan, and name it in the plan."""
        content = await _body(request)
        name = request.query_params.get("name", "")
        try:
            await self.crew.long(self.desk.take_price_list, name, content)
        except OSError as error:
            raise HTTPException(507, f"the file could not be written: {error.strerror}") from None
        self._changed()
        return _json_response(
            {"text": f"{name} is in use. Undo brings the old list back."}, status=200
        )

    def _changed(self) -> None:
        """Show and save what came by another way than a window's socket."""
        self.windows.repaint()
        if self.plans.autosave is not None:
            self.plans.autosave.touch()

    async def live(self, socket: WebSocket, *, sheet: Sheet) -> None:
        """Serve one window's socket."""
        autosave = self.plans.autosave
        if autosave is None:
            # Without a plan there is no such page; its window is sent to the Start sheet.
            await socket.accept()
            await socket.send_json({"kind": "moved", "address": "/start"})
            await socket.close()
            return
        view = _view_of(socket, self.desk)
        await socket.accept()
        window = LiveWindow(
            socket=socket,
            desk=self.desk,
            sheet=sheet,
            sheets=SHEETS,
            block=self.block,
            view=view,
            windows=self.windows,
            plans=self.plans,
            works=self.works,
            autosave=autosave,
            crew=self.crew,
        )
        await window.run()

    async def static(self, request: Request) -> Response:
        """Answer a static file from memory."""
        found = self._static.get(request.path_params["name"])
        if found is None:
            raise HTTPException(404, "there is no such file")
        return Response(found[1], media_type=found[0])

    async def file(self, request: Request, *, file: FileKind) -> Response:
        """Make a file from the plan as it stands on the desk."""
        content = await self._downloads.make(request, self.desk, file)
        name = file_name(self.desk.name, file.ending)
        headers = {"content-disposition": f'attachment; filename="{name}"'}
        return Response(content, media_type=file.kind, headers=headers)

    async def making(self, request: Request) -> Response:
        """Say how far a file is that is under way."""
        told = self._downloads.told(request.query_params.get("job", ""))
        return _json_response(told, status=200)

    def fault(
        self, scope: Scope, *, status: int, message: str, remedy: str, allow: Mapping[str, str]
    ) -> Response:
        """Answer an error with its true status, as HTML or JSON like the page asked for."""
        error = {"status": status, "message": message, "remedy": remedy}
        # A failure is answered outside the guard, so the answer carries the policy itself.
        headers = {**HEADERS, **allow}
        if str(scope["path"]).endswith(".json"):
            return _json_response({"error": error}, status=status, headers=headers)
        html = self._templates.get_template("fault.html").render(error=error, scheme="")
        return Response(html, status_code=status, media_type="text/html", headers=headers)

    async def refuse(
        self, scope: Scope, receive: Receive, send: Send, status: int, message: str, remedy: str
    ) -> None:
        """Answer a request the guard turns away."""
        allow = {"allow": "GET, HEAD"} if status == 405 else {}
        if status == 401:
            allow = {"www-authenticate": 'Basic realm="boomwright", charset="UTF-8"'}
        response = self.fault(scope, status=status, message=message, remedy=remedy, allow=allow)
        await response(scope, receive, send)

    async def http_fault(self, request: Request, error: Exception) -> Response:
        """Answer what a handler refused."""
        status, message = 500, "the page failed"
        if isinstance(error, HTTPException):
            status, message = error.status_code, error.detail
        elif isinstance(error, BusyError):
            status, message = 503, str(error)
        elif isinstance(error, BoomwrightError):
            status, message = 422, str(error)
        remedy = {
            404: "go back to the page and use its links",
            405: "edits go through the page itself",
            408: "send it again",
            409: "open or make one on the Start sheet",
            413: "thin the sweep out, to some hundred points",
            422: "correct what is named, then ask again",
            503: "the plan on the desk is kept, and the other sheets answer",
        }.get(status, "the plan on the desk is kept; reload the page, and report this if it stays")
        if isinstance(error, PlanError) and error.faults:
            first = told(error, self.desk.text).faults[0]
            message, remedy = f"{first.where}: {first.message}", str(first.remedy)
        return self.fault(request.scope, status=status, message=message, remedy=remedy, allow={})

    @asynccontextmanager
    async def lifespan(self, app: Starlette) -> AsyncIterator[None]:
        """Keep an eye on the plan file; write what is not yet written when the server stops."""
        watching = asyncio.create_task(self._watch())
        yield
        watching.cancel()
        if self.plans.autosave is not None:
            await self.plans.autosave.flush()

    async def _watch(self) -> None:
        while True:
            await asyncio.sleep(WATCH)
            if self.plans.autosave is not None:
                await self.plans.autosave.look()

    def unsaved(self) -> str:
        """Say what could not be written and where it is kept; empty when all is in its file."""
        desk = self.plans.desk
        if desk is None or desk.saving.state == "saved":
            return ""
        where = f"; your plan is kept in {desk.draft}" if desk.draft else ""
        return f"{desk.name}: {desk.saving.text}{where}"


def _json_response(
    content: object, *, status: int, headers: Mapping[str, str] | None = None
) -> Response:
    text = json.dumps(content, ensure_ascii=False, allow_nan=False, indent=1)
    return Response(
        text, status_code=status, media_type="application/json", headers=dict(headers or {})
    )


def _routes(pages: _Pages) -> list[BaseRoute]:
    routes: list[BaseRoute] = [
        Route("/", pages.first),
        Route("/start", pages.start),
        Route("/start.json", pages.start_data),
        WebSocketRoute("/start/live", pages.start_live),
        Route("/static/{name}", pages.static),
        Route("/share.html", pages.share),
        Route("/words", pages.words),
        Route("/making.json", pages.making),
        Route("/tables", pages.tables),
        Route("/form", pages.form),
        Route("/measured.json", pages.measured, methods=["POST"]),
        Route("/prices", pages.prices),
        Route("/prices.json", pages.take_prices, methods=["POST"]),
    ]
    for sheet in SHEETS:
        routes += [
            Route(f"/{sheet.slug}", partial(pages.page, sheet=sheet)),
            Route(f"/{sheet.slug}.json", partial(pages.data, sheet=sheet)),
            WebSocketRoute(f"/{sheet.slug}/live", partial(pages.live, sheet=sheet)),
        ]
    routes += [Route(address, partial(pages.file, file=file)) for address, file in FILES.items()]
    return routes


def create_app(
    service: PlanDesk | None,
    *,
    library: PlanLibrary | None = None,
    key: str | None = None,
    hosts: frozenset[str] = LOOPBACK_HOSTS,
    password: str = "",
) -> Starlette:
    """Make the page.

    Args:
        service: the plan to begin with; None begins with the Start sheet
        library: the plans there are; None for those of the desk
        key: secret of this run; a random one when None
        password: password that lets others in without the key; empty lets nobody in

    Returns:
        the application; its key is ``app.state.key``
    """
    if library is None and service is not None:
        library = service.library
    pages = _Pages(desk=service, library=library)
    key = key or secrets.token_urlsafe(24)
    guard = Middleware(
        Guard, key=key, hosts=hosts, refuse=pages.refuse, password=PasswordCheck(password=password)
    )
    app = Starlette(
        routes=_routes(pages),
        middleware=[guard],
        exception_handlers={
            HTTPException: pages.http_fault,
            BoomwrightError: pages.http_fault,
            500: pages.http_fault,
        },
        lifespan=pages.lifespan,
    )
    app.state.key = key
    app.state.unsaved = pages.unsaved
    return app
