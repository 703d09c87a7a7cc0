"""Attack a live page of our own, as anybody on the network or a broken browser might.

python tools/attack_page.py                 every attack, one line each; fails when one gets through
python tools/attack_page.py sockets files   only these
python tools/attack_page.py --count 5000    as many mutated messages and requests

Each attack begins with a fresh plan in a folder of its own and a server of its own. What counts
as getting through: a traceback, an answer that does not come, a word out of a file that the page
has no business with, edits that lie nowhere, a server that does not end.
"""

from __future__ import annotations

import argparse
import base64
import http.client
import json
import os
import random
import signal
import socket
import struct
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import Any

from websockets.exceptions import ConnectionClosed
from websockets.sync.client import ClientConnection, connect
from websockets.typing import Origin

from boomwright.session.files import packaged_text

PASSWORD = "a long password for attacks"  # noqa: S105  (opens pages of this tool only)
#: stands in files the page must say nothing of
SECRET = "hush-4711"  # noqa: S105
#: longest wait for an answer, and for the server to end [s]
ANSWER, END = 60.0, 30.0


class ThroughError(Exception):
    """An attack got through."""


class Page:
    """A served plan."""

    def __init__(self, folder: Path, *, beyond: bool = False) -> None:
        self.folder = folder / "plans"
        self.folder.mkdir()
        self.path = self.folder / "plan.toml"
        self.path.write_text(packaged_text("demo.toml"), encoding="utf-8")
        (self.folder / "prices.csv").write_text(packaged_text("demo_prices.csv"), encoding="utf-8")
        (folder / "outside.csv").write_text(f"{SECRET}\n{SECRET},{SECRET}\n", encoding="utf-8")
        self.errors = folder / "errors.txt"
        command = [sys.executable, "-m", "boomwright", "open", str(self.path), "--no-browser"]
        if beyond:
            command += ["--beyond-this-machine", "127.0.0.1"]
        environment = os.environ | {
            "BOOMWRIGHT_PASSWORD": PASSWORD,
            "XDG_STATE_HOME": str(folder / "state"),
            "PYTHONUNBUFFERED": "1",
        }
        with self.errors.open("wb") as errors:
            self.process = subprocess.Popen(
                command, stdout=subprocess.PIPE, stderr=errors, env=environment, text=True
            )
        line = self.process.stdout.readline() if self.process.stdout else ""
        address, _, self.key = line.partition("http://")[2].strip().partition("/?key=")
        self.host, _, port = address.rpartition(":")
        self.port = int(port)
        self.home = f"http://{address}"
        with self.request("GET", f"/?key={self.key}", cookie=False) as answer:
            self.cookie = str(answer.headers["set-cookie"]).partition(";")[0]

    @contextmanager
    def request(
        self,
        method: str,
        path: str,
        *,
        cookie: bool = True,
        headers: Mapping[str, str] | None = None,
    ) -> Iterator[http.client.HTTPResponse]:
        """Ask, and wait no longer than an answer may take."""
        link = http.client.HTTPConnection(self.host, self.port, timeout=ANSWER)
        try:
            own = {"cookie": self.cookie} if cookie else {}
            link.request(method, path, headers={**own, **(headers or {})})
            yield link.getresponse()
        finally:
            link.close()

    def text(self, path: str) -> tuple[int, str]:
        """Status and text of an answer."""
        with self.request("GET", path) as answer:
            return answer.status, answer.read().decode()

    def raw(self) -> socket.socket:
        """A connection that has not said anything yet."""
        return socket.create_connection((self.host, self.port), timeout=ANSWER)

    def memory(self) -> int:
        """Memory the server holds [bytes]."""
        pages = Path(f"/proc/{self.process.pid}/statm").read_text(encoding="ascii").split()[1]
        return int(pages) * os.sysconf("SC_PAGE_SIZE")

    def window(self, sheet: str = "beam", *, max_queue: int = 1000) -> ClientConnection:
        """One window's socket."""
        return connect(
            f"ws://{self.host}:{self.port}/{sheet}/live",
            origin=Origin(self.home),
            additional_headers={"cookie": self.cookie},
            open_timeout=ANSWER,
            max_size=None,
            max_queue=max_queue,
            # Whoever attacks does not wait to say goodbye.
            close_timeout=1.0,
        )

    def handles(self) -> int:
        """Files and sockets the server holds."""
        return len(list(Path(f"/proc/{self.process.pid}/fd").iterdir()))

    def alive(self) -> None:
        """Make sure that the page answers and that an edit is answered and lands in the file."""
        status, text = self.text("/beam")
        if status != 200 or "<html" not in text:
            raise ThroughError(f"the page answers {status}")
        with self.window() as window:
            tell(window, {"kind": "raise", "beam": 0, "height": 15.5}, seq=900)
            until(window, lambda said: said["kind"] == "quick" and said["seq"] >= 900)

    def end(self, sign: int = signal.SIGINT) -> None:
        """Stop the server, which must end by itself."""
        if self.process.poll() is None:
            self.process.send_signal(sign)
            try:
                self.process.wait(END)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()
                raise ThroughError(f"the server did not end within {END:g} s") from None
        said = self.errors.read_text(encoding="utf-8", errors="replace")
        if "Traceback" in said:
            raise ThroughError(f"a traceback: ...{said.strip()[-300:]}")


