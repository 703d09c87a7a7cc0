"""What is ticked off of the work on a plan, kept in a file beside it."""

from __future__ import annotations

import json
from pathlib import Path

from boomwright.base.files import FileRefusedError
from boomwright.session.files import OWN_RECORD, day_of_today, read_file, save_bytes

#: ticks kept of one plan
_MOST = 5000


def ticks_path(plan: Path) -> Path:
    """Name the file that keeps the ticks of a plan."""
    return plan.with_name(f"{plan.stem}.ticks.json")


def load_ticks(plan: Path) -> dict[str, str]:
    """Read what is ticked off; empty when nothing is kept, or the file is spoilt."""
    try:
        found = json.loads(read_file(ticks_path(plan), kind=OWN_RECORD).decode())
    except (FileRefusedError, OSError, ValueError, RecursionError):
        return {}
    if not isinstance(found, dict):
        return {}
    return {what: day for what, day in found.items() if isinstance(day, str)}


def keep_tick(plan: Path, what: str, *, done: bool) -> None:
    """Tick something off, or take the tick back.

    Raises:
        OSError: when it cannot be written
    """
    ticks = load_ticks(plan)
    ticks.pop(what, None)
    if done:
        ticks[what] = day_of_today()
    kept = dict(list(ticks.items())[-_MOST:])
    save_bytes(ticks_path(plan), json.dumps(kept, ensure_ascii=False, indent=1).encode())
