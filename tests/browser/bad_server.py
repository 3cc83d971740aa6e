"""A plain static server that goes wrong exactly where it is told to: `python bad_server.py PORT FOLDER ORDERS`.

ORDERS is a JSON file, read anew at each request: {"end": [which, how], "harm": {path: how}, "headers": {name: text}}.

* `end`: at its nth request, or at that for the path given, the server's process is killed: "before" it answers, in the
  "middle" of the content, or "after" it.
* `harm`: how a file is answered wrongly: corrupted, truncated (as if that were all), cut (the connection ends too
  early), redirected, or a status.
* `headers` stand in every answer, in place of the server's own of that name.

One line for each request goes to the file beside ORDERS that is called requests.txt.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import threading
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

COUNTING = threading.Lock()
count = 0


class Handler(SimpleHTTPRequestHandler):
    """Answers as told."""

    orders_file = Path()
    own: dict[str, str]

    def do_GET(self) -> None:
        """Answer, count, and end where that was ordered."""
        global count
        orders: dict[str, Any] = json.loads(self.orders_file.read_text("utf-8"))
        with COUNTING:
            count += 1
            number = count
            with self.orders_file.with_name("requests.txt").open("a", encoding="utf-8") as log:
                log.write(self.path + "\n")
        self.own = orders.get("headers", {})
        path = unquote(urlsplit(self.path).path).lstrip("/")
        end_at, end_how = orders.get("end", [0, ""])
        now = end_at in (number, path)
        harm = orders.get("harm", {}).get(path)
        if now and end_how == "before":
            os.kill(os.getpid(), signal.SIGKILL)
        if now and end_how == "middle":
            self.answer(path, "cut")
        elif harm:
            self.answer(path, harm)
        else:
            super().do_GET()
        if now:
            self.wfile.flush()
            os.kill(os.getpid(), signal.SIGKILL)

    def answer(self, path: str, harm: str) -> None:
        """The file `path`, harmed."""
        place = Path(self.directory) / path
        if place.is_dir():
            place /= "index.html"
        content = place.read_bytes()
        if harm == "redirected":
            self.send_response(302)
            self.send_header("Location", "/404.html")
            self.end_headers()
            return
        self.send_response(int(harm) if harm.isdigit() else 200)
        self.send_header("Content-Type", self.guess_type(str(place)))
        sent = {"corrupted": b"#" + content[1:], "truncated": content[:-1]}.get(harm, content)
        self.send_header("Content-Length", str(len(sent)))
        self.end_headers()
        self.wfile.write(sent[: len(sent) // 2] if harm == "cut" else sent)

    def send_header(self, keyword: str, value: str) -> None:
        """The server's own header unless another stands in its place."""
        if keyword not in self.own:
            super().send_header(keyword, value)

    def end_headers(self) -> None:
        """What was ordered besides."""
        for name, value in self.own.items():
            super().send_header(name, value)
        super().end_headers()

    def log_message(self, format: str, *args: Any) -> None:
        """Nothing on the terminal."""


class Server(ThreadingHTTPServer):
    """Says nothing about browsers that go away."""

    daemon_threads = True
    request_queue_size = 64

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that has what it wanted closes the connection."""


if __name__ == "__main__":
    port, folder, orders_file = int(sys.argv[1]), sys.argv[2], Path(sys.argv[3])
    Handler.orders_file = orders_file
    Server(("127.0.0.1", port), lambda *given: Handler(*given, directory=folder)).serve_forever()
