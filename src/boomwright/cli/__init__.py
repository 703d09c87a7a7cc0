"""The command line: arguments to a use case, its result to text. Nothing is worked out here.

``run`` is the whole program but for the live page, which is passed in. ``commands`` has one
function per command, ``options`` what they share, ``tables`` the readable output, ``faults``
what is said when something is wrong and the exit statuses. Start-up loads no arithmetic: each
command asks for the rooms it needs.
"""

from boomwright.cli.commands import run
