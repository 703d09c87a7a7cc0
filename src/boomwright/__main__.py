"""The program: the command line, given the live page to open.

The two shells know nothing of each other; this is where they meet.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from boomwright.cli import run
from boomwright.session.allocator import collect_seldom, keep_freed_blocks

# The matrices are small: a second thread of linear algebra costs more than it brings. Read when
# NumPy loads, which no import above does; an owner's own setting stands.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
keep_freed_blocks()
collect_seldom()


def open_page(*, path: Path, port: int, browser: bool, beyond: str, password: str) -> None:
    """Serve the live page until interrupted.

    Args:
        path: a plan, or a folder of plans, which begins with the Start sheet
        port: port on loopback, or 0 for any free one
        browser: whether to open it in the browser too
        beyond: address of this machine to serve others at; empty serves this machine only

    Raises:
        PlanError: when the plan cannot be used
        OSError: when the file cannot be read or the port is taken
    """
    # Only this command waits for the web kits to load.
    import webbrowser

    from boomwright.session.files import load_plan
    from boomwright.session.plan_library import PlanLibrary
    from boomwright.session.plan_session import PlanSession
    from boomwright.session.user_state import UserState, state_folder
    from boomwright.web import LOOPBACK_HOSTS, PlanDesk, create_app, serve

    state = UserState(state_folder())
    folder = path if path.is_dir() else path.resolve().parent
    library = PlanLibrary(folder, state=state, elsewhere=not beyond)
    desk = None
    if not path.is_dir():
        text = load_plan(path).text
        state.note(path)
        session = PlanSession(path, state=state)
        desk = PlanDesk(session=session, name=path.name, text=text, library=library)

    def on_ready(url: str) -> None:
        sys.stdout.write(f"{path.resolve() if desk is None else path} is open at {url}\n")
        sys.stdout.write("Stop with Ctrl-C.\n")
        sys.stdout.flush()
        if browser:
            webbrowser.open(url)

    hosts = LOOPBACK_HOSTS
    if beyond:
        hosts |= {f"[{beyond}]" if ":" in beyond else beyond}
    page = create_app(desk, library=library, hosts=hosts, password=password)
    try:
        serve(page, host=beyond or "127.0.0.1", port=port, on_ready=on_ready)
    finally:
        if unsaved := page.state.unsaved():
            sys.stderr.write(f"{unsaved}\n")


def main() -> None:
    """Run the command line and end with its status."""
    sys.exit(run(sys.argv[1:], open_page=open_page))


if __name__ == "__main__":
    main()
