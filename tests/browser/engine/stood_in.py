"""What stands in for Python in the browser, where a test is not about it: to start it takes a second of processor."""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path

from playwright.sync_api import Error, Page, Route

from calculators.page import respond
from tests.browser.conftest import PYTHON
from tests.fresh import fresh

STAND_IN = Path(__file__).with_name("stand_in.mjs")
ASKED = "asked-of-python-here"
A_WORKER = f"""
const post = (message) => self.postMessage(JSON.stringify(message));
self.onmessage = async (event) => {{
  const {{ id, kind, needs, request }} = JSON.parse(event.data);
  if (kind === "load") return post({{ id, kind: "loaded", needs }});
  const reply = await (await fetch("{ASKED}", {{ method: "POST", body: JSON.stringify(request) }})).json();
  post({{ id, kind: "reply", calculators: "%%CALCULATORS%%", reply, ms: 1 }});
}};
post({{ kind: "ready", packages: [], again: false, ms: {{ all: 1 }} }});
"""
HERE = """(() => {
  const Own = Worker;
  class Here extends EventTarget {
    constructor(address) {
      super();
      const mark = /"calculators": "([0-9a-f]{12})"/;
      this.own = fetch(address).then(async (came) => mark.exec(came.ok ? await came.text() : "")[1]);
      const failed = () => this.dispatchEvent(new Event("error", { cancelable: true })); // of a former edition
      this.own.then(() => this.say('{"kind":"ready","packages":[],"again":false,"ms":{"all":1}}'), failed);
    }
    say(text) {
      if (!this.ended) this.dispatchEvent(new MessageEvent("message", { data: text }));
    }
    async postMessage(text) {
      const { id, kind, needs, request } = JSON.parse(text);
      const own = await this.own.catch(() => null);
      if (!own) return;
      if (kind === "load") return void (id && this.say(JSON.stringify({ id, kind: "loaded", needs })));
      const reply = await askPythonHere(JSON.stringify(request));
      this.say(`{"id":${id},"kind":"reply","calculators":"${own}","ms":1,"reply":${reply}}`);
    }
    terminate() {
      this.ended = true;
    }
  }
  globalThis.Worker = function (address, options) {
    return String(address).includes("%PYTHON%") ? new Here(address) : new Own(address, options);
  };
  globalThis.Worker.prototype = Own.prototype;
})()"""


def in_place_of_python(page: Page, script: str, calculators: str = "") -> None:
    """Let this be its worker; with the mark of the page's own calculators, or with another."""

    def instead(route: Route) -> None:
        with suppress(Error):  # the page was left meanwhile
            reply = route.fetch()
            if not reply.ok:  # it is of a former edition
                route.fulfill(response=reply)
                return
            own = re.search(r'"calculators": "([0-9a-f]{12})"', reply.text())
            assert own, "the worker does not know its calculators"
            body = script.replace("%%CALCULATORS%%", calculators or own[1])
            route.fulfill(body=body, content_type="text/javascript")

    page.route(f"**{PYTHON}*", instead)


def python_here(page: Page) -> None:
    """Let the Python of this process answer, which gives the same letters as that in the browser (other tests).

    It is there from the next page that is loaded, in every tab of the page's browser. Nothing is met on its way, so
    that the browser takes from its cache what it has.
    """
    fresh()
    page.context.on("close", lambda _: fresh())
    page.context.expose_function("askPythonHere", respond)
    page.context.add_init_script(HERE.replace("%PYTHON%", PYTHON))


def worker_here(page: Page) -> None:
    """Do the same by a worker, for tests of how workers are started, left and ended."""

    def answer(route: Route) -> None:
        with suppress(Error):  # as above
            route.fulfill(body=respond(route.request.post_data or ""), content_type="application/json")

    in_place_of_python(page, A_WORKER)
    page.route(f"**/{ASKED}", answer)


HELD = """(times) => {
  const held = new Map();
  const { setTimeout: later, clearTimeout: never } = window;
  let last = 1e9;
  window.setTimeout = (work, ms, ...given) => {
    if (!times.includes(ms)) return later(work, ms, ...given);
    held.set(++last, [ms, () => work(...given)]);
    return last;
  };
  window.clearTimeout = (number) => held.delete(number) || never(number);
  window.ring = (ms) => {
    const due = [...held].filter(([, [set]]) => set === ms);
    for (const [number, [, work]] of due) held.delete(number), work();
    return due.length;
  };
}"""


def hold(page: Page, *ms: int) -> None:
    """Let what the page waits for so long not come before `ring`."""
    page.add_init_script(f"({HELD})({list(ms)})")


def ring(page: Page, ms: int) -> None:
    """Let that time be over. Where none is set the test fails, so none goes by unseen."""
    page.wait_for_function("ms => window.ring(ms)", arg=ms)