def tell(window: ClientConnection, edit: Mapping[str, Any], *, seq: int = 1) -> None:
    """Send one of the page's own messages."""
    window.send(json.dumps({"seq": seq, "gesture": 0, "edit": edit}))


def until(
    window: ClientConnection, found: Callable[[dict[str, Any]], bool], *, wait: float = ANSWER
) -> dict[str, Any]:
    """Read until a message is what is waited for."""
    ends = time.monotonic() + wait
    while time.monotonic() < ends:
        with suppress(TimeoutError):
            said: dict[str, Any] = json.loads(
                window.recv(timeout=max(ends - time.monotonic(), 0.01))
            )
            if found(said):
                return said
    raise ThroughError(f"no answer within {wait:g} s")


# --- attacks ------------------------------------------------------------------------------------


def _frame(opcode: int, payload: bytes, *, first: int = 0x80, masked: bool = True) -> bytes:
    """A frame of a socket {rfc-6455, section 5.2}, right or not."""
    head = bytes([first | opcode])
    mask = 0x80 if masked else 0
    if len(payload) < 126:
        head += bytes([mask | len(payload)])
    elif len(payload) < 65_536:
        head += bytes([mask | 126]) + struct.pack(">H", len(payload))
    else:
        head += bytes([mask | 127]) + struct.pack(">Q", len(payload))
    return head + (b"\0\0\0\0" if masked else b"") + payload


def attack_frames(page: Page, chance: random.Random, count: int) -> None:
    """Binary, malformed and mutated frames: refused or closed, never a traceback."""
    odd = [
        _frame(2, b"\x00\xff" * 20),
        _frame(2, b""),
        _frame(1, b"\xff\xfe"),
        _frame(1, b"{}", masked=False),
        _frame(3, b""),
        _frame(1, b"{}", first=0xF0),
        _frame(0, b"x"),
        _frame(1, b"x" * 70_000),
        _frame(9, b"x" * 126),
        _frame(8, b"\x00"),
        _frame(8, struct.pack(">H", 999)),
        b"\x81\xff" + b"\xff" * 8,
    ]
    for payload in odd:
        link = page.raw()
        handshake = (
            f"GET /beam/live HTTP/1.1\r\nHost: {page.host}:{page.port}\r\nOrigin: {page.home}\r\n"
            "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
            f"Sec-WebSocket-Key: {base64.b64encode(chance.randbytes(16)).decode()}\r\n"
            f"Cookie: {page.cookie}\r\n\r\n"
        )
        link.sendall(handshake.encode() + payload)
        link.settimeout(5.0)
        with suppress(OSError):
            link.recv(65_536)
        link.close()
    edits: list[dict[str, Any]] = [
        {"kind": "move", "beam": 0, "element": 1, "position": 2.7},
        {"kind": "write", "place": "title", "text": "x"},
        {"kind": "name", "place": "reach.target", "values": {"name": "a", "where": "IO91"}},
        {"kind": "tune", "text": "14.1 MHz"},
        {"kind": "show", "system": "us"},
        {"kind": "act", "action": "undo"},
        {"kind": "shelve", "action": "cancel", "name": "", "number": 0},
        {"kind": "take", "beam": 0, "curve": 0, "number": 0},
        {"kind": "improve", "action": "look"},
    ]
    left = count
    while left > 0:
        with page.window() as window, suppress(ConnectionClosed):
            while left > 0:
                left -= 1
                message = {"seq": 1, "gesture": 0, "edit": dict(chance.choice(edits))}
                window.send(_mutated_json(message, chance))
                with suppress(TimeoutError):
                    while left % 20 == 0:
                        window.recv(timeout=0.01)
    page.alive()


