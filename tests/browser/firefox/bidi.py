"""Firefox as Debian has it, driven by the open standard WebDriver BiDi, which it speaks by itself.

Playwright's own Firefox would have to be downloaded, and of Debian's it asks a command that it does not know.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from websockets.sync.client import ClientConnection, connect

PATIENCE = 60.0  # s
LISTENS = re.compile(r"WebDriver BiDi listening on (ws://\S+)")
PREFS = {
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "app.update.enabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "browser.safebrowsing.downloads.remote.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "services.settings.server": "data:,",
    "extensions.getAddons.cache.enabled": False,
    "browser.aboutwelcome.enabled": False,
    "browser.startup.homepage_override.mstone": "ignore",
}


def program() -> str | None:
    return shutil.which("firefox-esr") or shutil.which("firefox")


class Fault(Exception):
    """What the browser or a script in the page answered with."""


class Firefox:
    """One window of it: go, ask a script, tap, type."""

    def __init__(self, socket: ClientConnection) -> None:
        self.socket = socket
        self.number = 0
        self.faults: list[str] = []
        self.asked: list[str] = []
        self.send("session.new", capabilities={"alwaysMatch": {"acceptInsecureCerts": False}})
        self.window = self.send("browsingContext.getTree")["contexts"][0]["context"]
        self.send("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])
        self.send("browsingContext.setViewport", context=self.window, viewport={"width": 390, "height": 844})

    def send(self, method: str, **params: Any) -> Any:
        self.number += 1
        self.socket.send(json.dumps({"id": self.number, "method": method, "params": params}))
        while True:
            said = json.loads(self.socket.recv(timeout=PATIENCE))
            if said.get("id") == self.number:
                if said["type"] == "error":
                    raise Fault(f"{method}: {said['message']}")
                return said["result"]
            self._happened(said)

    def _happened(self, said: dict[str, Any]) -> None:
        if said.get("method") == "log.entryAdded" and said["params"]["level"] == "error":
            self.faults.append(said["params"]["text"])
        if said.get("method") == "network.beforeRequestSent":
            self.asked.append(said["params"]["request"]["url"])

    def go(self, address: str) -> None:
        self.send("browsingContext.navigate", context=self.window, url=address, wait="interactive")

    def reload(self) -> None:
        self.send("browsingContext.reload", context=self.window, wait="interactive")

    def ask(self, script: str, *given: str) -> Any:
        """Give what a function in the page returns, by way of JSON."""
        answer = self.send(
            "script.callFunction",
            functionDeclaration=f"async (...given) => JSON.stringify(await ({script})(...given) ?? null)",
            arguments=[{"type": "string", "value": one} for one in given],
            target={"context": self.window},
            awaitPromise=True,
        )
        if answer["type"] == "exception":
            raise Fault(answer["exceptionDetails"]["text"])
        return json.loads(answer["result"]["value"])

    def wait(self, script: str, *given: str, patience: float = PATIENCE) -> Any:
        """Ask until the answer means yes; give it."""
        end = time.monotonic() + patience
        while not (answer := self.ask(script, *given)):
            assert time.monotonic() < end, f"waited for {script} {given}: {self.text('.md-content')[:600]}"
            time.sleep(0.1)
        return answer

    def text(self, selector: str) -> str:
        found: str = self.ask("(what) => document.querySelector(what)?.innerText ?? ''", selector)
        return found

    def reads(self, selector: str, words: str, patience: float = PATIENCE) -> None:
        """Wait until a place of the page reads so."""
        self.wait(
            "(what, words) => document.querySelector(what)?.innerText.replace(/\\s+/g, ' ').includes(words)",
            selector,
            words,
            patience=patience,
        )

    def tap(self, selector: str, words: str = "") -> None:
        """Press in the middle of the first place in sight that matches and holds the words."""
        place = self.wait(
            """(what, words) => {
              const found = [...document.querySelectorAll(what)].find((one) =>
                one.checkVisibility({visibilityProperty: true}) && one.innerText.includes(words));
              if (!found) return null;
              found.scrollIntoView({block: "center", behavior: "instant"});
              const box = found.getBoundingClientRect();
              const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
              const there = document.elementFromPoint(x, y);
              return found.contains(there) || there?.contains(found) ? [Math.round(x), Math.round(y)] : null;
            }""",
            selector,
            words,
        )
        x, y = place
        self._act("pointer", "finger", {"pointerType": "touch"}, [
            {"type": "pointerMove", "x": x, "y": y},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ])  # fmt: skip

    def type(self, selector: str, text: str) -> None:
        """Tap a field, take away what stands in it, and press the keys of a text."""
        self.tap(selector)
        self.wait("(what) => document.activeElement === document.querySelector(what)", selector)
        self.ask("() => document.activeElement.select()")
        keys = [{"type": kind, "value": key} for key in text for kind in ("keyDown", "keyUp")]
        self._act("key", "keys", {}, keys)

    def _act(self, kind: str, name: str, parameters: dict[str, str], actions: list[dict[str, Any]]) -> None:
        source = {"type": kind, "id": name, "actions": actions} | ({"parameters": parameters} if parameters else {})
        self.send("input.performActions", context=self.window, actions=[source])


@contextmanager
def firefox(profile: Path, prefs: Mapping[str, Any] = {}) -> Iterator[Firefox]:
    """Start it on a profile, which it keeps; end it as a person does, who closes the window."""
    profile.mkdir(exist_ok=True)
    lines = [f'user_pref("{name}", {json.dumps(value)});' for name, value in {**PREFS, **prefs}.items()]
    (profile / "user.js").write_text("\n".join(lines), "utf-8")
    path = program()
    assert path
    running = subprocess.Popen(
        [path, "--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port", "0"],
        stderr=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        text=True,
    )
    try:
        with connect(f"{_address(running)}/session", max_size=None, compression=None) as socket:
            window = Firefox(socket)
            yield window
            window.send("browser.close")
        running.wait(20)
    finally:
        if running.poll() is None:
            running.kill()
            running.wait()
        if running.stderr:
            running.stderr.close()


def _address(running: subprocess.Popen[str]) -> str:
    assert running.stderr
    for line in running.stderr:
        if found := LISTENS.search(line):
            return found[1]
    raise AssertionError("Firefox ended before it listened")
