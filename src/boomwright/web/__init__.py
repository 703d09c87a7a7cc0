"""The live page: one plan on the desk, served to this machine's own browser.

``PlanDesk`` holds the text of one plan file, applies edits to it, undoes them and saves it
through the ``PlanSession`` it is given. ``create_app(desk)`` makes the page as an ASGI
application; ``serve(app, port=..., on_ready=...)`` runs it on loopback. Each subject is a sheet:
one module under ``sheets`` with its context dataclass, whose fields carry the help that the
page's JSON is documented by. Edits come in over one socket per window and are answered in two
stages: what must follow a hand at once, and the rest when the hand pauses.
"""

from boomwright.web.app import create_app
from boomwright.web.guard import LOOPBACK_HOSTS
from boomwright.web.launch import serve
from boomwright.web.service import PlanDesk