_ODD_VALUES = (
    "null", "true", "[]", "{}", "-1", "1e999", "-0.0", "NaN", "9" * 400, '"\\ud800"', '"\\u0000"',
    '"' + "x" * 300 + '"', "[[[[]]]]", "1.5", '"../../x"', '"beam[99999].height"', "2e-308",
)  # fmt: skip


def _mutated_json(message: dict[str, Any], chance: random.Random) -> str:
    """One of the page's messages with one thing in it changed."""
    mark = '"<here>"'
    spot = chance.choice(["seq", "gesture", "edit", *message["edit"]])
    if spot in message:
        message[spot] = "<here>"
    else:
        message["edit"][spot] = "<here>"
    text = json.dumps(message).replace(mark, chance.choice(_ODD_VALUES))
    if chance.random() < 0.2:
        cut = chance.randrange(len(text))
        text = text[:cut] + chance.choice(["", "\x00", "{", '"']) + text[cut + 1 :]
    return text


def attack_requests(page: Page, chance: random.Random, count: int) -> None:
    """Random and malformed requests, each on its own connection."""
    targets = ["/", "/beam", "/beam.json", "/static/page.css", "/measured.json", "/making.json",
               "/plan.toml", "/%ff%fe", "/beam?of=99&narrow=x", "//beam"]  # fmt: skip
    for _ in range(count):
        lines = [
            f"{chance.choice(['GET', 'POST', 'PUT', 'OPTIONS', 'X' * 50])} "
            f"{chance.choice(targets)} HTTP/{chance.choice(['1.1', '1.0', '9.9', 'x'])}",
            f"Host: {chance.choice([f'{page.host}:{page.port}', 'evil.example', '', '[::1'])}",
            f"Cookie: {chance.choice([page.cookie, 'x', ';;;=', page.cookie + 'x', 'é'])}",
            chance.choice(["", "Content-Length: -1", "Content-Length: 99999999999",
                           "Transfer-Encoding: chunked", "Authorization: Basic ====",
                           f"Authorization: Basic {'A' * 5000}", "X: " + "y" * 9000, "no colon",
                           "Origin: null", "Sec-Fetch-Site: cross-site", "Upgrade: websocket"]),
        ]  # fmt: skip
        data = "\r\n".join(lines).encode() + chance.choice([b"\r\n\r\n", b"\r\n\r\nbody", b"\n"])
        if chance.random() < 0.2:
            data = chance.randbytes(chance.randrange(1, 400))
        link = page.raw()
        link.settimeout(0.2)
        with suppress(OSError):
            link.sendall(data)
            link.recv(4096)
        link.close()
    page.alive()


def attack_silence(page: Page, chance: random.Random, count: int) -> None:
    """Connections that say nothing, or never end what they say: closed after a time."""
    before = page.handles()
    starts = [b"", b"GET /beam HTTP/1.1\r\nHost: ", b"POST /measured.json HTTP/1.1\r\n"]
    links = []
    for _ in range(500):
        with suppress(OSError):
            links.append(page.raw())
            links[-1].sendall(chance.choice(starts))
    try:
        # What is turned away is closed a moment later.
        time.sleep(1.0)
        if page.handles() - before > 200:
            raise ThroughError(f"{page.handles() - before} connections held at once")
        ends = time.monotonic() + 60.0
        while page.handles() > before + 20:
            if time.monotonic() > ends:
                raise ThroughError(f"{page.handles() - before} silent connections are still held")
            time.sleep(0.5)
        page.alive()
    finally:
        for link in links:
            link.close()


def attack_passwords(page: Page, chance: random.Random, count: int) -> None:
    """Wrong passwords lock out who gave them, never the owner on the machine itself."""
    for _ in range(30):
        wrong = base64.b64encode(f"any:{chance.random()}".encode()).decode()
        header = {"authorization": f"Basic {wrong}"}
        with page.request("GET", "/beam", cookie=False, headers=header) as answer:
            if answer.status < 400:
                raise ThroughError("a wrong password was let in")
    right = base64.b64encode(f"any:{PASSWORD}".encode()).decode()
    header = {"authorization": f"Basic {right}"}
    with page.request("GET", "/beam", cookie=False, headers=header) as answer:
        if answer.status >= 400:
            raise ThroughError(f"the right password from this machine is answered {answer.status}")
    page.alive()


_NAMES = (
    "../outside.csv", "../outside.toml", "../outside.tif", "/etc/passwd", "link.csv", "pipe.csv",
    "pipe.toml", "pipe.tif", "link to a pipe.csv", "folder", "zero.csv", "notes.toml", "notes.csv",
    "../../../../../etc/hostname", "~/.profile", "/proc/self/environ", "/dev/stdin", ".",
)  # fmt: skip


