"""Keep ``docs/cli.md`` the same as what the commands say of themselves.

Run from anywhere::

    python tools/command_pages.py --write    write the page
    python tools/command_pages.py --check    fail when it is not current
"""

from __future__ import annotations

import sys
from pathlib import Path

import typer
from typer.main import get_command

from boomwright.cli.commands import app

PAGE = Path(__file__).resolve().parent.parent / "docs" / "cli.md"
WIDTH = 96
HEAD = """# Commands

Written from the commands by `tools/command_pages.py`; change the help texts in
`src/boomwright/cli` and run `python3 make.py write`.

A plan is a path, or `-` for standard input. Exit status: 0 done; 1 boomwright itself failed;
2 bad input, each fault on the error stream as `file:line place: message (value) -> remedy`;
3 a limit is exceeded under `--strict`. An answer has at most 40 lines, verdict, exceeded checks and
cautions apart; `--full` prints every table, doubt and note. With `--json`, standard output holds
exactly one JSON document; its names are in [nomenclature.md](nomenclature.md).
"""


def page() -> str:
    """Write the whole page."""
    program = get_command(app)
    settings = program.context_settings
    top = typer.Context(program, info_name="boomwright", terminal_width=WIDTH, **settings)
    parts = [HEAD, block(program.get_help(top))]
    for name in program.list_commands(top):  # type: ignore[attr-defined]
        command = program.get_command(top, name)  # type: ignore[attr-defined]
        inner = typer.Context(command, info_name=name, parent=top, terminal_width=WIDTH)
        parts.append(f"## {name}\n\n{block(command.get_help(inner))}")
    return "\n".join(parts)


def block(text: str) -> str:
    """Set a text as it stands."""
    lines = (line.rstrip() for line in text.rstrip().splitlines())
    return "\n".join(["```text", *lines, "```", ""])


def main(arguments: list[str]) -> int:
    """Write or check, and return the exit status."""
    if arguments == ["--write"]:
        PAGE.write_text(page(), encoding="utf-8")
        return 0
    if arguments != ["--check"]:
        print(__doc__)
        return 2
    current = PAGE.exists() and PAGE.read_text(encoding="utf-8") == page()
    print(f"docs/cli.md: {'in order' if current else 'not current; run python3 make.py write'}")
    return 0 if current else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
