"""What a worker process does first; it loads little else, as every search waits for its workers."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading

from boomwright.session.allocator import keep_freed_blocks


def begin_worker() -> None:
    """Prepare a worker: Ctrl-C is the parent's to hear, and no worker outlives the parent."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    keep_freed_blocks()
    parent = multiprocessing.parent_process()
    if parent is None:
        return

    def follow() -> None:
        parent.join()
        os._exit(1)

    threading.Thread(target=follow, daemon=True).start()