def attack_files(page: Page, chance: random.Random, count: int) -> None:
    """File names typed on the page: nothing of other files is told, nothing waits."""
    outside = page.folder.parent / "outside.csv"
    for ending in ("toml", "tif"):
        outside.with_suffix(f".{ending}").write_text(f'x = "{SECRET}"\n', encoding="utf-8")
    (page.folder / "link.csv").symlink_to(outside)
    for name in ("pipe.csv", "pipe.toml", "pipe.tif"):
        os.mkfifo(page.folder / name)
    (page.folder / "link to a pipe.csv").symlink_to(page.folder / "pipe.csv")
    (page.folder / "folder").mkdir()
    (page.folder / "zero.csv").symlink_to("/dev/zero")
    (page.folder / "notes.csv").write_text(f"{SECRET}\n{SECRET},{SECRET}\n", encoding="utf-8")
    (page.folder / "notes.toml").write_text(f'{SECRET} = "{SECRET}"\nx\n', encoding="utf-8")
    for number, (place, sheet) in enumerate((("reach.terrain", "reach"), ("prices.list", "cost"))):
        # A small count tries each name at one of the two places.
        names = _NAMES if count > len(_NAMES) else _NAMES[number::2]
        with page.window(sheet) as window:
            for seq, name in enumerate(names, start=2):
                tell(window, {"kind": "write", "place": place, "text": name}, seq=seq)
                said = until(window, partial(_answers, seq))
                _refuse_secret(json.dumps(said), f"{place} = {name}")
                _refuse_secret(page.text(f"/{sheet}.json")[1], f"{place} = {name}")
    for name in (*_NAMES, "notes.toml"):
        for sheet in ("compare", "start"):
            shown = page.text(f"/{sheet}.json?with={name.replace('/', '%2F').replace(' ', '+')}")[1]
            _refuse_secret(shown, f"{sheet} with {name}")
    with page.window("start") as window:
        for name in (*_NAMES, "notes.toml"):
            tell(window, {"kind": "shelve", "action": "open", "name": name})
            answer = until(window, lambda said: said["kind"] in {"shelf", "moved"})
            _refuse_secret(json.dumps(answer), f"open {name}")
    page.alive()


def _answers(seq: int, said: dict[str, Any]) -> bool:
    return said["kind"] == "quick" and int(said["seq"]) >= seq


def _refuse_secret(text: str, doing: str) -> None:
    found = [word for word in (SECRET, "root:", "XDG_STATE_HOME") if word in text]
    if found:
        raise ThroughError(f"{doing}: {found[0]!r} was told")


def attack_file_of_plan(page: Page, chance: random.Random, count: int) -> None:
    """The plan deleted, moved away, broken or replaced while it is open: told, and settled."""
    moved = page.folder.with_name("moved")

    def broken() -> None:
        page.path.write_text("half a li", encoding="utf-8")

    def folder() -> None:
        page.path.unlink()
        page.path.mkdir()

    def pipe() -> None:
        page.path.unlink()
        os.mkfifo(page.path)

    for what, spoil in {
        "deleted": page.path.unlink,
        "broken": broken,
        "folder moved": lambda: page.folder.rename(moved),
        "a folder in its place": folder,
        "a pipe in its place": pipe,
    }.items():
        height = f"{chance.uniform(11.0, 14.0):.2f} m"
        with page.window() as window:
            until(window, lambda said: said["kind"] == "quick")
            spoil()
            # Nothing was changed here yet, and still the page must not call it saved.
            until(window, _unsaved, wait=20.0)
            tell(window, {"kind": "write", "place": "beam[0].height", "text": height}, seq=5)
            until(window, lambda said: said["kind"] == "quick" and said["seq"] >= 5)
            tell(window, {"kind": "act", "action": "keep-mine"}, seq=6)
            _wait(partial(_lies, page, height), f"{what}: the edit lies nowhere")
        if page.path.is_dir():
            page.path.rmdir()
        with page.window() as window:
            _wait(partial(_written, page, window), f"{what}: never written again")
    page.alive()


def _unsaved(said: dict[str, Any]) -> bool:
    return said.get("saving", {}).get("state", "saved") not in {"saved", "changed"}


def _lies(page: Page, height: str) -> bool:
    """Whether a height stands in the plan, or in what is kept of it elsewhere."""
    for path in page.folder.parent.rglob("*.toml"):
        with suppress(OSError):
            if path.is_file() and f'"{height}"' in path.read_text(encoding="utf-8"):
                return True
    return False


def _written(page: Page, window: ClientConnection) -> bool:
    """Whether the plan stands in its file again; ask for it otherwise."""
    if page.path.is_file():
        return True
    page.path.unlink(missing_ok=True)
    for number, action in enumerate(("look", "keep-mine", "save")):
        tell(window, {"kind": "act", "action": action}, seq=number + 1)
        time.sleep(0.3)
    return False


def _wait(found: Callable[[], bool], failing: str) -> None:
    ends = time.monotonic() + ANSWER
    while not found():
        if time.monotonic() > ends:
            raise ThroughError(failing)
        time.sleep(0.2)


def attack_closing(page: Page, chance: random.Random, count: int) -> None:
    """Windows closed at any moment, also while a search runs: no traceback, no edit lost."""
    with ExitStack() as opened:
        for number in range(min(count, 20)):
            sheet = chance.choice(["beam", "reach", "start", "structure"])
            window = opened.enter_context(page.window(sheet))
            edit: dict[str, Any] = {"kind": "raise", "beam": 0, "height": 12.0 + 0.1 * number}
            if number % 4 == 0:
                action = chance.choice(["start", "compare", "tolerate"])
                edit = {"kind": "improve", "action": action}
            tell(window, edit)
            time.sleep(chance.choice([0.0, 0.05, 0.5, 2.0]))
            # Without a word, as when the browser is killed.
            window.socket.close()
    page.alive()


def attack_deaf(page: Page, chance: random.Random, count: int) -> None:
    """Windows that ask and never listen hold up no other, and the server grows by little."""
    before = page.memory()
    with ExitStack() as opened:
        for _ in range(4):
            window = opened.enter_context(page.window("reach", max_queue=1))
            for number in range(2000):
                height = 11.0 + 0.001 * number
                with suppress(ConnectionClosed, TimeoutError):
                    tell(window, {"kind": "raise", "beam": 0, "height": height}, seq=number)
        page.alive()
    if page.memory() - before > 500_000_000:
        raise ThroughError(f"{(page.memory() - before) / 1e6:.0f} MB more than before")


def attack_ending(page: Page, chance: random.Random, count: int) -> None:
    """Ctrl-C, twice, while everything is busy: the server ends and the edits are in the file."""
    links = [page.raw() for _ in range(40)]
    for number, link in enumerate(links):
        sheet = ("reach", "feed", "cost", "share.html", "book.pdf")[number % 5]
        target = f"/{sheet}" if "." in sheet else f"/{sheet}.json"
        head = f"GET {target} HTTP/1.1\r\nHost: {page.host}:{page.port}\r\nCookie: {page.cookie}"
        link.sendall(f"{head}\r\n\r\n".encode())
    with page.window("beam") as window, page.window("beam") as searching:
        tell(searching, {"kind": "improve", "action": "start"})
        height = f"{chance.uniform(11.0, 14.0):.2f} m"
        tell(window, {"kind": "write", "place": "beam[0].height", "text": height}, seq=3)
        until(window, lambda said: said["kind"] == "quick" and said["seq"] >= 3)
        page.process.send_signal(signal.SIGINT)
        time.sleep(0.3)
        page.end()
    for link in links:
        link.close()
    if f'"{height}"' not in page.path.read_text(encoding="utf-8"):
        raise ThroughError("the last edit is not in the file")


ATTACKS: dict[str, Callable[[Page, random.Random, int], None]] = {
    "frames": attack_frames,
    "requests": attack_requests,
    "silence": attack_silence,
    "passwords": attack_passwords,
    "files": attack_files,
    "plan": attack_file_of_plan,
    "closing": attack_closing,
    "deaf": attack_deaf,
    "ending": attack_ending,
}


def run(name: str, *, seed: int, count: int) -> str:
    """Run one attack; say what got through, or nothing."""
    with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as folder:
        page = Page(Path(folder), beyond=name in {"passwords", "files"})
        said = ""
        try:
            ATTACKS[name](page, random.Random(seed), count)  # noqa: S311
        except (ThroughError, OSError, ConnectionClosed) as error:
            said = f"{type(error).__name__}: {error}"
        try:
            page.end()
        except ThroughError as error:
            said = said or str(error)
        return said


def main() -> int:
    """Run the attacks asked for."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("attacks", nargs="*", choices=[[], *ATTACKS], metavar="ATTACK")
    asked.add_argument("--count", type=int, default=500)
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    through = 0
    for name in given.attacks or ATTACKS:
        said = run(name, seed=given.seed, count=given.count)
        through += bool(said)
        print(f"{name}: {said or 'held'}", flush=True)
    return 1 if through else 0


if __name__ == "__main__":
    sys.exit(main())
